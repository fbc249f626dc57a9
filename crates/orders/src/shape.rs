//! Whether a record has the cells that its file should have.

use crate::columns::Layout;
use crate::record::{Record, Records};
use crate::wrong::Wrong;

/// What a record is before its cells are read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Shape {
    /// Its cells can be read.
    Fine,
    /// An empty line, or one of empty cells.
    Blank,
    /// Something is wrong with the whole of it.
    Wrong(Wrong),
}

/// The shape of a record of `bytes`.
pub(crate) fn of(bytes: &[u8], record: Record, layout: &Layout) -> Shape {
    let whole = bytes.get(record.start..record.end).unwrap_or_default();
    if is_blank(whole) && !record.is_open {
        return Shape::Blank;
    }
    let (cells, width) = (record.cells, layout.width());
    if record.is_open {
        return Shape::Wrong(Wrong::OpenQuote);
    }
    if cells < layout.least() {
        return Shape::Wrong(Wrong::FewCells { cells, width });
    }
    // Spreadsheets leave empty cells at the end of lines.
    let is_empty = |cell: &[u8]| cell.iter().all(|byte| *byte == b'"' || byte.is_ascii_whitespace());
    if cells > width && !Records::new(whole).all_cells().into_iter().skip(width).all(is_empty) {
        return Shape::Wrong(Wrong::ManyCells { cells, width });
    }
    Shape::Fine
}

/// Whether a record is an empty line, or one of empty cells.
pub(crate) fn is_blank(whole: &[u8]) -> bool {
    whole.iter().all(|byte| matches!(byte, b',' | b'"') || byte.is_ascii_whitespace())
}
