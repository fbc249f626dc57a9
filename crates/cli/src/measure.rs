//! Weights, times, temperatures and shares as they are written on the command line, by the rules of the dough texts.

use levamen::quantity::{
    ClockTime, Duration, Exact, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit, Volume,
};
use levamen::{
    NO_FIGURE, Problem, TextId, read_clock, read_duration, read_mass, read_share, read_temperature,
    read_temperature_difference, read_volume,
};

use crate::advice::name;
use crate::failure::Failure;

/// Words of the command line stand in no text.
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
/// How a room is written.
const ROOM: &str = "write times and temperatures, such as --room \"18:00 24°C, 22:00 20°C, 04:00 17°C\"";

/// A weight.
pub fn mass(option: &str, words: &str) -> Result<Mass, Failure> {
    let read = read_mass(NO_TEXT, words).map(|quantity| quantity.mass);
    read.map_err(|problem| amount_refused(option, words, &problem, "weight", MASS))
}

/// A temperature at which bakers work: past 50 °C it is one in degrees Fahrenheit, and the wrong unit.
pub fn working_temperature(option: &str, words: &str) -> Result<Temperature, Failure> {
    let warmth = temperature(option, words)?;
    let figure = warmth.in_unit(TemperatureUnit::Celsius);
    if figure < Exact::from(50) {
        return Ok(warmth);
    }
    Err(Failure::usage(format!("`{option} {words}`: at {} °C yeast dies", figure.to_fixed(0)))
        .help(format!("if degrees Fahrenheit were meant, write {option} {}°F", figure.to_fixed(0))))
}

/// A length of time.
pub fn time(option: &str, words: &str) -> Result<Duration, Failure> {
    let read = read_duration(NO_TEXT, words).map(|(time, ..)| time);
    read.map_err(|problem| refused(option, words, &problem, TIME))
}

/// A temperature.
pub fn temperature(option: &str, words: &str) -> Result<Temperature, Failure> {
    let read = read_temperature(NO_TEXT, words).map(|(temperature, ..)| temperature);
    read.map_err(|problem| refused(option, words, &problem, TEMPERATURE))
}

/// A difference of temperatures: a friction, which may be below zero.
pub fn difference(option: &str, words: &str) -> Result<TemperatureDifference, Failure> {
    let read = read_temperature_difference(NO_TEXT, words).map(|(difference, ..)| difference);
    read.map_err(|problem| refused(option, words, &problem, DIFFERENCE))
}

/// A share of something.
pub fn share(option: &str, words: &str) -> Result<Share, Failure> {
    read_share(NO_TEXT, words).map_err(|problem| match problem.code {
        NO_FIGURE => wrong(option, words, "no share", SHARE),
        _ => refused(option, words, &problem, SHARE),
    })
}

/// Volumes with commas between them.
pub fn volumes(option: &str, words: &str) -> Result<Vec<Volume>, Failure> {
    let volume = |words: &str| {
        let read = read_volume(NO_TEXT, words).map(|(volume, ..)| volume);
        read.map_err(|problem| match problem.code {
            NO_FIGURE => wrong(option, words, "no volume", VOLUMES),
            _ => refused(option, words, &problem, VOLUMES),
        })
    };
    words.split(',').map(|words| volume(words.trim())).collect()
}

/// A time of day.
pub fn clock(option: &str, words: &str) -> Result<ClockTime, Failure> {
    read_clock(words).map_err(|_| wrong(option, words, "no time of day", CLOCK))
}

/// Temperatures by the clock.
pub fn room(words: &str) -> Result<Vec<(ClockTime, Temperature)>, Failure> {
    let point = |point: &str| {
        let (when, warmth) = point
            .split_once(char::is_whitespace)
            .ok_or_else(|| wrong("--room", point, "no time and temperature", ROOM))?;
        Ok((clock("--room", when)?, temperature("--room", warmth.trim())?))
    };
    words.split(',').map(|words| point(words.trim())).collect()
}

/// Why words are no amount of the kind that is wanted; `form` says how one is written here.
pub fn amount_refused(option: &str, words: &str, problem: &Problem, kind: &str, form: &str) -> Failure {
    if problem.code == NO_FIGURE {
        return wrong(option, words, &format!("no {kind}"), form);
    }
    let failure = Failure::usage(format!("`{option} {words}`: {}", problem.message));
    // In a text a line may be left out, and a number may be a percentage or a weight; here neither is so.
    if ["zero", "missing-unit"].contains(&problem.code) {
        return failure.help(form);
    }
    problem.help.iter().fold(failure, |failure, hint| failure.help(hint.spelled(name)))
}

/// What is wrong with words that a dough text could have, and how they are written here.
fn refused(option: &str, words: &str, problem: &Problem, form: &str) -> Failure {
    Failure::usage(format!("`{option} {words}`: {}", problem.message)).help(form)
}

fn wrong(option: &str, words: &str, what: &str, form: &str) -> Failure {
    Failure::usage(format!("`{option} {words}` is {what}")).help(form)
}
