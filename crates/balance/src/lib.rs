//! Facts to figures: the exact balance of a dough.
//!
//! A [`Balancer`] balances the doughs of a book, each after all that it takes from. A [`LiveBook`] is kept in memory
//! with all its balances and takes edits: it balances what an edit affects and tells which figures changed.

mod aim;
mod balancer;
mod circle;
mod compare;
mod figures;
mod linear;
mod live;
mod mixture;
mod optimum;
mod order;
mod read;
mod trouble;
mod walk;
mod why;

pub use aim::Aim;
pub use balancer::Balancer;
pub use compare::{Amount, Compared, ComparedStage, Comparison};
pub use figures::{Balance, Batch, Item, Line, Ripening, Row, Size, Stage};
pub use linear::{Contradiction, Solver, Values};
pub use live::{Changes, DoughChange, FigureChange, FigureName, LiveBook, What};
pub use why::{Because, Coupled, Given, Part, Reason, Together, Value, Why};
