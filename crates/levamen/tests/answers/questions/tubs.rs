//! Which tubs a dough's pre-ferments rise in.

use levamen::quantity::{Mass, Volume};
use levamen::{Error, read_volume};
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{NO_TEXT, Question, Request, Shown, mass};

/// A dough, and what it is put into.
pub struct Tubs {
    dough: String,
    sizes: Option<Vec<Volume>>,
    mixed: Option<Mass>,
}

pub fn tubs(dough: &str) -> Question<Tubs> {
    Question::new(&format!("tub {dough}"), Tubs { dough: dough.to_owned(), sizes: None, mixed: None })
}

impl Question<Tubs> {
    /// Tubs of one size.
    pub fn of(self, volume: &str) -> Self {
        let tub = read_volume(NO_TEXT, volume).unwrap().0;
        self.with("tubs", volume, |asked| asked.sizes = Some(vec![tub]))
    }

    /// So much dough as it is mixed.
    pub fn mixed(self, dough: &str) -> Self {
        self.with("dough", dough, |asked| asked.mixed = Some(mass(dough)))
    }
}

impl Request for Tubs {
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error> {
        let (workspace, id) = asked.dough(over, &self.dough)?;
        let plan = levamen::tubs(&workspace, id, self.sizes.clone(), self.mixed.clone())?;
        Ok(shown.answer(|| json::TubPlanJson::from(&plan), || text::tubs(&plan)))
    }
}
