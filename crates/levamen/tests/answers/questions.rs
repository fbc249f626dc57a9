//! The questions, each as the library is asked it: what it asks by default, and what can be asked for more.

mod check;
mod compare;
mod convert;
mod costs;
mod dates;
mod day;
mod feed;
mod page;
mod ripen;
mod store;
mod tubs;
mod water;
mod why;
mod wishes;

pub use check::check;
pub use compare::compare;
pub use convert::{Conversion, convert};
pub use costs::{costs, orders_costs};
pub use day::{DayPages, day};
pub use feed::{Feeding, feed, new_culture};
pub use page::{Page, formula, scaled, sheet};
pub use ripen::{Ripening, ripen};
pub use store::{StoreRoom, store};
pub use tubs::tubs;
pub use water::{Watering, water};
pub use why::why;
