//! How much to make: the same words mean the same weight by every way of saying them.

use insta::assert_snapshot;
use jiff::civil::date;
use levamen::quantity::{Exact, Volume, VolumeUnit};
use serde_json::Value;

use crate::asked::book;
use crate::question::{Question, mass};
use crate::questions::{Page, day, formula, scaled, sheet, tubs};

const LOAF: &str = include_str!("../small/loaf.dough");

const OLD: &str = "
dough Daily bread

overall
  white flour  100 %
  water         65 %
  salt           2 %
  fresh yeast    1 %

stage old dough
  weighs  20 % of the flour
  from this dough

make 30 pieces of 1 kg, losing 2 %
";

/// The whole dough and what is to divide of it, in grams.
fn weights(dough: &str, question: Question<Page>) -> (String, String) {
    let value = book(&[("loaf.dough", dough)]).json(question);
    let weight = |name: &str| value[name].as_str().unwrap().to_owned();
    (weight("dough_g"), weight("to_divide_g"))
}

#[test]
fn dough_is_what_is_mixed_and_to_divide_what_is_left_of_it() {
    for loss in ["2 %", "3.5 %", "0.5 %"] {
        for kilograms in [50, 7] {
            let file = format!("{LOAF}\nmake 24 pieces of 920 g, losing {loss}\n");
            let made = |what: &str| format!("{LOAF}\nmake {kilograms} kg {what}, losing {loss}\n");
            let weight = format!("{kilograms}kg");
            let dough = [
                weights(&file, scaled("Loaf").mixed(&weight)),
                weights(&file, formula("Loaf").want(&format!("dough {kilograms} kg"))),
                weights(&made("of dough"), formula("Loaf")),
            ];
            assert_eq!(dough[0].0, format!("{kilograms}000"));
            assert!(dough.iter().all(|way| *way == dough[0]), "{dough:?}");
            let divided = [
                weights(&file, scaled("Loaf").divided(&weight)),
                weights(&file, formula("Loaf").want(&format!("to divide {kilograms} kg"))),
                weights(&made("to divide"), formula("Loaf")),
                weights(&file, scaled("Loaf").pieces(kilograms, "1kg")),
            ];
            assert!(divided[0].1.starts_with(&format!("{kilograms}000")) || divided[0].1.contains("99999"));
            assert!(divided.iter().all(|way| *way == divided[0]), "{divided:?}");
        }
    }
}

#[test]
fn tubs_and_sheets_are_for_the_same_dough() {
    let book = book(&[("loaf.dough", &format!("{LOAF}\nmake 1 pieces of 1 kg, losing 2 %\n"))]);
    let page = book.json(sheet("Loaf").mixed("16.7kg"));
    assert_eq!((page["batch_g"].as_str(), page["to_divide_g"].as_str()), (Some("16700"), Some("16366")));
    // A poolish of a fifth of 10 kg of flour.
    let tubs = book.json(tubs("Loaf").mixed("16.7kg").of("20l"));
    assert_eq!(tubs["stages"][0]["made_g"].as_str(), Some("4000"));
}

#[test]
fn without_a_size_that_of_the_file() {
    let made = format!("{LOAF}\nmake 24 pieces of 920 g, losing 2 %\n");
    assert_eq!(weights(&made, scaled("Loaf")), weights(&made, formula("Loaf")));
}

#[test]
fn a_piece_for_the_next_batch() {
    let book = book(&[("old.dough", OLD), ("loaf.dough", LOAF)]);
    let head = |question: Question<Page>| {
        let page = book.ask(&question);
        page.lines()
            .take_while(|line| !line.starts_with("1. ") && !line.starts_with("overall"))
            .collect::<Vec<_>>()
            .join("\n")
    };
    assert_snapshot!(head(sheet("Daily bread")));
    assert_snapshot!(head(scaled("Daily bread")));
    // With it in, both come out: what is mixed is 30 kg / 0.98 and the piece.
    assert_snapshot!(head(sheet("Daily bread").with_old_dough()));
    assert_snapshot!(head(scaled("Daily bread").with_old_dough().divided("29.4kg")));
}

#[test]
fn a_day_keeps_as_much_old_dough_as_its_sheet_says() {
    let bakery = "
bakery Trial
  time zone Europe/Lisbon
  out by 12:00

mixer spiral
  there are   1
  most       60 kg of dough

method Daily bread
  in spiral
  mixes  12 min

oven deck
  decks  6

product Loaf
  made of Daily bread
  piece   1 kg
  losing  2 %
  bakes  40 min
";
    let orders = "date,customer,product,quantity\n2026-11-27,Harbour cafe,Loaf,30\n";
    let book = book(&[("old.dough", OLD), ("bakery.dough", bakery), ("orders.csv", orders)]);
    let day = book.json(day(date(2026, 11, 27)));
    let sheet = book.json(sheet("Daily bread").with_old_dough());
    let grams = |value: &Value| value.as_str().unwrap().parse::<f64>().unwrap();
    let kept = grams(&day["doughs"][0]["kept_g"]);
    let kept_back = grams(&day["doughs"][0]["sheet"]["kept_back_g"]);
    assert!(kept > 4000.0 && (kept - kept_back).abs() < 1.0, "{kept} {kept_back}");
    // The same pieces with old dough in it are the same dough.
    assert!((grams(&sheet["kept_back_g"]) - kept_back).abs() < 1.0);
    assert_eq!(day["doughs"][0]["sheet"]["to_divide_g"], Value::Null);
}

#[test]
fn what_has_too_many_digits_for_a_scale_is_said() {
    let file = format!("{LOAF}\nmake 24 pieces of 920 g\n");
    let book = book(&[("loaf.dough", &file)]);
    let much = format!("{}kg", "9".repeat(28));
    assert_snapshot!(book.ask(&sheet("Loaf").flour(&much)));
}

/// The poolish of 16.7 kg of dough weighs 4 kg: one tub of 11 l is roomy for it, and so are two of 6 l.
#[test]
fn tubs_are_snug_where_all_of_them_hold_less_than_the_better_room() {
    let workspace = book(&[("loaf.dough", LOAF)]).workspace();
    let id = workspace.find("Loaf").unwrap();
    let snug = |litres: i64| {
        let tub = Volume::from_unit(Exact::from(litres), VolumeUnit::Litre);
        let plan = levamen::tubs(&workspace, id, Some(vec![tub]), Some(mass("16.7kg"))).unwrap();
        (plan.stages[0].tubs.count, plan.stages[0].is_snug())
    };
    assert_eq!([snug(10), snug(11)], [(1, true), (1, false)]);
    assert_eq!([snug(5), snug(6)], [(2, true), (2, false)], "twice 5 l are 10 l");
}
