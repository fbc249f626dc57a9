//! Rows, one by one, and where their cells stand: the reader of CSV.

use csv::{ReaderBuilder, StringRecord};
use levamen_language::{Place, TextId};

use crate::cells::{self, CellSpans, span};

/// A cell of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TableCell {
    /// What it says, without quotes.
    pub words: String,
    /// Where its words stand, without quotes and the space around them.
    pub place: Place,
}

/// One row of a table.
#[derive(Debug, Clone)]
pub struct TableRow<'t> {
    text: &'t str,
    cells: Vec<TableCell>,
    place: Place,
    line: u64,
}

impl TableRow<'_> {
    /// Its cells.
    #[must_use]
    pub fn cells(&self) -> &[TableCell] {
        &self.cells
    }

    /// How many cells it has.
    #[must_use]
    pub fn len(&self) -> usize {
        self.cells.len()
    }

    /// Whether there is nothing in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.cells.iter().all(|cell| cell.words.trim().is_empty())
    }

    /// Where it stands.
    #[must_use]
    pub const fn place(&self) -> Place {
        self.place
    }

    /// The line in which it begins, counted from 1.
    #[must_use]
    pub const fn line(&self) -> u64 {
        self.line
    }

    /// A cell's words without the spaces around them; none where the row ends before it.
    #[must_use]
    pub fn words(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", |cell| cell.words.trim())
    }

    /// Where a cell's words stand; the whole row where something in it is in quotes or the cell has no words.
    #[must_use]
    pub fn place_of(&self, column: usize) -> Place {
        let cell = self.cells.get(column).filter(|cell| !cell.words.trim().is_empty());
        match cell.filter(|_| !self.place.span.of(self.text).contains('"')) {
            Some(cell) => cell.place,
            None => self.place,
        }
    }
}

/// The rows of a text that stands in memory, empty ones included: CSV, RFC 4180. A byte order mark is passed over.
pub struct TableRows<'t> {
    id: TextId,
    text: &'t str,
    /// Bytes of the byte order mark before the first row.
    mark: usize,
    reader: csv::Reader<&'t [u8]>,
    record: StringRecord,
    /// How far lines are counted, and the line of that byte.
    counted: (usize, u64),
}

impl<'t> TableRows<'t> {
    /// The rows of a text, whose name in places is `id`.
    #[must_use]
    pub fn new(id: TextId, text: &'t str) -> Self {
        // The csv crate takes one byte order mark off by itself, so none is left to it: a second would shift its cells.
        let body = text.trim_start_matches('\u{feff}');
        let reader = ReaderBuilder::new().has_headers(false).flexible(true).from_reader(body.as_bytes());
        let mark = text.len() - body.len();
        Self { id, text, mark, reader, record: StringRecord::new(), counted: (0, 1) }
    }

    /// The line of a byte that stands after all that were asked for before.
    fn line_at(&mut self, byte: usize) -> u64 {
        let (from, line) = self.counted;
        let between = self.text.as_bytes().get(from..byte).unwrap_or_default();
        self.counted = (byte, line + memchr::memchr_iter(b'\n', between).count() as u64);
        self.counted.1
    }
}

impl<'t> Iterator for TableRows<'t> {
    type Item = TableRow<'t>;

    fn next(&mut self) -> Option<TableRow<'t>> {
        let start = usize::try_from(self.reader.position().byte()).ok()? + self.mark;
        // The text is UTF-8 and stands in memory, so reading it fails at its end alone.
        if !self.reader.read_record(&mut self.record).unwrap_or(false) {
            return None;
        }
        let first = cells::first_byte(self.text, start);
        let line = self.line_at(first);
        let CellSpans { words, end } = cells::spans(self.text, first);
        debug_assert_eq!(words.len(), self.record.len(), "cells are where the reader finds them");
        let cells = self
            .record
            .iter()
            .zip(words)
            .map(|(cell, span)| TableCell { words: cell.to_owned(), place: Place { text: self.id, span } });
        let cells = cells.collect();
        let whole = self.text.get(first..end).unwrap_or_default();
        let from = first + (whole.len() - whole.trim_start().len());
        let place = Place { text: self.id, span: span(from, from + whole.trim().len()) };
        Some(TableRow { text: self.text, cells, place, line })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_counted_over_empty_lines_whatever_ends_them() {
        for text in ["a\n\n\nx\ny\n\"p\nq\"\nz", "a\r\n\r\n\r\nx\r\ny\r\n\"p\r\nq\"\r\nz\r\n"] {
            let lines: Vec<u64> = TableRows::new(TextId(0), text).map(|row| row.line()).collect();
            assert_eq!(lines, [1, 4, 5, 6, 8]);
        }
    }

    #[test]
    fn byte_order_marks_are_no_part_of_the_first_cell() {
        for marks in ["", "\u{feff}", "\u{feff}\u{feff}"] {
            let text = format!("{marks}\r,b");
            let rows: Vec<_> = TableRows::new(TextId(0), &text).map(|row| row.cells.len()).collect();
            assert_eq!(rows, [2]);
        }
    }
}
