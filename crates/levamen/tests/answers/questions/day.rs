//! A day from order to bench.

use jiff::civil::Date;
use levamen::Error;
use levamen_views::text::DayPart;
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Question, Request, Shown};

/// A day, and the parts of its pages that are shown; none are all of them.
pub struct DayPages {
    date: Date,
    parts: Vec<DayPart>,
}

pub fn day(date: Date) -> Question<DayPages> {
    Question::new(&format!("day {date}"), DayPages { date, parts: Vec::new() })
}

impl Question<DayPages> {
    /// One more part that is shown.
    pub fn only(self, part: DayPart) -> Self {
        self.with("only", format!("{part:?}").to_lowercase(), |asked| asked.parts.push(part))
    }
}

impl Request for DayPages {
    fn answer(&self, asked: &Asked, _: &str, shown: Shown) -> Result<Answer, Error> {
        let workspace = asked.workspace();
        let orders = asked.with_orders(|orders| levamen::day_orders(&workspace, self.date, &orders))?;
        let report = levamen::day(&workspace, self.date, orders, levamen::Effort::default())?;
        let parts = if self.parts.is_empty() { &DayPart::ALL[..] } else { &self.parts };
        let answer = shown.answer(|| json::DayJson::new(&report), || text::day(&report, parts));
        Ok(answer.with_orders(&report.orders, shown).with_unfed(report.unfed))
    }
}
