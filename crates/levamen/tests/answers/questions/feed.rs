//! Feeding cultures: for what is needed of them, and a new one day by day.

use jiff::civil::{Time, time};
use levamen::quantity::{Mass, Temperature};
use levamen::{Error, FeedQuestion};
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Question, Request, Shown, mass, temperature};
use crate::questions::dates::{Dated, Dates};

/// At which hour what is needed is taken.
const TAKEN_AT: Time = time(4, 0, 0, 0);

/// Cultures, for a table of what is needed of them.
#[derive(Default)]
pub struct Feeding {
    dates: Dates,
    need: String,
    culture: Option<String>,
    feed_at: Option<Vec<Time>>,
    kept_at: Option<Temperature>,
    on_hand: Option<Mass>,
}

pub fn feed() -> Question<Feeding> {
    Question::new("feed", Feeding::default())
}

impl Dated for Feeding {
    fn dates(&mut self) -> &mut Dates {
        &mut self.dates
    }
}

impl Question<Feeding> {
    /// What is needed, as a table beside the book says.
    pub fn need(self, table: &str) -> Self {
        self.with("need", table, |asked| table.clone_into(&mut asked.need))
    }

    pub fn culture(self, name: &str) -> Self {
        self.with("culture", name, |asked| asked.culture = Some(name.to_owned()))
    }

    pub fn feed_at(self, times: &[Time]) -> Self {
        let written: Vec<String> = times.iter().map(|time| time.strftime("%H:%M").to_string()).collect();
        self.with("feed-at", written.join(","), |asked| asked.feed_at = Some(times.to_vec()))
    }

    pub fn kept_at(self, warmth: &str) -> Self {
        self.with("kept-at", warmth, |asked| asked.kept_at = Some(temperature(warmth)))
    }

    pub fn on_hand(self, culture: &str) -> Self {
        self.with("on-hand", culture, |asked| asked.on_hand = Some(mass(culture)))
    }
}

impl Request for Feeding {
    fn answer(&self, asked: &Asked, _: &str, shown: Shown) -> Result<Answer, Error> {
        let question = FeedQuestion {
            days: self.dates.days(),
            culture: self.culture.clone(),
            at: TAKEN_AT,
            feed_at: self.feed_at.clone(),
            kept_at: self.kept_at.clone(),
            on_hand: self.on_hand.clone(),
        };
        let sheets = levamen::feed(&asked.workspace(), &question, &asked.table(&self.need))?;
        let pages = || sheets.iter().map(text::feed).collect::<Vec<_>>().join("\n");
        Ok(shown.answer(|| sheets.iter().map(json::FeedJson::from).collect::<Vec<_>>(), pages))
    }
}

/// A culture that is begun anew.
pub struct NewCulture {
    name: String,
}

pub fn new_culture(name: &str) -> Question<NewCulture> {
    Question::new(&format!("feed --new {name}"), NewCulture { name: name.to_owned() })
}

impl Request for NewCulture {
    fn answer(&self, asked: &Asked, _: &str, shown: Shown) -> Result<Answer, Error> {
        let sheet = levamen::new_culture(&asked.workspace(), &self.name)?;
        Ok(shown.answer(|| json::NewCultureJson::from(&sheet), || text::new_culture(&sheet)))
    }
}
