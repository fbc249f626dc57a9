//! A dough with another pre-ferment.

use levamen::quantity::TimeUnit;
use levamen::{ConversionRequest, ConversionTarget, Error, RipeningTemperature, RipeningTime, read_duration};
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Form, NO_TEXT, Question, Request, Shown, degrees, share};

/// A dough, and what becomes of its pre-ferment.
pub struct Conversion {
    dough: String,
    request: ConversionRequest,
}

pub fn convert(dough: &str, target: ConversionTarget) -> Question<Conversion> {
    let words = format!("convert {dough} --to {}", target.name());
    Question::new(&words, Conversion { dough: dough.to_owned(), request: ConversionRequest::new(target) })
}

impl Question<Conversion> {
    /// Instead of this pre-ferment.
    pub fn stage(self, name: &str) -> Self {
        self.with("stage", name, |asked| asked.request.stage = Some(name.to_owned()))
    }

    /// So much pre-fermented flour.
    pub fn share(self, on_flour: &str) -> Self {
        self.with("share", on_flour, |asked| asked.request.share = Some(share(on_flour)))
    }

    pub fn hydration(self, on_flour: &str) -> Self {
        self.with("hydration", on_flour, |asked| asked.request.hydration = Some(share(on_flour)))
    }

    pub fn seed(self, on_flour: &str) -> Self {
        self.with("seed", on_flour, |asked| asked.request.seed = Some(share(on_flour)))
    }

    pub fn given_back(self) -> Self {
        self.so("given-back", |asked| asked.request.given_back = true)
    }

    pub fn culture(self, name: &str) -> Self {
        self.with("culture", name, |asked| asked.request.culture = Some(name.to_owned()))
    }

    /// One more flour of the pre-ferment.
    pub fn flour(self, name: &str) -> Self {
        self.with("flour", name, |asked| asked.request.flours.push(name.to_owned()))
    }

    pub fn yeast(self, name: &str) -> Self {
        self.with("yeast", name, |asked| asked.request.yeast = Some(name.to_owned()))
    }

    /// So much of a yeast on the pre-ferment's flour.
    pub fn dosed(self, yeast: &str, dose: &str) -> Self {
        self.with("yeast", format!("{yeast} {dose}"), |asked| {
            asked.request.yeast = Some(yeast.to_owned());
            asked.request.dose = Some(share(dose));
        })
    }

    pub fn hours(self, hours: u32) -> Self {
        let time = RipeningTime { figure: hours.into(), unit: TimeUnit::Hour };
        self.with("hours", hours, |asked| asked.request.time = Some(time))
    }

    /// A time with its unit.
    pub fn time(self, written: &str) -> Self {
        let (_, figure, unit) = read_duration(NO_TEXT, written).unwrap();
        self.with("hours", written, |asked| asked.request.time = Some(RipeningTime { figure, unit }))
    }

    pub fn at(self, warmth: &str) -> Self {
        let (_, figure, unit) = degrees(warmth);
        self.with("at", warmth, |asked| asked.request.warmth = Some(RipeningTemperature { figure, unit }))
    }

    /// The new dough's name.
    pub fn name(self, name: &str) -> Self {
        self.with("name", name, |asked| asked.request.name = Some(name.to_owned()))
    }
}

impl Request for Conversion {
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error> {
        let (workspace, id) = asked.dough(over, &self.dough)?;
        let found = levamen::convert(&workspace, id, &self.request, |_| false)?;
        if shown.form == Form::Json {
            return Ok(shown.answer(|| json::ConversionJson::from(&found), String::new));
        }
        let beside = format!("\n{}", text::conversion(&found));
        Ok(Answer { shown: found.done.text, beside, is_incomplete: false })
    }
}
