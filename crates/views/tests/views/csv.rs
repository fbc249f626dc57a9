//! Bench sheets as CSV, byte for byte.

use levamen_balance::Balance;
use levamen_sheets::Sheet;
use levamen_views::csv;

use crate::{doughs, golden, kitchen::kitchen};

fn sheet(balance: &Balance) -> String {
    String::from_utf8(csv::sheet(&Sheet::new(&balance.batch(), &[]).unwrap()).unwrap()).unwrap()
}

#[test]
fn poolish() {
    golden::check("poolish.csv", &sheet(&doughs::poolish_bread()));
}

#[test]
fn builds_in_builds_and_steam() {
    golden::check("nested.csv", &sheet(&doughs::nested_and_steam()));
}

#[test]
fn names_that_look_like_formulas_and_names_with_quotes() {
    let balance = kitchen("=SUM(A1)").last(|tub| {
        tub.add("=1+1 flour", "1000").add("water", "700").add("-salt", "20").add("\"best\" malt", "5")
    });
    golden::check("formulas.csv", &sheet(&balance));
}

#[test]
fn every_line_ends_in_cr_lf() {
    let sheet = sheet(&doughs::poolish_bread());
    assert_eq!(sheet.matches('\n').count(), sheet.matches("\r\n").count());
    assert!(sheet.ends_with("\r\n"));
}
