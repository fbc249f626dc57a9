//! What can be wrong with a line of orders, or with a whole file of them, and where it stands.

use std::sync::Arc;

use jiff::civil::Date;

use crate::pieces::PiecesError;
use levamen_calendar::NotADate;

/// One thing that is wrong; [`crate::LineError`] says where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum LineErrorKind {
    /// The file cannot be read, or not to its end; what the system says.
    Unreadable(String),
    /// The file has no line.
    Empty,
    /// The headings are separated by another mark than a comma.
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
    Date { written: String, why: NotADate },
    /// A date before today.
    Past { date: Date, today: Date },
    /// A product that the book does not have, and the nearest names that it has.
    Product { written: String, nearest: Vec<String> },
    /// No number of pieces.
    Pieces { written: String, why: PiecesError },
    /// An order of nothing.
    NoPieces,
    /// The same was ordered in a line before.
    Duplicate { what: OrderName, first: Option<FileLine> },
    /// No day of the week.
    Weekday(String),
    /// A standing order that ends before it begins.
    Backwards { from: Date, until: Date },
    /// Two standing orders that both stand on some days.
    StandingTwice { what: OrderName, first: FileLine },
    /// Two exceptions for the same.
    ExceptionTwice { what: OrderName, first: FileLine },
    /// An exception from nothing.
    NoStandingOrder(OrderName),
}

/// An order, as a message names it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct OrderName {
    /// A date, or a day of the week.
    pub(crate) day: String,
    pub(crate) customer: String,
    pub(crate) product: String,
}

/// A line of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct FileLine {
    pub(crate) file: Arc<str>,
    pub(crate) number: u64,
}

/// The most errors that are reported of one reading. All are counted; more are no help to anybody.
pub const MAX_REPORTED: usize = 200;

/// One line that is wrong and therefore not in the totals.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineError {
    /// The name of its file.
    pub file: Arc<str>,
    /// Its number in the file; the first is 1.
    pub line: u64,
    /// Where the file stands among those that were read.
    pub(crate) order: u32,
    /// The line as it is written, or its beginning; empty where the error is of the file.
    pub(crate) row: String,
    /// What is wrong with it.
    pub(crate) kind: LineErrorKind,
}

/// The first errors, and how many there are.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LineErrors {
    pub(crate) reported: Vec<LineError>,
    pub(crate) count: u64,
}

impl LineErrors {
    /// The first of them in the order of files and lines, at most [`MAX_REPORTED`].
    #[must_use]
    pub fn reported(&self) -> &[LineError] {
        &self.reported
    }

    /// How many there are in all.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.count
    }

    /// The reported ones, each with how many more of them are like it: a day of the week that is misspelt is so in every line that was
    /// copied from one.
    pub(crate) fn alike(&self) -> Vec<(&LineError, usize)> {
        let mut found: Vec<(&LineError, usize)> = Vec::new();
        for error in &self.reported {
            let is_like = |(other, _): &&mut (&LineError, usize)| {
                matches!(error.kind, LineErrorKind::Weekday(_))
                    && (other.order, &other.kind) == (error.order, &error.kind)
            };
            match found.iter_mut().find(is_like) {
                Some((_, again)) => *again += 1,
                None => found.push((error, 0)),
            }
        }
        found
    }

    /// Counts one, and keeps it while there are few.
    pub(crate) fn add(&mut self, error: LineError) {
        self.count += 1;
        if self.reported.len() < MAX_REPORTED {
            self.reported.push(error);
        }
    }

    /// In the order of files and lines, and no more than are reported.
    pub(crate) fn sort(&mut self) {
        self.reported.sort_by_key(|error| (error.order, error.line));
        self.reported.truncate(MAX_REPORTED);
    }
}

/// Words as a message quotes them: on one line, without characters that a terminal would obey, and not too long.
pub(crate) fn excerpt(bytes: &[u8]) -> String {
    const MOST: usize = 100;
    // No character has more than four bytes.
    let bytes = bytes.get(..MOST * 4 + 4).unwrap_or(bytes);
    let text = String::from_utf8_lossy(bytes);
    let mut shown: String = text.chars().take(MOST).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(MOST).is_some() {
        shown.push('…');
    }
    shown.trim().to_owned()
}
