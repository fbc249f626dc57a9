//! Books in other languages: what is yeast and what is rye is declared, and no name is asked.

use insta::assert_snapshot;
use levamen::{ConversionTarget as To, Error, QuestionError};

use crate::asked::{book, harbour};
use crate::question::{Question, Request};
use crate::questions::{check, convert, formula, ripen};

const GERMAN: &str = "\
ingredient Weizenmehl 550
  flour

ingredient Roggenmehl 1150
  rye flour

ingredient Wasser
  holds  100 % water

ingredient Salz
  holds  100 % salt

ingredient Hefe
  yeast fresh
  holds  69 % water

ingredient Trockenbackhefe
  yeast instant

dough Mischbrot

overall
  Weizenmehl 550   70 %
  Roggenmehl 1150  30 %
  Wasser           68 %
  Salz              2 %
  Hefe            0.9 %

dough Abendbrot

overall
  Weizenmehl 550   70 %
  Roggenmehl 1150  30 %
  Wasser           68 %
  Salz              2 %
  Hefe            0.9 %

stage Vorteig, a poolish
  takes             25 % of the flour
  Weizenmehl 550   100 %
  Wasser           100 %
  Hefe             0.2 %
  ripens            14 h at 20 °C

culture Roggensauer
  Roggenmehl 1150  100 %
  Wasser           100 %

culture Weizensauer
  Weizenmehl 550  100 %
  Wasser           60 %
";

const FRENCH: &str = "\
ingredient farine T65
  flour

ingredient farine de seigle T130
  rye flour

ingredient eau
  holds  100 % water

ingredient sel
  holds  100 % salt

ingredient levure du coin
  replaces  2 times as much fresh yeast

dough pain de campagne

overall
  farine T65               85 %
  farine de seigle T130    15 %
  eau                      70 %
  sel                     1.9 %
  levure du coin          0.5 %

stage nuit, a pre-ferment
  takes             20 % of the flour
  farine T65       100 %
  eau              100 %
  levure du coin  0.04 %
  ripens            14 h at 20 °C
";

fn in_book<R: Request>(text: &str, question: &Question<R>) -> String {
    book(&[("book.dough", text)]).ask(question)
}

#[test]
fn a_german_book() {
    assert_snapshot!(in_book(GERMAN, &check()));
    assert_snapshot!(in_book(GERMAN, &convert("Mischbrot", To::Poolish)));
    assert_snapshot!(in_book(GERMAN, &convert("Mischbrot", To::Poolish).yeast("Trockenbackhefe")));
    assert_snapshot!(in_book(GERMAN, &convert("Mischbrot", To::RyeSour)));
    assert_snapshot!(in_book(GERMAN, &convert("Mischbrot", To::LiquidLevain)));
    assert_snapshot!(in_book(GERMAN, &ripen("Abendbrot").at("24°C")));
}

#[test]
fn a_french_book_with_a_yeast_of_its_own_strength() {
    assert_snapshot!(in_book(FRENCH, &check()));
    assert_snapshot!(in_book(FRENCH, &convert("pain de campagne", To::Biga)));
    assert_snapshot!(in_book(FRENCH, &ripen("pain de campagne").at("17°C").within("14h")));
}

/// One yeast before, one after: in the built-in pantry by its own names, and none that is only called so.
#[test]
fn no_yeast_is_added_to_a_dough_that_has_one() {
    for yeast in [
        "yeast",
        "baker's yeast",
        "dry yeast",
        "instant dry yeast",
        "osmotolerant yeast",
        "osmotolerant instant yeast",
    ] {
        let text =
            format!("dough Bun\n\noverall\n  flour  100 %\n  water  60 %\n  sugar  18 %\n  {yeast}  1.2 %\n");
        let written = book(&[("bun.dough", &text)]).shown(&convert("Bun", To::Sponge));
        let yeasts: Vec<&str> = written.lines().filter(|line| line.contains("yeast")).collect();
        assert_eq!(yeasts.len(), 2, "{written}");
        assert!(yeasts.iter().all(|line| line.trim_start().starts_with(&format!("{yeast} "))), "{written}");
    }
}

#[test]
fn what_is_only_called_yeast_is_asked_about() {
    let undeclared = GERMAN.replace("ingredient Hefe\n  yeast fresh\n", "ingredient Hefe\n");
    assert_snapshot!(in_book(&undeclared, &check()));
    let refused = book(&[("book.dough", &undeclared)]).refused(&ripen("Abendbrot").at("24°C"));
    let stage = "Vorteig".to_owned();
    assert!(matches!(refused, Error::Question(error) if error == QuestionError::NoLeaven { stage }));
    assert_snapshot!(in_book(&undeclared, &convert("Mischbrot", To::Poolish).yeast("Hefe")));
    assert_snapshot!(in_book(&undeclared, &convert("Mischbrot", To::Poolish)));
    let unmilled = GERMAN.replace("  rye flour\n", "  flour\n");
    assert_snapshot!(in_book(&unmilled, &convert("Mischbrot", To::RyeSour)));
}

/// Two yeasts of different strength count by the work they do.
#[test]
fn a_strength_of_its_own_goes_before_the_kind() {
    let dough = |fact: &str| {
        format!(
            "ingredient packet\n  {fact}\n\ndough Loaf\n\noverall\n  flour  100 %\n  water  65 %\n  packet  1 %\n"
        )
    };
    let dose = |fact: &str| {
        let read = book(&[("loaf.dough", &dough(fact))]).json(convert("Loaf", To::Poolish));
        let dose = read["yeast"]["dose"]["pct"].as_str().and_then(|words| words.parse::<f64>().ok());
        dose.unwrap_or_else(|| panic!("{}", read["yeast"]))
    };
    let fresh = dose("yeast fresh");
    let by_kind = dose("yeast instant");
    let own = dose("yeast instant\n  replaces 2 times as much fresh yeast");
    assert!((by_kind / fresh - 0.33).abs() < 0.02, "{fresh} {by_kind}");
    assert!((own / fresh - 0.5).abs() < 0.02, "{fresh} {own}");
    assert!((own - dose("replaces 2 times as much fresh yeast")).abs() < f64::EPSILON);
}

#[test]
fn options_that_a_straight_dough_has_no_use_for() {
    let straight = || convert("Quay levain", To::Straight);
    for question in [
        straight().share("20%"),
        straight().hydration("60%"),
        straight().hours(12),
        straight().at("21°C"),
        straight().flour("strong white flour"),
        straight().dosed("fresh yeast", "1%"),
    ] {
        assert_snapshot!(harbour().ask(&question));
    }
}

#[test]
fn a_share_that_comes_to_nothing() {
    let text = "dough Loaf\n\noverall\n  flour  99.99 %\n  rye flour  0.01 %\n  water  65 %\n\nstage levain\n  takes 0.005 % of the flour\n  flour  100 %\n  water  100 %\n  from mother  20 %\n\nculture mother\n  flour  100 %\n  water  100 %\n";
    for question in [
        convert("Loaf", To::Poolish).share("0.000001%"),
        convert("Loaf", To::Poolish),
        convert("Loaf", To::RyeSour).share("0.009%"),
    ] {
        assert_snapshot!(in_book(text, &question));
    }
}

#[test]
fn the_name_of_a_dough_that_is_long_or_oddly_spaced() {
    let long = "a".repeat(78);
    for name in [long.as_str(), "Loaf   of   the  quay"] {
        let text = format!("dough {name}\n\noverall\n  flour  100 %\n  water  65 %\n  fresh yeast  1 %\n");
        let book = book(&[("loaf.dough", &text)]);
        let no_culture = book.refused(&convert(name, To::LiquidLevain));
        assert!(matches!(no_culture, Error::Problems { .. }), "no culture yet");
        let written = book.shown(&convert(name, To::Poolish));
        let heading = written.lines().find_map(|line| line.strip_prefix("dough ")).unwrap();
        assert!(heading.ends_with(" with poolish") && heading.chars().count() <= 80, "{heading}");
        assert!(!heading.contains("  "), "{heading}");
        assert!(book.answer(&written, &formula("-")).is_ok(), "{written}");
    }
}
