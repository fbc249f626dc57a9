//! Texts that are no dough: of each it is said where, and how to mend it.

use insta::assert_snapshot;

use crate::asked::book;
use crate::questions;

/// What is said of a book with one text.
fn check(text: &str) -> String {
    book(&[("dough.dough", text)]).ask(&questions::check())
}

#[test]
fn numbers_that_are_none() {
    let digits = "1".repeat(40);
    for amount in
        ["NaN %", "inf %", "-5 %", "0 %", &format!("{digits} %"), "1,5 %", "1.000,5 g", "1 000 g", "1e3 g"]
    {
        assert_snapshot!(check(&format!("dough A\n\noverall\n  flour  100 %\n  water  {amount}\n")));
    }
}

#[test]
fn units_that_are_missing_or_mixed() {
    for amount in ["65", "65 % g", "3 kg 200 g", "65 °C", "65 h", "65 gr", "2 cups"] {
        assert_snapshot!(check(&format!("dough A\n\noverall\n  flour  100 %\n  water  {amount}\n")));
    }
}

#[test]
fn doughs_that_cannot_be() {
    let doughs = [
        "dough Dry\n\noverall\n  flour  100 %\n  water  50 %\n\nstage poolish\n  takes  60 % of the flour\n  flour  100 %\n  water  100 %\n",
        "dough Sum\n\noverall\n  white flour  80 %\n  rye flour  25 %\n  water  65 %\n",
        "dough Ring\n\nstage levain\n  flour  100 g\n  water  100 g\n  levain  20 g\n\nfinal dough\n  flour  500 g\n  levain  100 g\n",
        "dough A\n\noverall\n  flour  100 %\n  water  65 %\n\ndough A\n\noverall\n  flour  100 %\n  water  70 %\n",
        "dough A\n\noverall\n  flour  100 %\n  water  65 %\n  levain  20 %\n\nstage levain\n  flour  100 %\n  water  100 %\n",
        "dough A\n\noverall\n  flour  100 %\n  wotar  65 %\n",
    ];
    for dough in doughs {
        assert_snapshot!(check(dough));
    }
}

#[test]
fn odd_texts_do_not_break_the_drawing() {
    let long = format!("dough A\n\noverall\n  flour  100 %\n  {}  65\n", "x".repeat(3000));
    let wide = "dough ブール\n\noverall\n\tflour  100 %\n\tWäßer  65\n";
    for text in [long.as_str(), wide, "dough", "\u{feff}dough A\n\noverall\n  flour 1\n"] {
        assert_snapshot!(check(text));
    }
}

#[test]
fn a_stage_without_a_kind_is_one_mistake() {
    let text = "dough A\n\noverall\n  strong white flour 100 %\n  water 70 %\n\nstage sour\n  takes 5 % of the flour\n  \
                 strong white flour 100 %\n  water 100 %\n\nmake 10 kg of dough\n";
    let told = check(text);
    assert_eq!(
        (told.matches("error[").count(), told.matches("error[missing-kind]").count()),
        (1, 1),
        "{told}"
    );
}
