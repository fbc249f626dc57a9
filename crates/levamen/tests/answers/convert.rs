//! A dough with another pre-ferment, and everything that cannot be.

use insta::assert_snapshot;

use levamen::ConversionTarget as To;

use crate::asked::{book, harbour};
use crate::question::Question;
use crate::questions::{Conversion, convert, formula};

/// A dough with a soaker, two pre-ferments, one of them in two builds, and cultures that fit more or less.
const BENCH: &str = "\
dough Bench loaf

overall
  strong white flour   80 %
  wholemeal flour      20 %
  water                70 %
  salt                  2 %
  sunflower seeds      10 %
  fresh yeast           1 %

stage poolish
  takes                20 % of the flour
  strong white flour  100 %
  water               100 %
  fresh yeast         0.2 %

stage levain
  takes                15 % of the flour
  strong white flour  100 %
  water                60 %
  stage first build, a levain
    takes                 5 % of the flour
    wholemeal flour     100 %
    water               100 %
    from wheat culture   20 %

stage soaker
  sunflower seeds  100 % of the sunflower seeds
  water            100 % of its sunflower seeds

dough Milk rolls

overall
  strong white flour  100 %
  whole milk           62 %
  salt                1.8 %
  fresh yeast           3 %

culture wheat culture
  strong white flour  100 %
  water               100 %

culture rye culture
  medium rye flour  100 %
  water             100 %
";

fn bench(question: &Question<Conversion>) -> String {
    book(&[("bench.dough", BENCH)]).ask(question)
}

#[test]
fn a_dough_to_keep_and_an_account_beside_it() {
    assert_snapshot!(harbour().ask(&convert("Harbour loaf", To::Biga)));
    assert_snapshot!(harbour().ask(&convert("Quay levain", To::Straight)));
    assert_snapshot!(harbour().ask(&convert("Harbour loaf", To::OldDough).json()));
}

#[test]
fn what_is_asked_for_is_taken() {
    let to = || convert("Bench loaf", To::StiffLevain).stage("poolish");
    let said = to().share("15%").hydration("60 %").seed("25%").culture("wheat culture");
    let more = said.flour("wholemeal flour").hours(6).at("77°F").name("Bench  loaf two");
    assert_snapshot!(bench(&more));
    assert_snapshot!(bench(&to().culture("rye culture").given_back()));
    assert_snapshot!(bench(
        &convert("Bench loaf", To::Sponge).stage("levain").dosed("instant yeast", "0.1%")
    ));
}

#[test]
fn a_dough_of_standard_input() {
    let text = "dough Note\n\nfinal dough\n  flour  3 kg\n  water  2 kg\n  salt  60 g\n  fresh yeast  50 g\n";
    assert_snapshot!(harbour().ask_of(text, &convert("-", To::Poolish).time("3h")));
}

#[test]
fn what_was_converted_can_be_read_on() {
    let poolish = harbour().shown(&convert("Quay levain", To::Poolish));
    assert!(harbour().answer(&poolish, &formula("-")).is_ok());
    assert_eq!(levamen::tidy(levamen::TextId(0), &poolish).unwrap(), poolish);
}

#[test]
fn which_pre_ferment() {
    assert_snapshot!(bench(&convert("Bench loaf", To::Poolish)));
    assert_snapshot!(bench(&convert("Bench loaf", To::Poolish).stage("polish")));
    assert_snapshot!(bench(&convert("Bench loaf", To::Poolish).stage("first build")));
    assert_snapshot!(bench(&convert("Bench loaf", To::Poolish).stage("soaker")));
    assert_snapshot!(bench(&convert("Milk rolls", To::OldDough).stage("poolish")));
    assert_snapshot!(bench(&convert("Milk rolls", To::Straight)));
}

#[test]
fn what_the_dough_has_not() {
    let poolish = || convert("Bench loaf", To::Poolish).stage("levain");
    assert_snapshot!(bench(&poolish().share("80%")));
    assert_snapshot!(bench(&poolish().flour("wholemeal flour").share("30%")));
    assert_snapshot!(bench(&poolish().flour("medium rye flour")));
    assert_snapshot!(bench(&convert("Bench loaf", To::OldDough).stage("levain")));
    assert_snapshot!(bench(&convert("Bench loaf", To::RyeSour).stage("levain")));
    assert_snapshot!(bench(&convert("Milk rolls", To::Sponge)));
}

#[test]
fn cultures() {
    let levain = || convert("Bench loaf", To::StiffLevain).stage("poolish");
    assert_snapshot!(bench(&levain().culture("rye culture")));
    assert_snapshot!(bench(&levain().culture("weat culture")));
    assert_snapshot!(bench(&levain().culture("Milk rolls")));
    assert_snapshot!(bench(&levain().hydration("20%").seed("100%")));
    assert_snapshot!(bench(&convert("wheat culture", To::Poolish)));
    let loaf = "dough Loaf\n\noverall\n  flour  100 %\n  water  65 %\n";
    let plain = book(&[("loaf.dough", loaf)]);
    assert_snapshot!(plain.ask(&convert("Loaf", To::LiquidLevain)));
    let unsound = format!("{loaf}\nculture mother\n  flour  90 %\n  water  100 %\n");
    let unsound = book(&[("loaf.dough", &unsound)]);
    assert_snapshot!(unsound.ask(&convert("Loaf", To::LiquidLevain)));
}

#[test]
fn names() {
    assert_snapshot!(bench(&convert("Milk rolls", To::OldDough).name("Bench loaf")));
    assert_snapshot!(bench(&convert("Milk rolls", To::OldDough).name("Rolls, two")));
}

/// A bound that the new dough would break, and one of the yeast, which is counted anew.
#[test]
fn what_is_wanted_of_the_dough() {
    let loaf = "dough Loaf\n\noverall\n  flour  100 %\n  water  65 %\n  fresh yeast  2 %\n\nwant\n";
    for bound in ["effective hydration at least  66 %", "fresh yeast at least  1.9 %"] {
        let book = book(&[("loaf.dough", &format!("{loaf}  {bound}\n"))]);
        assert_snapshot!(book.ask(&convert("Loaf", To::Poolish)));
    }
}
