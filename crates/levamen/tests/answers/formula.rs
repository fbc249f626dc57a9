//! A dough of the book: its formula and its bench sheet, as it is, at a size, and as it should be.

use insta::assert_snapshot;

use crate::asked::harbour;
use crate::question::{Form, Question};
use crate::questions::{self, Page, scaled};

#[test]
fn formula() {
    assert_snapshot!(harbour().ask(&questions::formula("quay levain")));
    assert_snapshot!(harbour().ask(&questions::formula("Quay levain").json()));
}

#[test]
fn a_dough_of_a_text_beside_the_book() {
    // The cultures of the book are at hand.
    let leans = "dough Leans\n\nfinal dough\n  flour  500 g\n  water  300 g\n  from mother culture  200 g\n";
    assert_snapshot!(harbour().ask_of(leans, &questions::formula("-")));
}

#[test]
fn scale() {
    let loaf = || scaled("Harbour loaf");
    assert_snapshot!(harbour().ask(&loaf().pieces(40, "860g").losing("3%")));
    assert_snapshot!(harbour().ask(&loaf().have("poolish", "4.2kg")));
    assert_snapshot!(harbour().ask(&loaf().usual_pieces(36)));
}

#[test]
fn the_same_dough_by_each_way_to_say_its_size() {
    let weights = |question: Question<Page>| {
        let value = harbour().json(question);
        ["total_flour_g", "dough_g"].map(|weight| value[weight].as_str().unwrap().to_owned())
    };
    let loaf = || scaled("Harbour loaf");
    for question in [
        loaf().flour("10 kg"),
        loaf().mixed("17.45kg").losing_nothing(),
        // The file's loss of 2 % and its piece hold where nothing else is said; a dough is what is mixed.
        loaf().divided("17.101kg"),
        loaf().mixed("17.45kg"),
    ] {
        let asked = question.words.clone();
        assert_eq!(weights(question), ["10000", "17450"], "{asked}");
    }
    // What stands ready of the levain is taken and, as much as the seed was, given back.
    assert_eq!(weights(scaled("Quay levain").have("levain", "3.96kg")), ["10000", "17000"]);
}

#[test]
fn sheet() {
    assert_snapshot!(harbour().ask(&questions::sheet("Harbour loaf")));
    assert_snapshot!(harbour().ask(&questions::sheet("Quay levain").pieces(12, "1 kg")));
    assert_snapshot!(harbour().ask(&questions::sheet("Harbour loaf").file(Form::Json).flour("2 kg")));
}

#[test]
fn wishes() {
    let loaf = || questions::formula("Harbour loaf");
    assert_snapshot!(harbour().ask(&loaf().want("hydration 78 %")));
    assert_snapshot!(harbour().ask(&loaf().want("poolish at most 5 kg").most("pieces")));
    assert_snapshot!(harbour().ask(&loaf().want("water in final dough 500 g")));
}
