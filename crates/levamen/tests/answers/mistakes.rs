//! Mistakes that bakers make, and what is said of them: each mend that is offered works when it is typed.

use insta::assert_snapshot;

use crate::asked::{Asked, book, demo};
use crate::questions::{check, formula};

/// What is said of a dough.
fn said(text: &str) -> String {
    Asked::default().ask_of(text, &formula("-"))
}

/// Whether a dough balances.
fn is_sound(text: &str) -> bool {
    Asked::default().answer(text, &formula("-")).is_ok()
}

const OVERALL: &str =
    "dough A\n\noverall\n  white flour  60 %\n  medium rye flour  40 %\n  water  70 %\n  salt  2 %\n\n";

#[test]
fn a_fraction_behind_a_whole_number() {
    let text = "dough A\n\nfinal dough\n  flour  6 1/2 lb\n  water  4 1/4 lb\n  salt  ¾ oz\n";
    assert_snapshot!(said(text));
    assert!(is_sound(&text.replace("6 1/2", "6.5").replace("4 1/4", "4.25").replace("¾", "0.75")));
}

#[test]
fn a_pre_ferment_that_is_no_ingredient() {
    let text = "dough A\n\nfinal dough\n  flour  1 kg\n  water  650 g\n  poolish  300 g\n";
    assert_snapshot!(said(text));
    assert!(is_sound(&format!("{text}\nstage poolish\n  flour  150 g\n  water  150 g\n")));
}

#[test]
fn a_flour_that_the_dough_has_under_a_longer_name() {
    let stage =
        "stage sour, a rye sour\n  takes  50 % of the rye flour\n  medium rye flour  100 %\n  water  80 %\n";
    let text = format!("{OVERALL}{stage}");
    assert_snapshot!(said(&text));
    assert!(is_sound(&text.replace("the rye flour", "the medium rye flour")));
}

#[test]
fn a_misspelt_flour_is_one_problem() {
    let text =
        format!("{OVERALL}stage poolish\n  takes  30 % of the flour\n  wite flour  100 %\n  water  100 %\n");
    assert_snapshot!(said(&text));
    assert!(is_sound(&text.replace("wite", "white")));
}

#[test]
fn a_build_that_is_larger_than_its_levain() {
    let stage = "stage levain\n  takes  20 % of the flour\n  white flour  100 %\n  water  100 %\n  stage first build, a levain\n    \
                 takes  30 % of the flour\n    white flour  100 %\n    water  100 %\n";
    let text = format!("{OVERALL}{stage}");
    assert_snapshot!(said(&text));
    assert!(is_sound(&text.replace("takes  20 %", "takes  35 %")));
}

#[test]
fn headings_of_stages() {
    for heading in ["stage poolish 30 %", "stage tangzhong", "stage Brühstück", "stage night start"] {
        assert_snapshot!(said(&format!("{OVERALL}{heading}\n  white flour  100 %\n")));
    }
    let poolish = "stage poolish\n  takes 30 % of the flour\n  white flour  100 %\n  water  100 %\n";
    assert!(is_sound(&format!("{OVERALL}{poolish}")));
}

#[test]
fn wants_that_are_no_figures_or_clash_with_the_size() {
    let text = format!("{OVERALL}make 24 pieces of 920 g\n");
    assert_snapshot!(Asked::default().ask_of(&text, &formula("-").want("pieces 70")));
    let bound = || formula("-").want("dough at most 10 kg");
    assert_snapshot!(Asked::default().ask_of(&text, &bound()));
    assert!(Asked::default().answer(&text, &bound().most("dough")).is_ok());
}

#[test]
fn less_pre_fermented_flour_where_a_levain_has_a_build() {
    let asked = formula("Breakwater country").want("pre-fermented flour 15 %");
    assert_snapshot!(demo().ask(&asked));
}

#[test]
fn figures_that_are_unusual_are_asked_about() {
    let dough = "dough A\n\noverall\n  flour  100 %\n  water  15 %\n  salt  20 %\n  butter  110 %\n\nstage poolish\n  \
                 takes  10 % of the flour\n  flour  100 %\n  water  40 %\n";
    assert_snapshot!(book(&[("a.dough", dough)]).ask(&check()));
    assert_eq!(demo().answer("", &check()).unwrap().beside, "", "no question about the demo book");
}

/// A dough that takes of one with a mistake is told of that mistake, and where it is.
#[test]
fn a_mistake_in_what_a_dough_takes_of() {
    let base = "dough Base\n\noverall\n  flour  100 %\n  wotar  60 %\n\n";
    let rich = "dough Rich\n\nfinal dough\n  flour  100 g\n  butter  50 g\n  from Base  300 g\n";
    let told = book(&[("a.dough", &format!("{base}{rich}"))]).ask(&formula("Rich"));
    assert!(told.contains("wotar") && told.contains("a.dough:5"), "{told}");
    assert!(told.ends_with("--- exit 1\n"), "{told}");
}
