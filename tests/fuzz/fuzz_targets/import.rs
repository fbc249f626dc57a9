//! Any table becomes a text that is read without a problem and whose dough adds up or is refused with a reason; or it is
//! refused itself, with a reason in the table. Nothing panics.

#![no_main]

use std::sync::LazyLock;

use levamen_formula::Book;
use levamen_import::{Options, import};
use levamen_language::{TextId, parse};
use levamen_quantity::MassUnit;
use levamen_tests::audit::verified;
use libfuzzer_sys::fuzz_target;

static BOOK: LazyLock<Book> = LazyLock::new(|| Book::read(&[]).0);

fuzz_target!(|bytes: &[u8]| {
    let unit = bytes.first().and_then(|byte| MassUnit::ALL.get(usize::from(byte % 4))).copied();
    let options = Options { unit: unit.unwrap_or(MassUnit::Gram), name: "Imported loaf".to_owned() };
    match import(TextId(0), bytes.get(1..).unwrap_or_default(), &options, BOOK.pantry()) {
        Ok(text) => {
            let problems = parse(TextId(0), &text).problems;
            assert!(problems.is_empty(), "{problems:?}\n\n{text}");
            if let Err(wrong) = verified(&text) {
                panic!("{wrong}\n\n{text}");
            }
        }
        Err(problems) => assert!(!problems.is_empty(), "refused without a reason"),
    }
});
