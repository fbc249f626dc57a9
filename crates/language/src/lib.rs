//! The language of a formula book: text to syntax tree and back, with places.

mod characters;
mod decode;
mod fault;
mod figure;
mod format;
mod lines;
mod measure;
mod name;
mod outline;
mod parse;
mod place;
mod problem;
mod problems;
mod source;
mod statement;
mod suggest;
mod tree;
mod unit;
mod words;

pub use decode::{MAX_BYTES, decode};
pub use format::{format, tidy};
pub use name::Name;
pub use parse::{MAX_LINES, Parsed, parse};
pub use place::{Place, Span, TextId};
pub use problem::{Label, Problem, Severity};
pub use suggest::nearest;
pub use tree::*;
