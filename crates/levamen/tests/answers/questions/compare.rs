//! A dough beside another, or beside itself as it should be.

use levamen::{Error, Wishes};
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Question, Request, Shown};
use crate::questions::wishes::Wishing;

/// One dough or two.
pub struct Pair {
    first: String,
    second: Option<String>,
    wishes: Wishes,
    as_written: bool,
}

pub fn compare(dough: &str) -> Question<Pair> {
    let pair = Pair { first: dough.to_owned(), second: None, wishes: Wishes::default(), as_written: false };
    Question::new(&format!("compare {dough}"), pair)
}

impl Wishing for Pair {
    fn wishes(&mut self) -> &mut Wishes {
        &mut self.wishes
    }
}

impl Question<Pair> {
    pub fn beside(self, dough: &str) -> Self {
        self.named(dough, |pair| pair.second = Some(dough.to_owned()))
    }

    /// Each at the size of its own file.
    pub fn written(self) -> Self {
        self.so("as-written", |pair| pair.as_written = true)
    }
}

impl Request for Pair {
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error> {
        let (first, id) = asked.dough(over, &self.first)?;
        let other = self.second.as_ref().map(|name| asked.dough(over, name)).transpose()?;
        let second = other.as_ref().map_or((&first, id), |(book, id)| (book, *id));
        let found = levamen::compare((&first, id), second, &self.wishes, self.as_written)?;
        Ok(shown.answer(|| json::ComparisonJson::from(&found), || text::compare(&found)))
    }
}
