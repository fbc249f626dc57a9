//! The day: from the pieces that are ordered to the doughs, batches, stages and seeds that make them, what the store
//! room issues for them, and what they cost. `docs/plan.md` says what follows from what.
//!
//! Everything here is exact: a [`Day`] holds balances, each split over its batches, and the flour that gives them
//! their size. It is rounded once, on the sheets.
//!
//! # From orders to a day
//!
//! 1. [`DayOrders`] become [`Pieces`] with spares and whole heads, and those a [`Need`] of each dough, and of the doughs that it
//!    takes from;
//! 2. each dough is mixed in [`Batches`], as few as its mixer takes: a [`DayDough`];
//! 3. [`Hours`] are the day as work for the timetable, [`Starts`] the latest hours without one;
//! 4. a [`Setting`] is something that is set or mixed: when, in which tub, with how warm a water ([`Bowl`]).
//!
//! Beside it stand what the store room buys ([`Issue`], [`purchases`], [`Stock`]) and what dough and pieces [`Cost`].
//!
//! ```
//! use levamen_bakery::{Bakery, ProductId};
//! use levamen_balance::BookBalances;
//! use levamen_formula::Book;
//! use levamen_language::TextId;
//! use levamen_plan::{Day, DayOrders};
//!
//! let text = "dough Loaf\n\noverall\n  white flour  100 %\n  water  70 %\n  salt  2 %\n\n\
//!             product Loaf\n  made of Loaf\n  piece  860 g\n  losing  2 %\n";
//! let texts = [(TextId(0), text)];
//! let (book, problems) = Book::read(&[&texts]);
//! assert!(problems.is_empty());
//! let (bakery, _) = Bakery::read(&book, &texts);
//! let orders = DayOrders::from_pieces([(ProductId::new(0), 49)]);
//! let day = Day::plan(&BookBalances::new(&book), &bakery, &orders, None).unwrap();
//! // 49 × 860 g / 0.98 are 43 kg of dough.
//! assert_eq!(day.doughs[0].mass().grams().to_decimal_string(), "43000");
//! ```

mod allot;
mod batches;
mod bowl;
mod cost;
mod day;
mod hours;
mod more;
mod needs;
mod pieces;
mod setting;
mod stages;
mod starts;
mod stock;
mod store;

pub use allot::{Portion, allot};
pub use batches::{BatchWarning, Batches};
pub use bowl::{Bowl, Warmth};
pub use cost::{Cost, CostLine, Unpriced};
pub use day::{Day, DayDough};
pub use hours::{Gap, Hours, House, Task, Timed, in_mixing_order};
pub use more::More;
pub use needs::{DayError, Need, Taken, is_old_dough};
pub use pieces::{DayOrders, Pieces};
pub use setting::{RisingStage, Setting, settings};
pub use stages::{DayStageId, Seeding, split};
pub use starts::Starts;
pub use stock::{Stock, read_stock};
pub use store::{Issue, Purchase, purchases};
