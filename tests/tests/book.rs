//! The demo book: it is clean, every dough of it balances and adds up, and between them they use every form of the
//! language.

use std::path::Path;

use levamen_balance::Balancer;
use levamen_formula::Book;
use levamen_language::{TextId, tidy};
use levamen_sheets::Sheet;
use levamen_tests::audit::{faults, unfulfilled};
use levamen_tests::forms::{Forms, all, of_text};
use levamen_tests::read::told;

/// The texts of the book, by the names of their files.
fn texts() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../formulas");
    let listed = std::fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok);
    let paths = listed.map(|entry| entry.path());
    let doughs = paths.filter(|path| path.extension().is_some_and(|ending| ending == "dough"));
    let read = doughs.filter_map(|path| {
        Some((path.file_name()?.to_str()?.to_owned(), std::fs::read_to_string(&path).ok()?))
    });
    let mut texts: Vec<(String, String)> = read.collect();
    texts.sort_unstable();
    texts
}

/// The book, and what is wrong with it.
fn book() -> (Book, Vec<levamen_language::Problem>) {
    let texts = texts();
    let layer: Vec<(TextId, &str)> =
        (0..).map(TextId).zip(texts.iter().map(|(_, text)| text.as_str())).collect();
    Book::read(&[&layer])
}

#[test]
fn the_book_is_clean() {
    let (book, problems) = book();
    assert!(problems.is_empty(), "{}", told(&problems));
    let doughs = book.entries().filter(|(_, entry)| entry.role == levamen_formula::Role::Dough);
    assert!(doughs.count() >= 15);
}

#[test]
fn every_dough_balances_adds_up_and_is_as_stated() {
    let (book, _) = book();
    let mut balancer = Balancer::new(&book);
    for (id, entry) in book.entries() {
        let balance = balancer.balance(id).cloned().map_err(told).unwrap();
        let mut wrong = faults(&book, &mut balancer, id, &balance).unwrap();
        wrong.extend(unfulfilled(entry.formula.as_ref().unwrap(), &balance));
        assert!(wrong.is_empty(), "{}\n{}", entry.name, wrong.join("\n"));
        let sheet = Sheet::new(&balance.batch(), &book.scales()).unwrap();
        assert_eq!(sheet.stages.len(), balance.stages.len(), "{}", entry.name);
    }
}

#[test]
fn every_file_is_in_canonical_layout() {
    for (file, text) in texts() {
        let laid_out = tidy(TextId(0), &text).map_err(|problems| told(&problems)).unwrap();
        assert_eq!(laid_out, text, "{file}");
    }
}

#[test]
fn every_form_of_the_language_is_in_the_book() {
    let used: Forms = texts().iter().flat_map(|(_, text)| of_text(text)).collect();
    let missing: Vec<String> = all().difference(&used).cloned().collect();
    assert!(missing.is_empty(), "no dough of the book shows {missing:?}");
    let unknown: Vec<String> = used.difference(&all()).cloned().collect();
    assert!(unknown.is_empty(), "not in the list of forms: {unknown:?}");
}
