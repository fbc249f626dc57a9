//! The table of what is needed: CSV (RFC 4180) with the columns `date`, `grams` and perhaps `culture` and `time`.

use csv::{ReaderBuilder, StringRecord};
use jiff::civil::{Date, Time};
use levamen_language::{Place, Problem, Span, TextId, read_amount};
use levamen_quantity::{Exact, Mass};

use crate::date::{read_date, read_time};
use crate::fault;

/// The most rows that are read: some years of days and cultures.
pub const MAX_ROWS: usize = 10_000;

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

/// A record with its place, and the line in which it begins.
pub(crate) struct Record<'t> {
    text: &'t str,
    cells: StringRecord,
    pub(crate) place: Place,
    pub(crate) line: u64,
}

/// Reads the table. A row of nothing is left out.
///
/// # Errors
/// Everything that is wrong with it, each with its line.
pub fn read_needs(id: TextId, text: &str) -> Result<Vec<Row>, Vec<Problem>> {
    let body = text.strip_prefix('\u{feff}').unwrap_or(text);
    let records = records(id, text, body);
    let Some((header, rows)) = records.split_first() else { return Err(vec![fault::no_rows(None)]) };
    let columns = columns(header).map_err(|problem| vec![*problem])?;
    let (mut needs, mut problems) = (Vec::new(), Vec::new());
    for record in rows {
        match row(record, header.cells.len(), columns) {
            Ok(row) => needs.extend(row),
            Err(wrong) => problems.push(*wrong),
        }
    }
    if rows.is_empty() {
        problems.push(fault::no_rows(Some(header.place)));
    }
    if let Some(extra) = rows.get(MAX_ROWS) {
        problems.push(fault::too_many_rows(extra.place));
    }
    if problems.is_empty() { Ok(needs) } else { Err(problems) }
}

/// Every record that is not empty, with its place.
fn records<'t>(id: TextId, text: &'t str, body: &'t str) -> Vec<Record<'t>> {
    let mark = text.len() - body.len();
    let mut reader = ReaderBuilder::new().has_headers(false).flexible(true).from_reader(body.as_bytes());
    let mut cells = StringRecord::new();
    let mut found = Vec::new();
    // The text is UTF-8 and stands in memory, so reading it fails at its end alone.
    while found.len() <= MAX_ROWS + 1 && reader.read_record(&mut cells).unwrap_or(false) {
        let end = usize::try_from(reader.position().byte()).unwrap_or(usize::MAX);
        let Some((start, line)) = cells.position().map(|at| (at.byte(), at.line())) else { continue };
        let start = usize::try_from(start).unwrap_or(usize::MAX);
        // What is between may begin with line ends left of the record before.
        let words = body.get(start..end.min(body.len())).unwrap_or_default();
        let from = mark + start + (words.len() - words.trim_start().len());
        let span = span(from, from + words.trim().len());
        if cells.iter().any(|cell| !cell.trim().is_empty()) {
            found.push(Record { text, cells: cells.clone(), place: Place { text: id, span }, line });
        }
    }
    found
}

impl Record<'_> {
    pub(crate) fn cells(&self) -> usize {
        self.cells.len()
    }

    /// A cell's words; none where the row ends before it.
    fn words(&self, column: usize) -> &str {
        self.cells.get(column).unwrap_or_default().trim()
    }

    /// Where a cell's words stand; the whole row where they are in quotes or there are none.
    fn place_of(&self, column: usize) -> Place {
        let whole = self.place.span;
        let row = whole.of(self.text);
        let before: usize = row.split(',').take(column).map(|cell| cell.len() + 1).sum();
        let (wanted, cell) = (self.words(column), row.split(',').nth(column).unwrap_or_default());
        if row.contains('"') || wanted.is_empty() || cell.trim() != wanted {
            return self.place;
        }
        let start = whole.start as usize + before + (cell.len() - cell.trim_start().len());
        Place { text: self.place.text, span: span(start, start + wanted.len()) }
    }
}

fn columns(header: &Record<'_>) -> Result<Columns, Box<Problem>> {
    if header.cells.len() == 1
        && let Some(mark) = [';', '\t', '|'].into_iter().find(|mark| header.words(0).contains(*mark))
    {
        return Err(Box::new(fault::separator(header.place, mark)));
    }
    let column = |name: &str| -> Result<Option<usize>, Box<Problem>> {
        let is_it = |column: &usize| header.words(*column).eq_ignore_ascii_case(name);
        let mut found = (0..header.cells.len()).filter(is_it);
        let first = found.next();
        found
            .next()
            .map_or(Ok(first), |again| Err(Box::new(fault::column_twice(header.place_of(again), name))))
    };
    let must = |name: &str| column(name)?.ok_or_else(|| Box::new(fault::missing_column(header.place, name)));
    Ok(Columns {
        date: must("date")?,
        grams: must("grams")?,
        culture: column("culture")?,
        time: column("time")?,
    })
}

/// One row; `None` of nothing.
fn row(record: &Record<'_>, width: usize, columns: Columns) -> Result<Option<Row>, Box<Problem>> {
    if record.cells.len() > width {
        return Err(Box::new(fault::extra_cell(record, width)));
    }
    let words = record.words(columns.date);
    let place = record.place_of(columns.date);
    let date = read_date(words).map_err(|why| fault::date(record.line, place, words, why))?;
    let time = match columns.time.map(|column| (record.words(column), record.place_of(column))) {
        None | Some(("", _)) => None,
        Some((words, place)) => {
            Some(read_time(words).map_err(|why| fault::time(record.line, place, words, why))?)
        }
    };
    let named = columns.culture.map(|column| (record.words(column).to_owned(), record.place_of(column)));
    let culture = named.filter(|(name, _)| !name.is_empty());
    let (words, place) = (record.words(columns.grams), record.place_of(columns.grams));
    let mass = grams(words).map_err(|why| fault::grams(record.line, place, words, why.map(|why| *why)))?;
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

fn span(start: usize, end: usize) -> Span {
    let byte = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    Span::new(byte(start), byte(end))
}
