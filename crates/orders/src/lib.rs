//! Orders as CSV to pieces of each product and day.
//!
//! A bakery's orders come as files of lines, a line for each date, customer and product with the number of pieces;
//! other files say what stands for a day of every week, and what takes its place on one date. [`read`] adds them up to
//! a [`Demand`]: pieces by day and product. What is wrong with a line is a [`LineError`] with its file and line, and such a
//! line is not counted. `docs/orders.md` has the columns, what is refused, and why it is fast.
//!
//! The crate opens no files: a [`OrderSource`] gives it bytes under a name, as often as it asks. It knows products by the
//! names that [`Products`] has, and nothing of doughs.
//!
//! # From bytes to totals
//!
//! 1. `block` reads the files in blocks of whole records, by turns for several workers;
//! 2. `record` splits a block into records and their cells (RFC 4180), by the `columns` that the headings name; `shape` tells whether
//!    a record has them;
//! 3. `reader` turns the cells into numbers, by `cell_cache` where a cell was read before, and by `cell` and
//!    `pieces` where it was not; `error` is what is wrong. It hands the blocks over in the order of the files;
//! 4. `tally` adds them up, with `interner`, `totals` and, for what is ordered twice, `duplicates`;
//! 5. `weekly` adds standing orders, and `problems` puts errors into words.
//!
//! ```
//! use levamen_calendar::Days;
//! use levamen_orders::{OrderColumns, Files, Products, OrderRequest, SourceText, read};
//!
//! let products = Products::new(["Rye loaf", "Tin loaf"]);
//! let text = "date,customer,product,quantity\n\
//!             2026-11-27,Quay café,Rye loaf,12\n2026-11-27,Inn,rye loaf,3\n2026-11-27,Inn,Tin laof,5\n";
//! let orders = read(
//!     &Files { orders: &[&SourceText::new("friday.csv", text.as_bytes())], ..Files::default() },
//!     &OrderRequest {
//!         days: Days::one(jiff::civil::date(2026, 11, 27)),
//!         today: None,
//!         products: &products,
//!         columns: &OrderColumns::default(),
//!         by_customer: false,
//!     },
//! );
//! let totals: Vec<_> = orders.demand.iter().map(|(_, product, pieces)| (products.name(product), pieces.count())).collect();
//! assert_eq!(totals, [("Rye loaf", 15)]);
//! assert!(!orders.is_complete());
//! assert_eq!(
//!     orders.problems()[0].message,
//!     "friday.csv, line 4: `Tin laof` is not a product of the book"
//! );
//! ```

mod block;
mod cell;
mod cell_cache;
mod columns;
mod duplicates;
mod error;
mod interner;
mod pieces;
mod problems;
mod read;
mod reader;
mod record;
mod request;
mod shape;
mod tally;
mod totals;
mod weekly;

pub use columns::OrderColumns;
pub use error::{LineError, LineErrors, MAX_REPORTED};
pub use interner::Products;
pub use levamen_bakery::ProductId;
pub use pieces::PieceSum;
pub use read::{Orders, read};
pub use request::{Files, OrderRequest, OrderSource, SourceText};
pub use totals::Demand;
