//! What comes of a table: every file in `tables/` is one, and its snapshot the dough text.

use levamen_formula::Book;
use levamen_import::{Options, import};
use levamen_language::TextId;
use levamen_quantity::MassUnit;

use crate::{imported, sound};

fn text(table: &str, unit: MassUnit) -> String {
    let text = imported(table.as_bytes(), unit, "Country  loaf");
    text.unwrap_or_else(|problems| panic!("{problems:#?}"))
}

#[test]
fn tables() {
    insta::glob!("tables/*.csv", |path| {
        let table = std::fs::read_to_string(path).unwrap();
        let text = text(&table, MassUnit::Gram);
        sound::balanced(&text);
        insta::with_settings!({ omit_expression => true }, {
            insta::assert_snapshot!(format!("{table}\n----\n{text}"));
        });
    });
}

#[test]
fn the_weights_of_a_table_are_in_one_unit() {
    for unit in MassUnit::ALL {
        let symbol = unit.symbol();
        for heading in ["grams", "Weight", "AMOUNT", symbol] {
            let table = format!("stage,ingredient,{heading}\n,flour,1.50\n,water,1\n");
            let text = text(&table, unit);
            assert!(text.contains(&format!("flour  1.50 {symbol}")), "{text}");
            sound::balanced(&text);
        }
    }
}

#[test]
fn a_culture_of_the_book_is_not_explained_again() {
    let book = "culture Rosa\n  rye flour  100 %\n  water      100 %\n";
    let (read, _) = Book::read(&[&[(TextId(0), book)]]);
    let options =
        Options { unit: MassUnit::Gram, name: "Country loaf".to_owned(), cultures: vec!["Rosa".to_owned()] };
    let table = "stage,ingredient,grams\nlevain,water,100\nlevain,rosa,20\n,flour,900\n,levain,120\n";
    let text = import(TextId(0), table.as_bytes(), &options, read.pantry()).unwrap();
    assert!(text.contains("from rosa   20 g") && !text.contains("culture"), "{text}");
    sound::balanced(&format!("{text}\n{book}"));
}

#[test]
fn many_rows_of_the_same_are_counted_and_not_listed() {
    let table = format!("stage,ingredient,grams\n,water,60\n{}", ",flour,12.5\n".repeat(6));
    let text = text(&table, MassUnit::Gram);
    assert!(text.contains("  flour  75 g  # the sum of 6 rows of the table\n"), "{text}");
    sound::balanced(&text);
}

#[test]
fn a_name_must_be_held_before_the_sum_and_not_before_its_parts() {
    let codes = |rows: &str| -> Vec<&'static str> {
        let table = format!("stage,ingredient,grams\n,flour,1000\n{rows}");
        let problems = imported(table.as_bytes(), MassUnit::Gram, "Country loaf").unwrap_err();
        problems.iter().map(|problem| problem.code).collect()
    };
    assert_eq!(codes(",seed mix 1,50\n"), ["unknown-ingredient"]);
    assert_eq!(
        codes(",seed mix 1,50\n,seed mix 1,50\n"),
        ["bad-name"],
        "`1 100 g` can be read as one number"
    );
}
