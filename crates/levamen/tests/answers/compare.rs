//! Two doughs side by side.

use insta::assert_snapshot;

use crate::asked::{book, harbour};
use crate::questions::compare;

#[test]
fn two_doughs() {
    assert_snapshot!(harbour().ask(&compare("Harbour loaf").beside("Quay levain")));
    assert_snapshot!(harbour().ask(&compare("Harbour loaf").beside("Quay levain").written()));
}

#[test]
fn a_dough_before_and_after_a_wish() {
    assert_snapshot!(harbour().ask(&compare("Harbour loaf").want("hydration 78 %")));
    assert_snapshot!(harbour().ask(&compare("Harbour loaf").want("hydration 78 %").json()));
}

#[test]
fn a_dough_with_problems() {
    let text = "dough A\noverall\n  flour  100 %\n  flower  1 %\n\ndough B\noverall\n  flour  100 %\n  water  60 %\n";
    assert_snapshot!(book(&[("a.dough", text)]).ask(&compare("B").beside("A")));
}
