//! A small table that a baker keeps as CSV (RFC 4180): what is needed of a culture, what is on hand.
//!
//! [`Table::read`] takes a text that stands in memory; [`TableRows`] are its rows without a header. Columns are found by the
//! names in the first line, in any order; a cell comes with its [`Place`](levamen_language::Place), so that a problem
//! can point at it. What the words in a cell mean is for those who asked to say; here is reported only what is wrong with
//! the table as such.
//!
//! ```
//! use levamen_language::TextId;
//! use levamen_table::{TableForm, Table};
//!
//! const STOCK: TableForm = TableForm {
//!     empty: "the table says nothing of what is on hand",
//!     columns: "the first line names the columns: `ingredient,on hand`",
//!     row: "a line for each ingredient comes under it: `rye flour,75 kg`",
//!     most_rows: 1000,
//!     too_many: "is this the table that was meant? it has a row for each ingredient",
//! };
//! let table = Table::read(TextId(0), "On hand,Ingredient\r\n75 kg,rye flour\r\n", &STOCK).unwrap();
//! let what = table.column("ingredient").unwrap();
//! let words: Vec<&str> = table.rows().iter().map(|row| row.words(what)).collect();
//! assert_eq!(words, ["rye flour"]);
//! ```

mod cells;
mod problems;
mod row;
mod table;

pub use problems::TableForm;
pub use row::{TableCell, TableRow, TableRows};
pub use table::Table;
