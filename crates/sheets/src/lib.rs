//! Figures to paper and to other programs: a dough's formula, its bench sheet, the list of a book.
//!
//! Two things come in, a [`Batch`](levamen_balance::Batch) of a balanced dough and the bakery's
//! [`Scale`](levamen_formula::Scale)s, and text or bytes go out. Nothing here prints, and nothing opens a file.
//!
//! A formula is for reading: its figures are exact, and shortened only where they are shown. A sheet is for
//! weighing: [`Sheet::new`] rounds every weight once, so that lines still add up to their stage and stages to the
//! batch. `docs/rounding.md` tells how.
//!
//! | | text | CSV | JSON |
//! |---|---|---|---|
//! | formula | [`text::formula`] | | [`json::Formula`] |
//! | sheet | [`text::sheet`] | [`csv::sheet`] | [`json::Sheet`] |
//! | list | [`text::list`] | | [`json::ListItem`] |
//! | why a figure is what it is | [`text::why`] | | [`json::Why`] |
//! | two doughs side by side | [`text::compare`] | | [`json::Comparison`] |
//! | when a pre-ferment is ripe | [`text::ripe`] | | [`json::Ripe`] |
//! | what grows in it | [`plot::terminal`], [`plot::svg`] | | |
//! | a dough with another pre-ferment | [`text::conversion`] | | [`json::Conversion`] |
//! | the water for a dough's temperature | [`text::poured`] | | [`json::Poured`] |
//! | the tubs for its pre-ferments | [`text::housed`] | | [`json::Housed`] |
//! | feeding of a culture | [`text::feed`] | | [`json::Feed`] |
//! | a new culture | [`text::begun`] | | [`json::Begun`] |
//! | what the store room needs and buys | [`text::store`] | [`csv::store`] | [`json::Store`] |
//! | the day's timetable | [`text::timetable`] | | [`json::TimetableJson`] |
//! | why there is none | [`text::no_timetable`] | | [`json::NoTimetableJson`] |
//! | what doughs cost | [`text::costs`], [`text::cost`] | | [`json::Costs`] |
//! | what orders cost | [`text::orders_cost`] | | [`json::Costs`] |
//! | problems | | | [`json::ProblemJson`] |
//!
//! A timetable is a calendar file too, [`ics::timetable`], and a picture, [`svg::timetable`].
//!
//! ```
//! use levamen_balance::Balance;
//! use levamen_formula::Scale;
//! use levamen_sheets::{Sheet, text};
//!
//! fn print_twice(dough: &Balance, scales: &[Scale]) -> String {
//!     let batch = dough.batch();
//!     text::formula(&batch) + &text::sheet(&Sheet::new(&batch, scales))
//! }
//! ```

mod begun;
mod cautions;
mod cost;
pub mod csv;
mod day;
mod day_page;
mod entry;
mod feeding;
mod housed;
pub mod ics;
mod issues;
pub mod json;
mod money;
mod pieces;
pub mod plot;
mod poured;
mod ripe;
mod rounding;
mod sheet;
mod spot;
mod store;
pub mod svg;
pub mod text;
mod xml;

pub use begun::{BegunDays, BegunSheet};
pub use cautions::{DoughCaution, cautions};
pub use cost::{CustomerCost, DoughCost, OrderCost, Ordered, OrdersCost, PieceCost};
pub use day::{DaySheets, DoughSheet, GoesInto, ToppingSheet};
pub use day_page::{DayPage, DayPart};
pub use entry::Entry;
pub use feeding::{FeedingRow, FeedingSheet, Part, Weighed};
pub use housed::{Housed, HousedStage};
pub use pieces::Pieces;
pub use poured::Poured;
pub use ripe::{Given, Ripe, RipeAnswer};
pub use sheet::{Change, Dilution, Fetch, LineSheet, OnScale, Remedy, Sheet, Source, StageSheet};
pub use spot::{Spot, Texts};
pub use store::{Action, StoreLine, StoreSheet};
