//! Text for a terminal or a printer: plain characters, aligned columns, no line wider than a page.

mod begun;
mod columns;
mod compare;
mod conversion;
mod cost;
mod day;
mod feed;
mod formula;
mod housed;
mod list;
mod poured;
mod remedy;
mod ripe;
mod sheet;
mod store;
mod timetable;
mod weights;
mod why;
pub(crate) mod words;

pub use begun::begun;
pub use compare::compare;
pub use conversion::conversion;
pub use cost::{cost, costs, orders_cost};
pub use day::day;
pub use feed::feed;
pub use formula::formula;
pub use housed::housed;
pub use list::list;
pub use poured::poured;
pub use ripe::ripe;
pub use sheet::sheet;
pub use store::store;
pub(crate) use timetable::{needs, quality};
pub use timetable::{no_timetable, timetable};
pub use why::why;

use columns::Page;
