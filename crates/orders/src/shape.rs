//! What a record is before its cells are read: headings, an empty line, or one that has the cells of its columns.

use std::borrow::Cow;

use levamen_formula::key;

use crate::cell::words;
use crate::columns::{ColumnLayout, FileForm, OrderColumns};
use crate::error::LineErrorKind;
use crate::record::{CsvRecord, CsvRecords};

/// The layout of a file by its headings, the first record of `bytes`.
///
/// # Errors
/// A column that is not there or is there twice; another mark than a comma between the headings.
pub(crate) fn layout_of(
    bytes: &[u8],
    columns: &OrderColumns,
    form: FileForm,
) -> Result<ColumnLayout, LineErrorKind> {
    let headings: Vec<String> = CsvRecords::new(bytes)
        .all_cells()
        .into_iter()
        .map(|cell| words(cell).map(Cow::into_owned))
        .collect::<Option<_>>()
        .ok_or(LineErrorKind::NotUtf8)?;
    if let [only] = headings.as_slice()
        && let Some(mark) = [';', '\t', '|'].into_iter().find(|mark| only.contains(*mark))
    {
        return Err(LineErrorKind::Separator(mark));
    }
    let mut layout = ColumnLayout::of_width(headings.len());
    for (slot, field) in (0..).zip(form.fields) {
        let is_needed = usize::from(slot) < form.needed;
        let wanted = columns.heading(*field);
        let is_it = |(_, heading): &(usize, &String)| key(heading) == key(wanted);
        let mut found = headings.iter().enumerate().filter(is_it).map(|(column, _)| column);
        match (found.next(), found.next()) {
            (Some(_), Some(_)) => return Err(LineErrorKind::ColumnTwice(wanted.to_owned())),
            (Some(column), None) => layout.put(column, slot, is_needed),
            (None, _) if is_needed => {
                return Err(LineErrorKind::MissingColumn { wanted: wanted.to_owned(), headings });
            }
            (None, _) => {}
        }
    }
    Ok(layout)
}

/// What a record is before its cells are read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum RecordShape {
    /// Its cells can be read.
    Sound,
    /// An empty line, or one of empty cells.
    Blank,
    /// Something is wrong with the whole of it.
    Invalid(LineErrorKind),
}

/// The shape of a record of `bytes`.
pub(crate) fn shape_of(bytes: &[u8], record: CsvRecord, layout: &ColumnLayout) -> RecordShape {
    let whole = bytes.get(record.start..record.end).unwrap_or_default();
    if is_blank(whole) && !record.is_open {
        return RecordShape::Blank;
    }
    let (cells, width) = (record.cells, layout.width());
    if record.is_open {
        return RecordShape::Invalid(LineErrorKind::OpenQuote);
    }
    if cells < layout.least() {
        return RecordShape::Invalid(LineErrorKind::FewCells { cells, width });
    }
    // Spreadsheets leave empty cells at the end of lines.
    let is_empty = |cell: &[u8]| cell.iter().all(|byte| *byte == b'"' || byte.is_ascii_whitespace());
    if cells > width && !CsvRecords::new(whole).all_cells().into_iter().skip(width).all(is_empty) {
        return RecordShape::Invalid(LineErrorKind::ManyCells { cells, width });
    }
    RecordShape::Sound
}

/// Whether a record is an empty line, or one of empty cells.
pub(crate) fn is_blank(whole: &[u8]) -> bool {
    whole.iter().all(|byte| matches!(byte, b',' | b'"') || byte.is_ascii_whitespace())
}
