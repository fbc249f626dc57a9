//! The table of what is needed: CSV (RFC 4180) with the columns `date`, `grams` and perhaps `culture` and `time`.

use jiff::civil::{Date, Time};
use levamen_language::{Place, Problem, TextId, read_amount};
use levamen_quantity::{Exact, Mass};
use levamen_table::{Form, Row as Record, Table};

use crate::fault;
use levamen_calendar::{read_date, read_time};

/// The most rows that are read: some years of days and cultures.
pub const MAX_ROWS: usize = 10_000;

const NEEDS: Form = Form {
    empty: "the table says nothing of what is needed",
    columns: "the first line names the columns: `date,culture,grams`, and `time` if you like",
    row: "a line for each day comes under it: `2026-12-01,liquid culture,640`",
    most_rows: MAX_ROWS,
    too_many: "is this the table that was meant? it has a row for each day and culture",
};

/// A row of the table: so much ripe culture on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
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
struct Columns {
    date: usize,
    grams: usize,
    culture: Option<usize>,
    time: Option<usize>,
}

/// Reads the table. A row of nothing is left out.
///
/// # Errors
/// Everything that is wrong with it, each with its line.
pub fn read_needs(id: TextId, text: &str) -> Result<Vec<Row>, Vec<Problem>> {
    let refused = |problem: Box<Problem>| vec![*problem];
    let table = Table::read(id, text, &NEEDS).map_err(refused)?;
    let columns = columns(&table).map_err(refused)?;
    let (needs, problems) = table.each(|record| row(record, columns));
    if problems.is_empty() { Ok(needs.into_iter().flatten().collect()) } else { Err(problems) }
}

fn columns(table: &Table<'_>) -> Result<Columns, Box<Problem>> {
    Ok(Columns {
        date: table.column("date")?,
        grams: table.column("grams")?,
        culture: table.column_if_any("culture")?,
        time: table.column_if_any("time")?,
    })
}

/// One row; `None` of nothing.
fn row(record: &Record<'_>, columns: Columns) -> Result<Option<Row>, Box<Problem>> {
    let words = record.words(columns.date);
    let place = record.place_of(columns.date);
    let date = read_date(words).map_err(|why| fault::date(record.line(), place, words, &why))?;
    let time = match columns.time.map(|column| (record.words(column), record.place_of(column))) {
        None | Some(("", _)) => None,
        Some((words, place)) => {
            Some(read_time(words).map_err(|why| fault::time(record.line(), place, words, why))?)
        }
    };
    let named = columns.culture.map(|column| (record.words(column).to_owned(), record.place_of(column)));
    let culture = named.filter(|(name, _)| !name.is_empty());
    let (words, place) = (record.words(columns.grams), record.place_of(columns.grams));
    let mass = grams(words).map_err(|why| fault::grams(record.line(), place, words, why.map(|why| *why)))?;
    let row = Row { date, time, culture, mass, place };
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
