//! A book on the disk: its files are read within limits, and results are written whole or not at all.
//!
//! What edges that live on one machine share. The library `levamen` knows no files.

mod book;
mod error;
mod read;
mod target;

pub use book::{BookFile, BookFiles, is_dough_file};
pub use error::FileError;
pub use read::{bytes, reason, text_beside, text_file, text_from_standard_input};
pub use target::{Target, is_same_file, rewrite};
