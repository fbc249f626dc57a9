//! Times, temperatures and shares as they are said on the command line, by the rules of the dough texts.

use levamen_ferment::FermentError;
use levamen_language::{
    Amount, AmountKind, Problem, Ripens, Statement, TextId, read_amount, read_fact, read_temperature,
};
use levamen_quantity::{ClockTime, Duration, Share, Temperature, TemperatureDifference, Volume};

use crate::failure::Failure;

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
/// How a room is written.
const ROOM: &str = "write times and temperatures, such as --room \"18:00 24°C, 22:00 20°C, 04:00 17°C\"";

/// A length of time.
pub fn time(option: &str, words: &str) -> Result<Duration, Failure> {
    Ok(ripens(option, words, words, TIME)?.least)
}

/// A temperature.
pub fn temperature(option: &str, words: &str) -> Result<Temperature, Failure> {
    let read = read_temperature(TextId(0), words);
    read.map(|(temperature, ..)| temperature).map_err(|problem| told(option, words, &problem, TEMPERATURE))
}

/// A difference of temperatures: a friction, which may be below nothing.
pub fn difference(option: &str, words: &str) -> Result<TemperatureDifference, Failure> {
    let read = read_temperature(TextId(0), words);
    let (_, figure, unit) = read.map_err(|problem| told(option, words, &problem, DIFFERENCE))?;
    Ok(TemperatureDifference::from_unit(&figure, unit))
}

/// A share of something.
pub fn share(option: &str, words: &str) -> Result<Share, Failure> {
    let read = read_amount(TextId(0), words).map_err(|problem| told(option, words, &problem, SHARE))?;
    match read.kind {
        AmountKind::Percent { percent, of: None } => Ok(Share::from_percent(percent)),
        _ => Err(wrong(option, words, "no share", SHARE)),
    }
}

/// Volumes with commas between them.
pub fn volumes(option: &str, words: &str) -> Result<Vec<Volume>, Failure> {
    let volume = |words: &str| match read_amount(TextId(0), words) {
        Ok(Amount { kind: AmountKind::Volume { volume, .. }, .. }) => Ok(volume),
        Ok(_) => Err(wrong(option, words, "no volume", VOLUMES)),
        Err(problem) => Err(told(option, words, &problem, VOLUMES)),
    };
    words.split(',').map(|words| volume(words.trim())).collect()
}

/// A time of day.
pub fn clock(option: &str, words: &str) -> Result<ClockTime, Failure> {
    ClockTime::read(words).ok_or_else(|| wrong(option, words, "no time of day", CLOCK))
}

/// Temperatures by the clock.
pub fn room(words: &str) -> Result<Vec<(ClockTime, Temperature)>, Failure> {
    words
        .split(',')
        .map(|point| {
            let (when, warmth) = point
                .trim()
                .split_once(char::is_whitespace)
                .ok_or_else(|| wrong("--room", point.trim(), "no time and temperature", ROOM))?;
            Ok((clock("--room", when)?, temperature("--room", warmth.trim())?))
        })
        .collect()
}

/// What a model refuses, as a problem.
pub fn refused(refusal: FermentError) -> Problem {
    Problem { notes: refusal.notes, help: refusal.help, ..Problem::error(refusal.code, refusal.message) }
}

/// Reads what may stand after `ripens`, of which `words` were typed.
fn ripens(option: &str, words: &str, text: &str, form: &str) -> Result<Ripens, Failure> {
    match read_fact(TextId(0), &format!("ripens {text}")) {
        Ok(Statement::Ripens(ripens)) => Ok(*ripens),
        Ok(_) => Err(wrong(option, words, "no such measure", form)),
        Err(problem) => Err(told(option, words, &problem, form)),
    }
}

/// What is wrong with words that a dough text could have, and how they are written here.
fn told(option: &str, words: &str, problem: &Problem, form: &str) -> Failure {
    Failure::usage(format!("`{option} {words}`: {}", problem.message)).help(form)
}

fn wrong(option: &str, words: &str, what: &str, form: &str) -> Failure {
    Failure::usage(format!("`{option} {words}` is {what}")).help(form)
}
