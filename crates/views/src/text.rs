//! Text for a terminal or a printer: plain characters, aligned columns, no line wider than a page.

mod compare;
mod cost;
mod culture;
mod day;
mod ferment;
mod figures;
mod formula;
mod naming;
mod page;
mod problems;
mod ripe;
mod set;
mod sheet;
mod store;
mod timetable;
mod why;

pub use compare::{compare, conversion};
pub use cost::{cost, costs, orders_cost};
pub use culture::{feed, new_culture};
pub use day::{DayPart, day};
pub use ferment::{tubs, water};
pub use formula::{formula, list};
pub(crate) use naming::{entry_name, job_name};
pub(crate) use page::width;
pub use problems::{checked, problems};
pub use ripe::ripe;
pub use sheet::sheet;
pub use store::store;
pub(crate) use timetable::{needs, quality};
pub use timetable::{no_timetable, timetable};
pub use why::why;

use page::TextPage;
