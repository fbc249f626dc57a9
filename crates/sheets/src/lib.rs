//! Figures to paper and to other programs: the formula, the bench sheet, the list of a book.

pub mod csv;
mod entry;
pub mod json;
mod pieces;
mod rounding;
mod sheet;
pub mod text;

pub use entry::Entry;
pub use pieces::{Pieces, loss, usable};
pub use sheet::{Change, Dilution, Fetch, LineSheet, OnScale, Remedy, Sheet, Source, StageSheet};
