//! How warm the water of a dough has to be.

use levamen::{Error, RoomWarmth, WaterQuestion, read_measured_batches, read_temperature_difference};
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{NO_TEXT, Question, Request, Shown, mass, temperature};

/// A dough, and how warm all of it is.
pub struct Watering {
    dough: String,
    warmth: WaterQuestion,
    /// A table of noted batches, and the mixer whose batches count.
    noted: Option<(String, String)>,
}

pub fn water(dough: &str) -> Question<Watering> {
    let request = Watering { dough: dough.to_owned(), warmth: WaterQuestion::default(), noted: None };
    Question::new(&format!("water {dough}"), request)
}

impl Question<Watering> {
    pub fn dough_at(self, warmth: &str) -> Self {
        self.with("dough-at", warmth, |asked| asked.warmth.dough_at = Some(temperature(warmth)))
    }

    pub fn flour(self, warmth: &str) -> Self {
        self.with("flour", warmth, |asked| asked.warmth.flour = Some(temperature(warmth)))
    }

    pub fn room(self, warmth: &str) -> Self {
        let room = RoomWarmth::At(temperature(warmth));
        self.with("room", warmth, |asked| asked.warmth.room = Some(room))
    }

    pub fn pre_ferment(self, warmth: &str) -> Self {
        self.with("preferment", warmth, |asked| asked.warmth.pre_ferment = Some(temperature(warmth)))
    }

    pub fn friction(self, rise: &str) -> Self {
        let friction = read_temperature_difference(NO_TEXT, rise).unwrap().0;
        self.with("friction", rise, |asked| asked.warmth.friction = Some(friction))
    }

    pub fn tap(self, warmth: &str) -> Self {
        self.with("tap", warmth, |asked| asked.warmth.tap = Some(temperature(warmth)))
    }

    /// So much dough as it is mixed.
    pub fn mixed(self, dough: &str) -> Self {
        self.with("dough", dough, |asked| asked.warmth.dough = Some(mass(dough)))
    }

    /// As the batches of a mixer say that a table beside the book holds.
    pub fn noted(self, table: &str, mixer: &str) -> Self {
        let noted = (table.to_owned(), mixer.to_owned());
        self.with("noted", table, |asked| asked.noted = Some(noted)).with("mixer", mixer, |_| ())
    }
}

impl Request for Watering {
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error> {
        let (workspace, id) = asked.dough(over, &self.dough)?;
        let mut question = self.warmth.clone();
        if let Some((table, mixer)) = &self.noted {
            question.measured = Some((read_measured_batches(&asked.table(table))?, mixer.clone()));
        }
        let answer = levamen::water(&workspace, id, &question)?;
        Ok(shown.answer(|| json::WaterJson::from(&answer), || text::water(&answer)))
    }
}
