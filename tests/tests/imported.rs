//! The published weights as a table: what the import makes of it is the same dough, figure by figure.
//!
//! A table says nothing of a culture but its name, and the prints differ in how they count one; so these are the
//! examples without a culture.

use levamen_formula::Book;
use levamen_import::{Options, import};
use levamen_language::TextId;
use levamen_tests::published::{Example, Row, compare, load, names};
use levamen_tests::read::{last_dough, told};

/// The rows of an example as a table, quoted as RFC 4180 has it.
fn table(example: &Example) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let mut rows = vec![["stage", "ingredient", "grams"]];
    rows.extend(example.rows.iter().map(|Row(stage, name, weight)| [stage.as_str(), name, weight]));
    let written = rows.into_iter().all(|row| writer.write_record(row).is_ok());
    let bytes = writer.into_inner().unwrap_or_default();
    if written { String::from_utf8(bytes).unwrap_or_default() } else { String::new() }
}

/// What does not agree where an example comes through the import.
fn wrong(example: &Example) -> Result<Vec<String>, String> {
    // What the pantry does not know, the book does.
    let plain =
        example.plain.iter().map(|name| format!("ingredient {name}\n  source only its weight counts\n\n"));
    let plain: String = plain.collect();
    let (book, _) = Book::read(&[&[(TextId(0), plain.as_str())]]);
    let unit = example.mass_unit()?;
    let options = Options { unit, name: "Imported loaf".to_owned(), cultures: Vec::new() };
    let text = import(TextId(0), table(example).as_bytes(), &options, book.pantry())
        .map_err(|problems| told(&problems))?;
    let text = plain + &text;
    let balance = last_dough(&text).map_err(|problems| format!("{problems}\n\n{text}"))?;
    compare::from_weights(example, &balance)
}

#[test]
fn every_example_without_a_culture_comes_through_the_import() {
    let examples = names().unwrap().into_iter().map(|name| load(&name).unwrap());
    let without_culture: Vec<Example> = examples.filter(|example| example.seed.is_none()).collect();
    assert!(without_culture.len() >= 11);
    for example in without_culture {
        let wrong = wrong(&example).unwrap_or_else(|problems| vec![problems]);
        let (name, source) = (&example.name, &example.source);
        assert!(wrong.is_empty(), "{name}\nsource: {source}\n{}", wrong.join("\n"));
    }
}
