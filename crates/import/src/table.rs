//! From the text of a table to its rows.

use csv::{ReaderBuilder, StringRecord};
use levamen_language::{Place, Problem, TextId};
use levamen_quantity::{Mass, MassUnit};

use crate::header::{self, Columns};
use crate::{cells, fault, weight};

/// The most rows that are read. More are no recipe.
pub const MAX_ROWS: usize = 10_000;

/// A cell of the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Cell {
    /// Its words, without space around them and with one space between.
    pub(crate) words: String,
    /// Where they stand.
    pub(crate) place: Place,
    /// The line that its row begins in; the first is 1.
    pub(crate) line: usize,
    /// Whether the end of a line is within it.
    pub(crate) is_broken: bool,
}

/// One thing that is weighed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Row {
    /// What it is weighed into; empty for the final dough.
    pub(crate) stage: Cell,
    /// What it is.
    pub(crate) ingredient: Cell,
    /// How much, as it is written.
    pub(crate) figure: Cell,
    /// How much; nothing where it could not be read.
    pub(crate) mass: Mass,
}

/// The records of a table, one by one.
struct Records<'t> {
    id: TextId,
    text: &'t str,
    /// Bytes of the byte order mark before the first record.
    mark: usize,
    reader: csv::Reader<&'t [u8]>,
    record: StringRecord,
    /// How far lines are counted, and how many end before there.
    counted: (usize, usize),
}

/// Reads the rows of a table, and reports what is wrong with it.
pub(crate) fn read(id: TextId, text: &str, unit: MassUnit, problems: &mut Vec<Problem>) -> Vec<Row> {
    let mut records = Records::new(id, text);
    let Some(first) = records.next() else {
        problems.push(fault::no_rows(None));
        return Vec::new();
    };
    let whole = whole(&first);
    let columns = match header::columns(&first, whole, text, unit) {
        Ok(columns) => columns,
        Err(problem) => {
            problems.push(problem);
            return Vec::new();
        }
    };
    let mut rows = Vec::new();
    while let Some(cells) = records.next() {
        if cells.iter().all(|cell| cell.words.is_empty()) {
            continue;
        }
        if rows.len() == MAX_ROWS {
            problems.push(fault::too_many_rows(self::whole(&cells)));
            break;
        }
        rows.extend(row(&cells, first.len(), columns, unit, problems));
    }
    if rows.is_empty() && problems.is_empty() {
        problems.push(fault::no_rows(Some(whole)));
    }
    rows
}

/// One row; `None` where it does not say what is weighed.
fn row(
    cells: &[Cell],
    width: usize,
    columns: Columns,
    unit: MassUnit,
    problems: &mut Vec<Problem>,
) -> Option<Row> {
    let whole = whole(cells);
    if let Some(broken) = cells.iter().find(|cell| cell.is_broken) {
        problems.push(fault::broken_cell(broken));
        return None;
    }
    if let Some(extra) = cells.iter().skip(width).find(|cell| !cell.words.is_empty()) {
        problems.push(fault::extra_cell(extra, cells, width));
        return None;
    }
    // A row that ends early has empty cells at its end.
    let line = cells.first().map_or(0, |cell| cell.line);
    let cell = |index: usize| match cells.get(index) {
        Some(cell) if !cell.words.is_empty() => cell.clone(),
        _ => Cell { words: String::new(), place: whole, line, is_broken: false },
    };
    let (stage, ingredient, figure) = (cell(columns.stage), cell(columns.ingredient), cell(columns.weight));
    if ingredient.words.is_empty() {
        problems.push(fault::missing_ingredient(&ingredient));
        return None;
    }
    let mass = weight::read(&figure.words, unit).unwrap_or_else(|wrong| {
        problems.push(wrong.told(&figure, &ingredient));
        Mass::ZERO
    });
    Some(Row { stage, ingredient, figure, mass })
}

/// Words with one space between them.
pub(crate) fn one_spaced(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The place of a whole record.
fn whole(cells: &[Cell]) -> Place {
    let ends = cells.first().zip(cells.last());
    ends.map_or_else(Place::default, |(first, last)| Place {
        text: first.place.text,
        span: first.place.span.to(last.place.span),
    })
}

impl<'t> Records<'t> {
    fn new(id: TextId, text: &'t str) -> Self {
        let body = text.strip_prefix('\u{feff}').unwrap_or(text);
        let reader = ReaderBuilder::new().has_headers(false).flexible(true).from_reader(body.as_bytes());
        let mark = text.len() - body.len();
        Self { id, text, mark, reader, record: StringRecord::new(), counted: (0, 1) }
    }

    /// The cells of the next record.
    fn next(&mut self) -> Option<Vec<Cell>> {
        let start = usize::try_from(self.reader.position().byte()).ok()? + self.mark;
        // The text is UTF-8 and stands in memory, so reading it fails at its end alone.
        if !self.reader.read_record(&mut self.record).unwrap_or(false) {
            return None;
        }
        let line = self.line_at(cells::first_byte(self.text, start));
        let places = cells::places(self.text, start);
        let cells = self.record.iter().zip(places).map(|(cell, span)| Cell {
            words: one_spaced(cell),
            place: Place { text: self.id, span },
            line,
            is_broken: cell.trim().contains('\n'),
        });
        Some(cells.collect())
    }

    /// The line of a byte that stands after all that were asked for before.
    fn line_at(&mut self, byte: usize) -> usize {
        let (from, lines) = self.counted;
        let between = self.text.as_bytes().get(from..byte).unwrap_or_default();
        let ends = memchr::memchr_iter(b'\n', between).count();
        self.counted = (byte, lines + ends);
        lines + ends
    }
}
