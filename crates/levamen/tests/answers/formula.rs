//! A dough of the book: its formula and its bench sheet, as it is, at a size, and as it should be.

use insta::assert_snapshot;

use crate::asked::harbour;

#[test]
fn formula() {
    assert_snapshot!(harbour().ask(&["formula", "quay levain"]));
    assert_snapshot!(harbour().ask(&["formula", "Quay levain", "--json"]));
}

#[test]
fn a_dough_of_a_text_beside_the_book() {
    // The cultures of the book are at hand.
    let leans = "dough Leans\n\nfinal dough\n  flour  500 g\n  water  300 g\n  from mother culture  200 g\n";
    assert_snapshot!(harbour().ask_of(leans, &["formula", "-"]));
}

#[test]
fn scale() {
    let ask = |arguments: &[&str]| harbour().ask(&[&["scale", "Harbour loaf"], arguments].concat());
    assert_snapshot!(ask(&["--pieces", "40", "--piece", "860g", "--losing", "3%"]));
    assert_snapshot!(ask(&["--have", "poolish=4.2kg"]));
    assert_snapshot!(ask(&["--pieces", "36"]));
}

#[test]
fn the_same_dough_by_each_way_to_say_its_size() {
    let weights = |dough: &str, size: &[&str]| {
        let value = harbour().json(&[&["scale", dough], size].concat());
        ["total_flour_g", "dough_g"].map(|weight| value[weight].as_str().unwrap().to_owned())
    };
    for size in [
        &["--flour", "10 kg"][..],
        &["--dough", "17.45kg", "--losing", "0 %"],
        // The file's loss of 2 % and its piece hold where nothing else is said; a dough is what is mixed.
        &["--to-divide", "17.101kg"],
        &["--dough", "17.45kg"],
    ] {
        assert_eq!(weights("Harbour loaf", size), ["10000", "17450"], "{size:?}");
    }
    // What stands ready of the levain is taken and, as much as the seed was, given back.
    assert_eq!(weights("Quay levain", &["--have", "levain=3.96kg"]), ["10000", "17000"]);
}

#[test]
fn sheet() {
    assert_snapshot!(harbour().ask(&["sheet", "Harbour loaf"]));
    assert_snapshot!(harbour().ask(&["sheet", "Quay levain", "--pieces", "12", "--piece", "1 kg"]));
    assert_snapshot!(harbour().ask(&["sheet", "Harbour loaf", "--as", "json", "--flour", "2 kg"]));
}

#[test]
fn wishes() {
    let ask = |wishes: &[&str]| harbour().ask(&[&["formula", "Harbour loaf"], wishes].concat());
    assert_snapshot!(ask(&["--want", "hydration 78 %"]));
    assert_snapshot!(ask(&["--want", "poolish at most 5 kg", "--most", "pieces"]));
    assert_snapshot!(ask(&["--want", "water in final dough 500 g"]));
}
