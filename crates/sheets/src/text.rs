//! Text for a terminal or a printer: plain characters, aligned columns, no line wider than a page.

mod columns;
mod formula;
mod list;
mod remedy;
mod sheet;
mod weights;
mod words;

pub use formula::formula;
pub use list::list;
pub use sheet::sheet;

use columns::Page;
