//! What single cells say, or what is wrong with them.

use jiff::civil::Date;
use levamen_language::{first_invisible, visible};

use crate::ProductId;
use crate::cell::words;
use crate::columns::{Columns, Field};
use crate::date as dates;
use crate::mistake::excerpt;
use crate::pieces as counts;
use crate::request::Request;
use crate::wrong::Wrong;

/// The words of a cell that must not be empty.
pub(crate) fn text(cell: &[u8], field: Field, columns: &Columns) -> Result<String, Wrong> {
    let words = words(cell).ok_or(Wrong::NotUtf8)?;
    if words.is_empty() {
        return Err(Wrong::EmptyCell(columns.heading(field).to_owned()));
    }
    Ok(words.into_owned())
}

/// A name: words that can all be seen, so that no two names look alike and none steers a screen.
pub(crate) fn seen_name(cell: &[u8], field: Field, columns: &Columns) -> Result<String, Wrong> {
    let words = text(cell, field, columns)?;
    // A cell of a spreadsheet may have several lines; a name has one.
    let words = if words.contains(['\n', '\r']) {
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    } else {
        words
    };
    let Some((_, what)) = first_invisible(&words) else { return Ok(words) };
    let (heading, written) = (columns.heading(field).to_owned(), excerpt(visible(&words).as_bytes()));
    Err(Wrong::Invisible { heading, written, what })
}

/// A date.
pub(crate) fn date(cell: &[u8], field: Field, columns: &Columns) -> Result<Date, Wrong> {
    read_date(&text(cell, field, columns)?)
}

/// A date, or nothing in an empty cell.
pub(crate) fn date_or_none(cell: &[u8]) -> Result<Option<Date>, Wrong> {
    let words = words(cell).ok_or(Wrong::NotUtf8)?;
    if words.is_empty() { Ok(None) } else { read_date(&words).map(Some) }
}

fn read_date(written: &str) -> Result<Date, Wrong> {
    dates::read(written).map_err(|why| Wrong::Date { written: excerpt(written.as_bytes()), why })
}

/// A product of the book.
pub(crate) fn product(cell: &[u8], request: &Request) -> Result<ProductId, Wrong> {
    let written = seen_name(cell, Field::Product, request.columns)?;
    let unknown = || Wrong::Product { written: excerpt(written.as_bytes()), nearest: Vec::new() };
    request.products.find(&written).ok_or_else(unknown)
}

/// A number of pieces, not zero.
pub(crate) fn pieces(cell: &[u8], columns: &Columns) -> Result<u32, Wrong> {
    match pieces_or_none(cell, columns)? {
        0 => Err(Wrong::NoPieces),
        pieces => Ok(pieces),
    }
}

/// A number of pieces, which may be zero.
pub(crate) fn pieces_or_none(cell: &[u8], columns: &Columns) -> Result<u32, Wrong> {
    let written = text(cell, Field::Quantity, columns)?;
    counts::read(&written).map_err(|why| Wrong::Pieces { written: excerpt(written.as_bytes()), why })
}
