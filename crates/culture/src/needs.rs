//! Ripe culture that is needed, and the table of it: CSV (RFC 4180) with the columns `date`, `grams` and perhaps `culture`
//! and `time`.

use jiff::Zoned;
use jiff::civil::{Date, Time};
use levamen_calendar::{NotADate, NotATime, read_date, read_time};
use levamen_language::{Place, Problem, TextId, read_amount};
use levamen_quantity::{Exact, Mass};
use levamen_table::{Table, TableForm, TableRow};

/// So much ripe culture at a moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CultureNeed {
    /// When it is taken.
    pub at: Zoned,
    /// How much.
    pub mass: Mass,
    /// Where it is said, for a problem to point at.
    pub place: Option<Place>,
}

/// The most rows that are read: some years of days and cultures.
pub const MAX_ROWS: usize = 10_000;

const NEEDS: TableForm = TableForm {
    empty: "the table says nothing of what is needed",
    columns: "the first line names the columns: `date,culture,grams`, and `time` if you like",
    row: "a line for each day comes under it: `2026-12-01,liquid culture,640`",
    most_rows: MAX_ROWS,
    too_many: "is this the table that was meant? it has a row for each day and culture",
};

/// A row of the table: so much ripe culture on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NeedRow {
    /// The day.
    pub date: Date,
    /// The time, where the row says it.
    pub time: Option<Time>,
    /// The culture's name and where it stands, where the row says it.
    pub culture: Option<(String, Place)>,
    /// How much.
    pub mass: Mass,
    /// Where the row stands.
    pub place: Place,
}

/// Where the columns are.
#[derive(Debug, Clone, Copy)]
struct NeedColumns {
    date: usize,
    grams: usize,
    culture: Option<usize>,
    time: Option<usize>,
}

/// Reads the table. A row of nothing is left out.
///
/// # Errors
/// Everything that is wrong with it, each with its line.
pub fn read_needs(id: TextId, text: &str) -> Result<Vec<NeedRow>, Vec<Problem>> {
    let one = |problem: Box<Problem>| vec![*problem];
    let table = Table::read(id, text, &NEEDS).map_err(one)?;
    let columns = columns(&table).map_err(one)?;
    let (needs, problems) = table.each(|record| row(record, columns));
    if problems.is_empty() { Ok(needs.into_iter().flatten().collect()) } else { Err(problems) }
}

fn columns(table: &Table<'_>) -> Result<NeedColumns, Box<Problem>> {
    Ok(NeedColumns {
        date: table.column("date")?,
        grams: table.column("grams")?,
        culture: table.column_if_any("culture")?,
        time: table.column_if_any("time")?,
    })
}

/// One row; `None` of nothing.
fn row(record: &TableRow<'_>, columns: NeedColumns) -> Result<Option<NeedRow>, Box<Problem>> {
    let words = record.words(columns.date);
    let place = record.place_of(columns.date);
    let date = read_date(words).map_err(|why| bad_date(record.line(), place, words, &why))?;
    let time = match columns.time.map(|column| (record.words(column), record.place_of(column))) {
        None | Some(("", _)) => None,
        Some((words, place)) => {
            Some(read_time(words).map_err(|why| bad_time(record.line(), place, words, why))?)
        }
    };
    let named = columns.culture.map(|column| (record.words(column).to_owned(), record.place_of(column)));
    let culture = named.filter(|(name, _)| !name.is_empty());
    let (words, place) = (record.words(columns.grams), record.place_of(columns.grams));
    let mass = grams(words).map_err(|why| bad_grams(record.line(), place, words, why.map(|why| *why)))?;
    let row = NeedRow { date, time, culture, mass, place };
    Ok(row.mass.grams().is_positive().then_some(row))
}

/// The weight in a cell, by the rules of numbers in dough texts; or what the language says of it, where it is a number at all.
fn grams(words: &str) -> Result<Mass, Option<Box<Problem>>> {
    match Exact::from_literal(words) {
        Ok(figure) => Ok(Mass::from_grams(figure)),
        Err(_) if words.is_empty() || read_amount(TextId::default(), words).is_ok() => Err(None),
        Err(_) => Err(read_amount(TextId::default(), &format!("{words} g")).err().map(Box::new)),
    }
}

pub(crate) fn bad_date(line: u64, place: Place, words: &str, why: &NotADate) -> Box<Problem> {
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

pub(crate) fn bad_time(line: u64, place: Place, words: &str, why: NotATime) -> Box<Problem> {
    let message = match why {
        NotATime::Form => format!("line {line}: `{words}` is not a time of day"),
        NotATime::NoTime => format!("line {line}: the clock never shows {words}"),
    };
    let help = "write hours and minutes from 00:00 to 23:59: 04:00, or leave the cell empty";
    Box::new(Problem::error("bad-time", message).at(place, "at what time?").help(help))
}

/// A cell that holds no weight; `said` is what the language says of it as a number.
pub(crate) fn bad_grams(line: u64, place: Place, words: &str, said: Option<Problem>) -> Box<Problem> {
    let problem_of = |code, message: String| Problem::error(code, format!("line {line}: {message}"));
    let problem = match said {
        _ if words.is_empty() => problem_of("missing-amount", "the row says no weight".to_owned())
            .at(place, "how much?")
            .help("write the grams of ripe culture, or 0"),
        None => problem_of("unit-in-cell", format!("`{words}` is more than a number"))
            .at(place, "the number alone")
            .help("the column is in grams: write 640"),
        Some(said) if OF_NUMBERS.contains(&said.code) => {
            let label = said.primary.map(|label| label.text).unwrap_or_default();
            let problem = problem_of(said.code, said.message).at(place, label);
            said.help.into_iter().fold(problem, Problem::help)
        }
        Some(_) => problem_of("not-a-number", format!("`{words}` is not a number"))
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
