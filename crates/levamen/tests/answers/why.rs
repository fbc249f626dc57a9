//! Why a figure is what it is.

use insta::assert_snapshot;

use crate::asked::{Asked, book, harbour};
use crate::questions::why;

#[test]
fn a_figure_of_the_whole_and_of_a_stage() {
    assert_snapshot!(harbour().ask(&why("Harbour loaf", "hydration")));
    assert_snapshot!(harbour().ask(&why("harbour loaf", "Water in final dough")));
    assert_snapshot!(harbour().ask(&why("Quay levain", "given back of levain")));
    assert_snapshot!(harbour().ask(&why("Quay levain", "seed of levain").json()));
}

#[test]
fn a_dough_from_standard_input() {
    let dough = "dough On its own\n\nfinal dough\n  flour  1000 g  # strong\n  water  650 g\n";
    assert_snapshot!(harbour().ask_of(dough, &why("-", "hydration")));
}

#[test]
fn a_dough_with_problems() {
    let book = book(&[("a.dough", "dough A\noverall\n  flour  100 %\n  flower  1 %\n")]);
    assert_snapshot!(book.ask(&why("A", "hydration")));
}

/// A chain of stages longer than anybody reads ends in a word, not in a crash.
#[test]
fn a_very_long_chain() {
    let stages =
        (1..2000).map(|index| format!("stage s{index}, a levain\n  flour  1 g\n  s{}  rest\n\n", index - 1));
    let first = "dough Chain\n\nstage s0, a levain\n  flour  100 g\n  water  100 g\n\n";
    let dough =
        first.to_owned() + &stages.collect::<String>() + "final dough\n  flour  1000 g\n  s1999  rest\n";
    let told = Asked::default().ask_of(&dough, &why("-", "hydration"));
    assert!(told.contains("ask for it by itself") && told.ends_with("exit 0\n"), "{told}");
}

/// A wish is where the reckoning ends, as a line of the file would be.
#[test]
fn a_dough_with_a_wish() {
    assert_snapshot!(harbour().ask(&why("Harbour loaf", "water in final dough").want("hydration 72 %")));
    assert_snapshot!(harbour().ask(&why("Harbour loaf", "dough").most("dough").want("water at most 10 kg")));
    assert_snapshot!(harbour().ask(&why("Harbour loaf", "water").most("pieces").want("water at most 10 kg")));
    assert_snapshot!(harbour().ask(&why("Harbour loaf", "water").most("dough")));
    assert_snapshot!(harbour().ask(&why("Harbour loaf", "water").free("hydration")));
}
