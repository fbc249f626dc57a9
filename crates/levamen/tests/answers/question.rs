//! A question to the library: what is asked by values, with the words that a snapshot shows above the answer.

use std::fmt::Display;

use levamen::Error;
use levamen::quantity::{ClockTime, Exact, Mass, Share, Temperature, TemperatureUnit};
use levamen::{TextId, read_clock, read_mass, read_share, read_temperature};
use serde::Serialize;

use crate::answer::Answer;
use crate::asked::Asked;

/// The measures of a question stand in no text.
pub const NO_TEXT: TextId = TextId(0);

/// What is asked, and as what the answer is shown.
pub struct Question<R> {
    /// What is asked, as whoever uses the command types it.
    pub words: String,
    pub request: R,
    pub shown: Shown,
}

/// How an answer is shown.
#[derive(Clone, Copy)]
pub struct Shown {
    pub form: Form,
    /// Whether orders that are wrong leave an answer whole.
    pub skips_wrong: bool,
}

/// What an answer is written as.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Form {
    Text,
    Json,
    Csv,
}

/// What is asked of a book.
pub trait Request {
    /// The answer, `-` being the dough of the text that takes precedence over the book.
    fn answer(&self, asked: &Asked, over: &str, shown: Shown) -> Result<Answer, Error>;
}

impl<R> Question<R> {
    pub fn new(words: &str, request: R) -> Self {
        Self { words: words.to_owned(), request, shown: Shown { form: Form::Text, skips_wrong: false } }
    }

    /// Asks for something more by its name alone.
    pub fn named(mut self, name: &str, set: impl FnOnce(&mut R)) -> Self {
        set(&mut self.request);
        self.words.extend([" ", name]);
        self
    }

    /// Asks for something more: a value, and the words for it.
    pub fn with(mut self, option: &str, value: impl Display, set: impl FnOnce(&mut R)) -> Self {
        set(&mut self.request);
        self.words.extend([" --", option, " ", &value.to_string()]);
        self
    }

    /// Asks for something more that is so or not.
    pub fn so(mut self, option: &str, set: impl FnOnce(&mut R)) -> Self {
        set(&mut self.request);
        self.words.extend([" --", option]);
        self
    }

    pub fn json(mut self) -> Self {
        self.shown.form = Form::Json;
        self.so("json", |_| ())
    }

    /// As a file of a form.
    pub fn file(mut self, form: Form) -> Self {
        self.shown.form = form;
        self.with("as", if form == Form::Csv { "csv" } else { "json" }, |_| ())
    }

    pub fn skip_wrong(mut self) -> Self {
        self.shown.skips_wrong = true;
        self.so("skip-wrong", |_| ())
    }
}

impl Shown {
    /// An answer as JSON where that is asked for, and otherwise as text.
    pub fn answer<V: Serialize>(self, json: impl FnOnce() -> V, text: impl FnOnce() -> String) -> Answer {
        let is_json = self.form == Form::Json;
        let shown = if is_json { serde_json::to_string_pretty(&json()).unwrap() + "\n" } else { text() };
        Answer { shown, ..Answer::default() }
    }
}

pub fn mass(written: &str) -> Mass {
    read_mass(NO_TEXT, written).unwrap().mass
}

pub fn share(written: &str) -> Share {
    read_share(NO_TEXT, written).unwrap()
}

pub fn temperature(written: &str) -> Temperature {
    degrees(written).0
}

/// A temperature, and its figure and unit as they are written.
pub fn degrees(written: &str) -> (Temperature, Exact, TemperatureUnit) {
    read_temperature(NO_TEXT, written).unwrap()
}

pub fn clock(written: &str) -> ClockTime {
    read_clock(written).unwrap()
}
