//! Words that somebody typed into a field of a question, as values, by the rules of the dough texts.

use levamen_language::{
    AmountKind, Hint, NO_FIGURE, Problem, Statement, TextId, read_clock, read_duration, read_fact, read_mass,
    read_share, read_temperature, read_temperature_difference, read_volume,
};
use levamen_quantity::{
    ClockTime, Duration, Exact, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit, Volume,
};

/// Words of a field stand in no text.
const NO_TEXT: TextId = TextId(0);

/// How a weight is written.
const MASS: &str = "write a number and g, kg, lb or oz, such as 920g or 4.2kg";
/// How a time is written.
const TIME: &str = "write a number and h or min, such as 14h or 90min";
/// How a temperature is written.
const TEMPERATURE: &str = "write a number and °C or °F, such as 21°C or 70°F";
/// How a difference of temperatures is written.
const DIFFERENCE: &str = "write a difference in °C or °F, such as 8°C or 14°F";
/// How a share is written.
const SHARE: &str = "write a number and %, such as 10% or 0.1%";
/// How volumes are written.
const VOLUMES: &str = "write numbers and l or ml with commas between, such as 5l,10l,20l";
/// How a time of day is written.
const CLOCK: &str = "write hours and minutes on a clock of 24 hours, such as 04:30";

/// Why words are no value of a field. Which field it is knows who asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TypedError {
    /// The words, or those of them that are wrong.
    pub words: String,
    /// What is wrong with them.
    pub what: TypedErrorKind,
}

/// What is wrong with typed words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TypedErrorKind {
    /// They are none of what is wanted.
    None {
        /// What they are: `is no weight`.
        what: String,
        /// How one is written.
        form: TypedForm,
    },
    /// They are, and something is wrong with them.
    Wrong {
        /// What.
        message: String,
        /// How to mend it.
        help: Vec<Hint>,
        /// How it is written.
        form: Option<TypedForm>,
    },
    /// They would be right in another unit.
    Meant {
        /// What is wrong.
        message: String,
        /// What was perhaps meant: `degrees Fahrenheit`.
        unit: &'static str,
        /// How that is written.
        words: String,
    },
}

/// How the words of a field are written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TypedForm {
    /// As it says.
    Said(String),
    /// As in an example for the field itself, after such words.
    Field(&'static str, &'static str),
}

impl From<&str> for TypedForm {
    fn from(words: &str) -> Self {
        Self::Said(words.to_owned())
    }
}

/// A weight.
///
/// # Errors
/// The words are none.
pub fn mass(words: &str) -> Result<Mass, TypedError> {
    let read = read_mass(NO_TEXT, words).map(|quantity| quantity.mass);
    read.map_err(|problem| amount_refused(words, &problem, "weight", MASS))
}

/// A temperature at which bakers work: past 50 °C it is one in degrees Fahrenheit, and the wrong unit.
///
/// # Errors
/// The words are none.
pub fn working_temperature(words: &str) -> Result<Temperature, TypedError> {
    let warmth = temperature(words)?;
    let figure = warmth.in_unit(TemperatureUnit::Celsius);
    if figure < Exact::from(50) {
        return Ok(warmth);
    }
    let figure = figure.to_fixed(0);
    let message = format!("at {figure} °C yeast dies");
    let what = TypedErrorKind::Meant { message, unit: "degrees Fahrenheit", words: format!("{figure}°F") };
    Err(TypedError { words: words.to_owned(), what })
}

/// A length of time.
///
/// # Errors
/// The words are none.
pub fn time(words: &str) -> Result<Duration, TypedError> {
    let read = read_duration(NO_TEXT, words).map(|(time, ..)| time);
    read.map_err(|problem| refused(words, &problem, TIME))
}

/// A temperature.
///
/// # Errors
/// The words are none.
pub fn temperature(words: &str) -> Result<Temperature, TypedError> {
    let read = read_temperature(NO_TEXT, words).map(|(temperature, ..)| temperature);
    read.map_err(|problem| refused(words, &problem, TEMPERATURE))
}

/// A difference of temperatures: a friction, which may be below zero.
///
/// # Errors
/// The words are none.
pub fn difference(words: &str) -> Result<TemperatureDifference, TypedError> {
    let read = read_temperature_difference(NO_TEXT, words).map(|(difference, ..)| difference);
    read.map_err(|problem| refused(words, &problem, DIFFERENCE))
}

/// A share of something.
///
/// # Errors
/// The words are none.
pub fn share(words: &str) -> Result<Share, TypedError> {
    read_share(NO_TEXT, words).map_err(|problem| match problem.code {
        NO_FIGURE => wrong(words, "is no share", SHARE),
        _ => refused(words, &problem, SHARE),
    })
}

/// Volumes with commas between them.
///
/// # Errors
/// Some of the words are none.
pub fn volumes(words: &str) -> Result<Vec<Volume>, TypedError> {
    let volume = |one: &str| {
        let read = read_volume(NO_TEXT, one).map(|(volume, ..)| volume);
        read.map_err(|problem| match problem.code {
            NO_FIGURE => wrong(one, "is no volume", VOLUMES),
            _ => refused(one, &problem, VOLUMES),
        })
    };
    words.split(',').map(|one| volume(one.trim())).collect()
}

/// A time of day.
///
/// # Errors
/// The words are none.
pub fn clock(words: &str) -> Result<ClockTime, TypedError> {
    read_clock(words).map_err(|_| wrong(words, "is no time of day", CLOCK))
}

/// Temperatures by the clock.
///
/// # Errors
/// Some of the words are none.
pub fn room(words: &str) -> Result<Vec<(ClockTime, Temperature)>, TypedError> {
    let form = || {
        TypedForm::Field("write times and temperatures, such as ", " \"18:00 24°C, 22:00 20°C, 04:00 17°C\"")
    };
    let point = |point: &str| {
        let (when, warmth) = point
            .split_once(char::is_whitespace)
            .ok_or_else(|| wrong(point, "is no time and temperature", form()))?;
        Ok((clock(when)?, temperature(warmth.trim())?))
    };
    words.split(',').map(|words| point(words.trim())).collect()
}

/// The share of a dough that is lost. An amount of a text is never zero; here it takes back what the file says.
///
/// # Errors
/// The words are none under 100 %.
pub fn lost_share(words: &str) -> Result<Share, TypedError> {
    if words.trim().trim_end_matches('%').trim_end() == "0" {
        return Ok(Share::default());
    }
    let kind = "share under 100 %";
    let form = TypedForm::Field("write a share such as ", " 2%, or leave it out");
    let share = read_share(NO_TEXT, words);
    let share = share.map_err(|problem| amount_refused(words, &problem, kind, form.clone()))?;
    if share.percent() < Exact::HUNDRED {
        Ok(share)
    } else {
        Err(wrong(words, &format!("is no {kind}"), form))
    }
}

/// A share of the flour.
///
/// # Errors
/// The words are none.
pub fn share_of_flour(words: &str) -> Result<Share, TypedError> {
    let form = TypedForm::Field("write a share such as ", " 20%, or leave it out");
    read_share(NO_TEXT, words).map_err(|problem| amount_refused(words, &problem, "share of the flour", form))
}

/// Which yeast, and how much of the flour of a pre-ferment: `fresh yeast 0.2 %`, or one of the two.
///
/// # Errors
/// The words are neither.
pub fn yeast(words: &str) -> Result<(Option<String>, Option<Share>), TypedError> {
    if let Ok(Statement::Weigh(weigh)) = read_fact(NO_TEXT, words) {
        let name = weigh.name.spaced().into_owned();
        let form =
            TypedForm::Field("write a share of the pre-ferment's flour, such as ", " \"fresh yeast 0.2%\"");
        return match weigh.amount.kind {
            AmountKind::Percent { percent, of: None } => Ok((Some(name), Some(Share::from_percent(percent)))),
            _ => Err(wrong(words, "has no share of the flour", form)),
        };
    }
    if words.contains(|character: char| character.is_ascii_digit()) {
        return Ok((None, Some(share_of_flour(words)?)));
    }
    Ok((Some(words.to_owned()), None))
}

/// Why words are no amount of the kind that is wanted; `form` says how one is written here.
fn amount_refused(words: &str, problem: &Problem, kind: &str, form: impl Into<TypedForm>) -> TypedError {
    if problem.code == NO_FIGURE {
        return wrong(words, &format!("is no {kind}"), form);
    }
    // In a text a line may be left out, and a number may be a percentage or a weight; here neither is so.
    if ["zero", "missing-unit"].contains(&problem.code) {
        return refused(words, problem, form);
    }
    let message = problem.message.clone();
    let what = TypedErrorKind::Wrong { message, help: problem.help.clone(), form: None };
    TypedError { words: words.to_owned(), what }
}

/// What is wrong with words that a dough text could have, and how they are written here.
fn refused(words: &str, problem: &Problem, form: impl Into<TypedForm>) -> TypedError {
    let message = problem.message.clone();
    let what = TypedErrorKind::Wrong { message, help: Vec::new(), form: Some(form.into()) };
    TypedError { words: words.to_owned(), what }
}

fn wrong(words: &str, what: &str, form: impl Into<TypedForm>) -> TypedError {
    let what = TypedErrorKind::None { what: what.to_owned(), form: form.into() };
    TypedError { words: words.to_owned(), what }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What the words of one field come to, or what is wrong with them.
    fn said<T: std::fmt::Debug>(read: Result<T, TypedError>) -> String {
        match read.unwrap_err().what {
            TypedErrorKind::None { what, .. } => what,
            TypedErrorKind::Wrong { message, .. } => message,
            TypedErrorKind::Meant { message, unit, words } => format!("{message}; {unit}: {words}"),
        }
    }

    #[test]
    fn words_are_read_as_in_a_dough_text() {
        assert_eq!(mass("4.2 kg"), Ok(Mass::from_grams(Exact::from(4200))));
        assert_eq!(room("18:00 24°C, 04:00 17 °C").map(|points| points.len()), Ok(2));
        assert_eq!(volumes("5l, 10l").map(|volumes| volumes.len()), Ok(2));
        assert_eq!(clock("04:30"), Ok(ClockTime::from_minutes(270)));
    }

    #[test]
    fn what_is_wrong_is_said_without_the_name_of_a_field() {
        assert_eq!(said(mass("much")), "`much` is no amount");
        assert_eq!(said(share("10 kg")), "is no share");
        assert_eq!(said(room("18:00")), "is no time and temperature");
        assert_eq!(said(clock("4.30 h")), "is no time of day");
        assert_eq!(said(lost_share("100 %")), "is no share under 100 %");
        assert_eq!(lost_share("0"), Ok(Share::default()));
        assert_eq!(said(share_of_flour("10 kg")), "is no share of the flour");
        assert_eq!(said(working_temperature("75 °C")), "at 75 °C yeast dies; degrees Fahrenheit: 75°F");
    }
}
