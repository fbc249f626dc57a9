//! Why a figure is what it is.

use levamen::{Error, Wishes};
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Question, Request, Shown};
use crate::questions::wishes::Wishing;

/// A figure of a dough.
pub struct Reason {
    dough: String,
    figure: String,
    wishes: Wishes,
}

pub fn why(dough: &str, figure: &str) -> Question<Reason> {
    let reason = Reason { dough: dough.to_owned(), figure: figure.to_owned(), wishes: Wishes::default() };
    Question::new(&format!("why {dough} {figure}"), reason)
}

impl Wishing for Reason {
    fn wishes(&mut self) -> &mut Wishes {
        &mut self.wishes
    }
}

impl Request for Reason {
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error> {
        let (workspace, id) = asked.dough(over, &self.dough)?;
        let found = levamen::why(&workspace, id, &self.figure, &self.wishes)?;
        let as_json = || json::WhyJson::new(&found.why, &found.texts);
        Ok(shown.answer(as_json, || text::why(&found.why, &found.texts)))
    }
}
