//! Any table becomes a text that is read without a problem and whose dough adds up or is refused with a reason; or it is
//! refused itself, with a reason in the table. Nothing panics.

#![no_main]

use std::sync::LazyLock;

use levamen_formula::Book;
use levamen_import::{Options, import};
use levamen_language::{Problem, TextId, tidy};
use levamen_quantity::MassUnit;
use levamen_tests::audit::verified;
use libfuzzer_sys::fuzz_target;

static BOOK: LazyLock<Book> = LazyLock::new(|| Book::read(&[]).0);

fuzz_target!(|bytes: &[u8]| {
    let unit = bytes.first().and_then(|byte| MassUnit::ALL.get(usize::from(byte % 4))).copied();
    let unit = unit.unwrap_or(MassUnit::Gram);
    let options = Options { unit, name: "Imported loaf".to_owned(), cultures: Vec::new() };
    let table = bytes.get(1..).unwrap_or_default();
    match import(TextId(0), table, &options, BOOK.pantry()) {
        Ok(text) => {
            assert_eq!(tidy(TextId(0), &text).as_deref(), Ok(text.as_str()), "a problem, or not canonical");
            if let Err(wrong) = verified(&text) {
                panic!("{wrong}\n\n{text}");
            }
        }
        Err(problems) => {
            assert!(!problems.is_empty(), "refused without a reason");
            problems.iter().for_each(|problem| stands_in(problem, table));
        }
    }
});

fn stands_in(problem: &Problem, table: &[u8]) {
    let text = std::str::from_utf8(table).unwrap_or_default();
    for label in problem.primary.iter().chain(&problem.secondary) {
        let span = label.place.span;
        assert!(
            text.get(span.start as usize..span.end as usize).is_some(),
            "{span:?} is no place in the table"
        );
    }
}
