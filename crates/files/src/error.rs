//! Why a file cannot be read or written.

use std::fmt;

use levamen::Problem;

/// Why a file cannot be read or written.
#[derive(Debug)]
pub enum FileError {
    /// The book is a file, and a folder is wanted.
    BookIsFile {
        /// The file.
        book: String,
        /// The folder that it is in.
        folder: String,
    },
    /// The folder of the book cannot be read.
    NoBook {
        /// The folder.
        book: String,
        /// Why.
        reason: String,
    },
    /// There is a file of that name.
    Taken {
        /// The file.
        file: String,
    },
    /// The name is that of a link which leads to no file.
    LinkToNothing {
        /// The link.
        file: String,
    },
    /// The file is one of those that are read.
    IsRead {
        /// The file, as it is named where it is read.
        file: String,
    },
    /// The file would be read as one of the book from then on.
    WouldBeDough {
        /// The file.
        file: String,
    },
    /// A file that is named is not there.
    NotThere {
        /// The file.
        file: String,
    },
    /// There are no orders in the book, and none are named.
    NoOrders {
        /// The folder of the book.
        book: String,
    },
    /// The system refuses to write it.
    NotWritten(Box<Problem>),
}

impl fmt::Display for FileError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BookIsFile { book, .. } => write!(out, "the book `{book}` is a file, not a folder"),
            Self::NoBook { book, reason } => write!(out, "the book `{book}` could not be read: {reason}"),
            Self::Taken { file } => write!(out, "`{file}` is there already"),
            Self::LinkToNothing { file } => write!(out, "`{file}` is a link to a file that is not there"),
            Self::IsRead { file } => write!(out, "`{file}` is read here, and would be overwritten"),
            Self::WouldBeDough { file } => write!(out, "`{file}` would be a dough file of the book"),
            Self::NotThere { file } => write!(out, "there is no file `{file}`"),
            Self::NoOrders { book } => write!(out, "there are no orders in `{book}`"),
            Self::NotWritten(problem) => out.write_str(&problem.message),
        }
    }
}

impl std::error::Error for FileError {}
