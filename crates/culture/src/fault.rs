//! What can be wrong with a row of a table of needs: one function for each problem, which holds its words.

use levamen_language::{Place, Problem};

use levamen_calendar::{NotADate, NotATime};

pub(crate) fn date(line: u64, place: Place, words: &str, why: &NotADate) -> Box<Problem> {
    let message = match (why, words) {
        (_, "") => format!("line {line}: the row says no date"),
        (NotADate::Form(_), _) => format!("line {line}: `{words}` is not a date"),
        _ => format!("line {line}: there is no day {words}"),
    };
    let help = match why {
        NotADate::Form(_) => "write year, month and day: 2026-12-01",
        _ => "look at the month and at how many days it has",
    };
    Box::new(Problem::error("bad-date", message).at(place, "which day?").help(help))
}

pub(crate) fn time(line: u64, place: Place, words: &str, why: NotATime) -> Box<Problem> {
    let message = match why {
        NotATime::Form => format!("line {line}: `{words}` is not a time of day"),
        NotATime::NoTime => format!("line {line}: the clock never shows {words}"),
    };
    let help = "write hours and minutes from 00:00 to 23:59: 04:00, or leave the cell empty";
    Box::new(Problem::error("bad-time", message).at(place, "at what time?").help(help))
}

/// A cell that holds no weight; `said` is what the language says of it as a number.
pub(crate) fn grams(line: u64, place: Place, words: &str, said: Option<Problem>) -> Box<Problem> {
    let told = |code, message: String| Problem::error(code, format!("line {line}: {message}"));
    let problem = match said {
        _ if words.is_empty() => told("missing-amount", "the row says no weight".to_owned())
            .at(place, "how much?")
            .help("write the grams of ripe culture, or 0"),
        None => told("unit-in-cell", format!("`{words}` is more than a number"))
            .at(place, "the number alone")
            .help("the column is in grams: write 640"),
        Some(said) if OF_NUMBERS.contains(&said.code) => {
            let label = said.primary.map(|label| label.text).unwrap_or_default();
            let problem = told(said.code, said.message).at(place, label);
            said.help.into_iter().fold(problem, Problem::help)
        }
        Some(_) => told("not-a-number", format!("`{words}` is not a number"))
            .at(place, "a weight is wanted")
            .help("write the grams in digits, such as 640 or 640.5"),
    };
    Box::new(problem)
}

/// What the language says of numbers alone; its other problems are about words and units.
const OF_NUMBERS: [&str; 8] = [
    "bare-point",
    "decimal-comma",
    "exponent",
    "fraction",
    "range",
    "sign",
    "thousands-mark",
    "too-many-digits",
];
