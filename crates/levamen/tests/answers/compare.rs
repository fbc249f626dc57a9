//! Two doughs side by side.

use insta::assert_snapshot;

use crate::asked::{book, harbour};

fn compare(doughs: &[&str]) -> String {
    harbour().ask(&[&["compare"], doughs].concat())
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

#[test]
fn a_dough_with_problems() {
    let text = "dough A\noverall\n  flour  100 %\n  flower  1 %\n\ndough B\noverall\n  flour  100 %\n  water  60 %\n";
    assert_snapshot!(book(&[("a.dough", text)]).ask(&["compare", "B", "A"]));
}
