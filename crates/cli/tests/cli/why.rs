//! Figures that cannot be explained, since a dough does not have them.

use insta::assert_snapshot;

use crate::run::{book, record};

fn why(figure: &[&str]) -> String {
    record(&book(), &[&["why"], figure].concat(), "")
}

#[test]
fn a_figure_that_the_dough_has_not() {
    assert_snapshot!(why(&["Harbour loaf", "hidration"]));
    assert_snapshot!(why(&["Harbour loaf", "left over of poolish"]));
    assert_snapshot!(why(&["Harbour loaf"]));
}
