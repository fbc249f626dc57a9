//! What can be wrong with a line of orders, or with a whole file of them.

use std::sync::Arc;

use jiff::civil::Date;

use crate::date::WrongDate;
use crate::pieces::WrongPieces;

/// One thing that is wrong; [`crate::Mistake`] says where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Wrong {
    /// The file cannot be read, or not to its end; what the system says.
    Unreadable(String),
    /// The file has no line.
    Empty,
    /// The headings are parted by another mark than a comma.
    Separator(char),
    /// No heading is this column's.
    MissingColumn { wanted: String, headings: Vec<String> },
    /// Two headings are this column's.
    ColumnTwice(String),
    /// A quote is opened, and never closed.
    OpenQuote,
    /// The line is longer than any line of orders.
    TooLong,
    /// The line is in another encoding.
    NotUtf8,
    /// The line ends before a column that must be there.
    FewCells { cells: usize, width: usize },
    /// The line has cells beyond the last column.
    ManyCells { cells: usize, width: usize },
    /// A cell that must say something is empty; the heading of its column.
    EmptyCell(String),
    /// A name with a character that cannot be seen: the heading of its column, the name, and what it is.
    Invisible { heading: String, written: String, what: &'static str },
    /// No date.
    Date { written: String, why: WrongDate },
    /// A date before today.
    Past { date: Date, today: Date },
    /// A product that the book does not have, and the nearest names that it has.
    Product { written: String, nearest: Vec<String> },
    /// No number of pieces.
    Pieces { written: String, why: WrongPieces },
    /// An order of nothing.
    NoPieces,
    /// The same was ordered in a line before.
    Again { what: What, first: Option<Line> },
    /// No day of the week.
    Weekday(String),
    /// A standing order that ends before it begins.
    Backwards { from: Date, until: Date },
    /// Two standing orders that both stand on some days.
    StandsTwice { what: What, first: Line },
    /// Two exceptions for the same.
    ExceptedTwice { what: What, first: Line },
    /// An exception from nothing.
    NothingStands(What),
}

/// An order, as a message names it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct What {
    /// A date, or a day of the week.
    pub(crate) day: String,
    pub(crate) customer: String,
    pub(crate) product: String,
}

/// A line of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Line {
    pub(crate) file: Arc<str>,
    pub(crate) number: u64,
}
