//! What cells say, or what is wrong with them.

use std::borrow::Cow;

use jiff::civil::Date;
use levamen_calendar::read_date;
use levamen_language::{first_invisible, visible};

use crate::columns::{OrderColumns, OrderField};
use crate::error::{LineErrorKind, excerpt};
use crate::request::OrderRequest;
use crate::{ProductId, pieces as counts};

/// The words of a cell, without quotes and the space around them; `None` where they are not UTF-8.
pub(crate) fn words(cell: &[u8]) -> Option<Cow<'_, str>> {
    let text = std::str::from_utf8(cell).ok()?;
    let Some(quoted) = text.strip_prefix('"') else { return Some(Cow::Borrowed(text.trim())) };
    let mut words = String::with_capacity(quoted.len());
    let mut rest = quoted;
    while let Some((inside, after)) = rest.split_once('"') {
        words.push_str(inside);
        let Some(next) = after.strip_prefix('"') else {
            // What stands after the closing quote is a part of the cell, as other readers have it.
            words.push_str(after);
            rest = "";
            break;
        };
        words.push('"');
        rest = next;
    }
    words.push_str(rest);
    Some(Cow::Owned(words.trim().to_owned()))
}

/// The words of a cell that must not be empty.
pub(crate) fn text(cell: &[u8], field: OrderField, columns: &OrderColumns) -> Result<String, LineErrorKind> {
    let words = words(cell).ok_or(LineErrorKind::NotUtf8)?;
    if words.is_empty() {
        return Err(LineErrorKind::EmptyCell(columns.heading(field).to_owned()));
    }
    Ok(words.into_owned())
}

/// A name: words that can all be seen, so that no two names look alike and none steers a screen.
pub(crate) fn seen_name(
    cell: &[u8],
    field: OrderField,
    columns: &OrderColumns,
) -> Result<String, LineErrorKind> {
    let words = text(cell, field, columns)?;
    // A cell of a spreadsheet may have several lines; a name has one.
    let words = if words.contains(['\n', '\r']) {
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    } else {
        words
    };
    let Some((_, what)) = first_invisible(&words) else { return Ok(words) };
    let (heading, written) = (columns.heading(field).to_owned(), excerpt(visible(&words).as_bytes()));
    Err(LineErrorKind::Invisible { heading, written, what })
}

/// A date.
pub(crate) fn date(cell: &[u8], field: OrderField, columns: &OrderColumns) -> Result<Date, LineErrorKind> {
    parse_date(&text(cell, field, columns)?)
}

/// A date, or nothing in an empty cell.
pub(crate) fn date_or_none(cell: &[u8]) -> Result<Option<Date>, LineErrorKind> {
    let words = words(cell).ok_or(LineErrorKind::NotUtf8)?;
    if words.is_empty() { Ok(None) } else { parse_date(&words).map(Some) }
}

fn parse_date(written: &str) -> Result<Date, LineErrorKind> {
    read_date(written).map_err(|why| LineErrorKind::Date { written: excerpt(written.as_bytes()), why })
}

/// A product of the book.
pub(crate) fn product(cell: &[u8], request: &OrderRequest) -> Result<ProductId, LineErrorKind> {
    let written = seen_name(cell, OrderField::Product, request.columns)?;
    let unknown = || LineErrorKind::Product { written: excerpt(written.as_bytes()), nearest: Vec::new() };
    request.products.find(&written).ok_or_else(unknown)
}

/// A number of pieces, not zero.
pub(crate) fn pieces(cell: &[u8], columns: &OrderColumns) -> Result<u32, LineErrorKind> {
    match pieces_or_none(cell, columns)? {
        0 => Err(LineErrorKind::NoPieces),
        pieces => Ok(pieces),
    }
}

/// A number of pieces, which may be zero.
pub(crate) fn pieces_or_none(cell: &[u8], columns: &OrderColumns) -> Result<u32, LineErrorKind> {
    let written = text(cell, OrderField::Quantity, columns)?;
    counts::read(&written).map_err(|why| LineErrorKind::Pieces { written: excerpt(written.as_bytes()), why })
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn quotes_are_taken_off() {
        let said = |cell: &str| words(cell.as_bytes()).unwrap().into_owned();
        assert_eq!(said(" Rye loaf "), "Rye loaf");
        assert_eq!(said("\"Rye, \"\"dark\"\"\""), "Rye, \"dark\"");
        assert_eq!(said("\"open"), "open");
        assert_eq!(said("\"a\"b\"c"), "ab\"c");
        assert_eq!(said("12\" tin"), "12\" tin");
        assert!(words(b"\xff").is_none());
    }
}
