//! Whole tables, from CSV to dough text.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test says where it fails")]

mod errors;
mod properties;
mod published;
mod sound;
mod tables;

use std::sync::LazyLock;

use levamen_formula::Book;
use levamen_import::{Options, import};
use levamen_language::{Problem, TextId};
use levamen_quantity::MassUnit;

/// A table imported beside the built-in pantry.
fn imported(table: &[u8], unit: MassUnit, name: &str) -> Result<String, Vec<Problem>> {
    static BOOK: LazyLock<Book> = LazyLock::new(|| Book::read::<&str>(&[]).0);
    let options = Options { unit, name: name.to_owned(), cultures: Vec::new() };
    import(TextId(0), table, &options, BOOK.pantry())
}

/// A table of these rows.
fn table(rows: impl Iterator<Item = String>) -> String {
    let lines: Vec<String> = std::iter::once("stage,ingredient,grams".to_owned()).chain(rows).collect();
    lines.join("\n") + "\n"
}
