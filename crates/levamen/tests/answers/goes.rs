//! An ingredient that goes in at several times.

use insta::assert_snapshot;
use levamen::{ConversionTarget as To, Error, TextId, tidy};
use serde_json::Value;

use crate::asked::{Asked, book};
use crate::question::Form;
use crate::questions::{compare, convert, formula, sheet, why};

const WET: &str = "
dough Wet bread

overall
  white flour  100 %
  water         80 %
  salt           2 %
  butter         6 %
  fresh yeast    1 %

stage poolish
  takes         20 % of the flour
  white flour  100 %
  water        100 %
  fresh yeast  0.1 %

final dough
  water   rest, at first
  water   10 % of the flour, after the autolyse
  water   20 % of its water, last
  butter  rest, at first
  butter   3 % of the flour, last

make 30 pieces of 600 g, losing 2 %
";

const WEIGHED: &str = "
dough Weighed

stage soaker
  rye flour  300 g
  water      200 g, boiling
  water      100 g, cold
  ripens      12 h

final dough
  white flour  1000 g
  water         600 g, at first
  salt           20 g
  water          80 g, once the dough is smooth
  soaker        600 g
";

#[test]
fn the_formula_has_each_line_and_one_sum() {
    let book = book(&[("wet.dough", WET), ("weighed.dough", WEIGHED)]);
    assert_snapshot!(book.ask(&formula("Wet bread")));
    assert_snapshot!(book.ask(&formula("Weighed")));
    assert_snapshot!(book.ask(&sheet("Wet bread")));
    assert_snapshot!(book.ask(&sheet("Weighed").file(Form::Csv)));
    assert_snapshot!(book.ask(&why("Wet bread", "water in final dough")));
    assert_snapshot!(book.ask(&why("Wet bread", "water, last in final dough")));
    assert_snapshot!(book.ask(&compare("Wet bread").beside("Weighed")));
}

#[test]
fn a_sheet_adds_up_to_what_one_line_would_weigh() {
    let one = WEIGHED.replace("  water      100 g, cold\n", "").replace("200 g, boiling", "300 g");
    let one = one
        .replace("  water          80 g, once the dough is smooth\n", "")
        .replace("600 g, at first", "680 g");
    let double = book(&[("two.dough", WEIGHED)]);
    let single = book(&[("one.dough", &one)]);
    for flour in ["1.3kg", "7.77kg", "123.4kg"] {
        let weighed = |book: &Asked| book.json(sheet("Weighed").flour(flour));
        let (two, one) = (weighed(&double), weighed(&single));
        for field in ["dough", "total_flour_g"] {
            assert_eq!(two[field], one[field], "{field}");
        }
        let exact = |sheet: &Value| {
            sheet["overall"]
                .as_array()
                .unwrap()
                .iter()
                .map(|row| row["exact_grams"].clone())
                .collect::<Vec<_>>()
        };
        assert_eq!(exact(&two), exact(&one));
        let lines = two["stages"][1]["lines"].as_array().unwrap();
        let when: Vec<&str> = lines.iter().filter_map(|line| line["goes_in"].as_str()).collect();
        assert_eq!(when, ["at first", "once the dough is smooth"]);
        let grams = |line: &Value| line["grams"].as_str().unwrap().parse::<f64>().unwrap();
        let sum: f64 = lines.iter().map(grams).sum();
        assert!((sum - two["batch_g"].as_str().unwrap().parse::<f64>().unwrap()).abs() < 1e-6);
    }
}

#[test]
fn tidy_and_convert_keep_when_it_goes_in() {
    let book = book(&[("wet.dough", WET), ("weighed.dough", WEIGHED)]);
    let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    for untidy in [WET, WEIGHED] {
        let tidied = tidy(TextId(0), untidy).unwrap();
        assert_ne!(tidied, untidy);
        assert_eq!(words(&tidied), words(untidy));
    }
    assert_snapshot!(book.shown(&convert("Wet bread", To::Biga).share("25%")));
    assert_snapshot!(book.shown(&convert("Wet bread", To::Straight)));
    // Its fermented flour would be the soaker's rye flour, of which there is no more.
    let refused = book.refused(&convert("Weighed", To::Poolish).share("25%"));
    assert!(matches!(refused, Error::Problems { .. }), "{refused:?}");
}

#[test]
fn a_figure_that_is_wanted_goes_in_at_no_time() {
    let book = book(&[("wet.dough", WET)]);
    assert_snapshot!(book.ask(&formula("Wet bread").want("hydration 70 %, last")));
}
