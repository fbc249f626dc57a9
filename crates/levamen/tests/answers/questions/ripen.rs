//! When a pre-ferment is ripe.

use levamen::{Error, GrowthReport, RipenQuestion, read_duration};
use levamen_views::{json, plot, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{NO_TEXT, Question, Request, Shown, clock, share, temperature};

/// A stage of a dough, and what is known of its ripening.
pub struct Ripening {
    dough: String,
    stage: Option<String>,
    known: RipenQuestion,
    is_drawn: bool,
}

pub fn ripen(dough: &str) -> Question<Ripening> {
    let known = RipenQuestion::default();
    let request = Ripening { dough: dough.to_owned(), stage: None, known, is_drawn: false };
    Question::new(&format!("ripen {dough}"), request)
}

impl Question<Ripening> {
    pub fn stage(self, name: &str) -> Self {
        self.named(name, |asked| asked.stage = Some(name.to_owned()))
    }

    pub fn at(self, warmth: &str) -> Self {
        self.with("at", warmth, |asked| asked.known.at = Some(temperature(warmth)))
    }

    pub fn within(self, time: &str) -> Self {
        let (duration, ..) = read_duration(NO_TEXT, time).unwrap();
        self.with("in", time, |asked| asked.known.time = Some(duration))
    }

    pub fn seed(self, on_flour: &str) -> Self {
        self.with("seed", on_flour, |asked| asked.known.seed = Some(share(on_flour)))
    }

    pub fn yeast(self, on_flour: &str) -> Self {
        self.with("yeast", on_flour, |asked| asked.known.yeast = Some(share(on_flour)))
    }

    /// A room that is so warm from these hours on.
    pub fn room(self, hours: &[(&str, &str)]) -> Self {
        let written: Vec<String> = hours.iter().map(|(from, warmth)| format!("{from} {warmth}")).collect();
        self.with("room", written.join(", "), |asked| {
            asked.known.room =
                hours.iter().map(|(from, warmth)| (clock(from), temperature(warmth))).collect();
        })
    }

    pub fn set(self, time: &str) -> Self {
        self.with("set", time, |asked| asked.known.set = Some(clock(time)))
    }

    pub fn ready(self, time: &str) -> Self {
        self.with("ready", time, |asked| asked.known.ready = Some(clock(time)))
    }

    /// With the curve of its growth.
    pub fn drawn(self) -> Self {
        self.with("plot", "-", |asked| asked.is_drawn = true)
    }

    /// What grows in the stage.
    pub fn growth(&self, asked: &Asked) -> GrowthReport {
        let Ripening { dough, stage, known, .. } = &self.request;
        let (workspace, id) = asked.dough("", dough).unwrap();
        levamen::ripen(&workspace, id, stage.as_deref(), known.clone(), true).unwrap().growth.unwrap()
    }
}

impl Request for Ripening {
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error> {
        let (workspace, id) = asked.dough(over, &self.dough)?;
        let report =
            levamen::ripen(&workspace, id, self.stage.as_deref(), self.known.clone(), self.is_drawn)?;
        let drawn = report.growth.as_ref().map(|growth| format!("\n{}", plot::terminal(growth)));
        let words = || text::ripe(&report) + &drawn.unwrap_or_default();
        Ok(shown.answer(|| json::RipeJson::from(&report), words))
    }
}
