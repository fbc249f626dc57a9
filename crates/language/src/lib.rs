//! The language of a formula book: text to syntax tree and back, with places.

mod place;
mod problem;
mod tree;

pub use place::{Place, Span, TextId};
pub use problem::{Label, Problem, Severity};
pub use tree::*;
