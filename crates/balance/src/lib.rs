//! Facts to figures: the exact balance of a dough.

mod aim;
mod balancer;
mod circle;
mod compare;
mod figures;
mod linear;
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
pub use why::{Because, Coupled, Given, Part, Reason, Together, Value, Why};
