//! Figures to paper and to other programs: the formula, the bench sheet, the list of a book.

mod entry;
pub mod json;
mod pieces;
pub mod text;

pub use entry::Entry;
pub use pieces::{Pieces, loss, usable};
