//! A book on the disk: its files are read within limits, and results are written whole or not at all.
//!
//! What edges that live on one machine share. The library `levamen` knows no files.
//!
//! [`BookFiles::read`] finds the `*.dough` files of a folder, and of the folders below it that the `bakery` card names; what
//! it passes over is a problem that somebody sees. A file of more than [`MAX_BYTES`](levamen::MAX_BYTES), or whose bytes are no
//! text, becomes a [`Problem`](levamen::Problem), and the rest of the book is read all the same.
//!
//! A [`Target`] is a file to write. It never takes the place of another without a word, or of anything that the
//! command has read, and it is written beside its place and renamed into it: whole, or not at all.

mod book;
mod error;
mod orders;
mod read;
mod target;

pub use book::{BookFile, BookFiles, is_dough_file};
pub use error::FileError;
pub use orders::{OrderFileKind, OrderFiles};
pub use read::{bytes, reason, text_beside, text_file, text_from_standard_input};
pub use target::{Target, is_same_file, rewrite};
