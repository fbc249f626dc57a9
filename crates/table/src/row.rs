//! One row, and where its cells stand.

use csv::StringRecord;
use levamen_language::{Place, Span};

/// One row of a table.
#[derive(Debug, Clone)]
pub struct Row<'t> {
    pub(crate) text: &'t str,
    pub(crate) cells: StringRecord,
    pub(crate) place: Place,
    pub(crate) line: u64,
}

impl Row<'_> {
    /// How many cells it has.
    #[must_use]
    pub fn len(&self) -> usize {
        self.cells.len()
    }

    /// Whether there is nothing in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.cells.iter().all(|cell| cell.trim().is_empty())
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
        self.cells.get(column).unwrap_or_default().trim()
    }

    /// Where a cell's words stand; the whole row where they are in quotes or there are none.
    #[must_use]
    pub fn place_of(&self, column: usize) -> Place {
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

pub(crate) fn span(start: usize, end: usize) -> Span {
    let byte = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    Span::new(byte(start), byte(end))
}
