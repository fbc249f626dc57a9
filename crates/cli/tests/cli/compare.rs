//! Two doughs side by side.

use insta::assert_snapshot;

use crate::run::{book, folder, record};

fn compare(doughs: &[&str]) -> String {
    record(&book(), &[&["compare"], doughs].concat(), "")
}

#[test]
fn two_doughs() {
    assert_snapshot!(compare(&["Harbour loaf", "Quay levain"]));
    assert_snapshot!(compare(&["Harbour loaf", "Quay levain", "--as-written"]));
}

#[test]
fn a_dough_before_and_after_a_wish() {
    assert_snapshot!(compare(&["Harbour loaf", "--want", "hydration 78 %"]));
    assert_snapshot!(compare(&["Harbour loaf", "--want", "hydration 78 %", "--json"]));
}

/// A changed dough of standard input beside the one of the book, both of the same name.
#[test]
fn a_changed_dough() {
    let changed = "dough Harbour loaf\n\nfinal dough\n  flour  1000 g\n  water  650 g\n  salt  20 g\n";
    assert_snapshot!(record(&book(), &["compare", "Harbour loaf", "-"], changed));
    assert_snapshot!(record(&book(), &["compare", "-", "Harbour loaf"], changed));
}

#[test]
fn wrong_calls() {
    assert_snapshot!(compare(&["Harbour loaf"]));
    assert_snapshot!(compare(&["-", "-"]));
    assert_snapshot!(compare(&["Harbour loaf", "Quay levian"]));
}

#[test]
fn a_dough_with_problems() {
    let text = "dough A\noverall\n  flour  100 %\n  flower  1 %\n\ndough B\noverall\n  flour  100 %\n  water  60 %\n";
    let files = folder(&[("a.dough", text.as_bytes())]);
    assert_snapshot!(record(files.path(), &["compare", "B", "A"], ""));
}
