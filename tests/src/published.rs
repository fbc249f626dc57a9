//! Worked examples in print.
//!
//! An [`Example`] is one file of `published/`. [`text::from_weights`] and [`text::from_percentages`] write it out as a
//! dough text; [`compare`] looks up every printed figure in the balance of that dough. The files' own README says
//! what each key means.

pub mod compare;
mod example;
mod figures;
mod rounding;
pub mod text;

pub use example::{Example, PercentForm, PercentRow, Row, load, names};
