//! What is weighed: figures rounded once, to the bakery's scales and to money.
//!
//! A [`Batch`](levamen_balance::Batch) of a balanced dough and the bakery's [`Scale`](levamen_formula::Scale)s come in, and a
//! [`Sheet`] comes out. [`Sheet::new`] rounds every weight once, so that lines still add up to their stage and stages to
//! the batch; `docs/rounding.md` says how. The same holds for the sheets of a day, of a culture's feedings, of the store
//! room, and for costs. `levamen-views` shows them.
//!
//! ```
//! use levamen_balance::Balance;
//! use levamen_formula::Scale;
//! use levamen_sheets::Sheet;
//!
//! fn rounded(dough: &Balance, scales: &[Scale]) -> Sheet {
//!     Sheet::new(&dough.batch(), scales)
//! }
//! ```

mod begun;
mod cautions;
mod cost;
mod day;
mod feeding;
mod issues;
pub mod money;
mod pieces;
mod rounding;
mod sheet;
mod store;

pub use begun::{BegunDays, BegunSheet};
pub use cautions::{DoughCaution, cautions};
pub use cost::{CustomerCost, DoughCost, OrderCost, Ordered, OrdersCost, PieceCost};
pub use day::{DaySheets, DoughSheet, GoesInto, ToppingSheet};
pub use feeding::{FeedingRow, FeedingSheet, Part, Weighed};
pub use pieces::{Pieces, loss, to_divide};
pub use sheet::{
    Change, Dilution, Fetch, LineSheet, OnScale, Remedy, Sheet, Source, StageSheet, is_of, mixed,
};
pub use store::{Action, StoreLine, StoreSheet, sum};
