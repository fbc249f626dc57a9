//! An existing recipe in weights becomes a dough text.
//!
//! A recipe comes as a table, a row for each thing that is weighed: the stage it is weighed into, what it is, and
//! how much. A row that names another stage takes that much of it. The stage that no other takes is the final dough.
//!
//! [`import`] reads such a table (CSV, RFC 4180) and writes the same recipe in the language of dough files, in
//! canonical layout. The weights stay as they are, digit by digit; what they are in percent is for the balance to
//! say. It goes in four steps, a file or two each:
//!
//! 1. from text to rows: `table` and `weight`, on the rows that `levamen_table` reads;
//! 2. from rows to stages: `gather`, with `name` and `seed`, makes a `recipe`;
//! 3. what becomes of each stage, taken whole or in part: `flow`;
//! 4. from stages to text: `write`.
//!
//! Nothing is guessed in silence: what the table does not say, such as what a culture is made of, stands beside a
//! comment in the text. What cannot be read is reported as [`Problem`](levamen_language::Problem)s with places in the
//! table, all of them in one run.
//!
//! ```
//! use levamen_formula::Book;
//! use levamen_import::{Options, import};
//! use levamen_language::TextId;
//! use levamen_quantity::MassUnit;
//!
//! let table = "stage,ingredient,grams\n\
//!              poolish,flour,300\npoolish,water,300\n\
//!              ,flour,700\n,water,380\n,salt,20\n,poolish,600\n";
//! let (book, _) = Book::read::<&str>(&[]);
//! let options = Options { unit: MassUnit::Gram, name: "Baguette".to_owned(), cultures: Vec::new() };
//! let text = import(TextId(0), table.as_bytes(), &options, book.pantry()).unwrap();
//! assert_eq!(
//!     text,
//!     "dough Baguette\n\nstage poolish\n  flour  300 g\n  water  300 g\n\n\
//!      final dough\n  flour    700 g\n  water    380 g\n  salt      20 g\n  poolish  600 g\n"
//! );
//! ```

mod flow;
mod gather;
mod import;
mod name;
mod problems;
mod recipe;
mod seed;
mod table;
mod weight;
mod write;

pub use import::import;
pub use recipe::{MAX_ROWS, Options};
