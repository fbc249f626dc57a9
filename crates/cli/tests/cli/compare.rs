//! Two doughs side by side.

use insta::assert_snapshot;

use crate::run::{book, record};

fn compare(doughs: &[&str]) -> String {
    record(&book(), &[&["compare"], doughs].concat(), "")
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
