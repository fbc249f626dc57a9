//! JSON and its schemas.

use std::sync::Arc;

use insta::assert_snapshot;
use levamen::ListedDough;
use levamen_balance::{Balance, Batch, Comparison};
use levamen_sheets::{FormulaSheet, Sheet};
use levamen_views::json;
use serde::{Serialize, de::DeserializeOwned};

use crate::{doughs, golden, why};

fn pretty(value: &impl Serialize) -> String {
    serde_json::to_string_pretty(value).unwrap()
}

fn formula_of(batch: Batch<'_>) -> json::FormulaJson {
    json::FormulaJson::from(&FormulaSheet::new(batch).unwrap())
}

#[test]
fn formula() {
    assert_snapshot!(pretty(&formula_of(doughs::seed_given_back().batch())));
}

#[test]
fn sheet() {
    let balance = doughs::seed_given_back();
    assert_snapshot!(pretty(&json::SheetJson::from(&Sheet::new(&balance.batch(), &[]).unwrap())));
}

#[test]
fn list() {
    let balance = doughs::seed_given_back();
    let balanced = ListedDough {
        dough: balance.dough.clone(),
        file: "loaves.dough".to_owned(),
        balance: Some(Arc::new(balance.clone())),
    };
    let broken =
        ListedDough { dough: "Half written".to_owned(), file: "trials.dough".to_owned(), balance: None };
    assert_snapshot!(pretty(&[json::ListItemJson::from(&balanced), json::ListItemJson::from(&broken)]));
}

#[test]
fn figures_without_an_end_have_28_digits() {
    let formula = formula_of(doughs::poolish_bread().batch());
    let yeast = &formula.stages[0].lines[2];
    assert_eq!(yeast.pct_stage_flour.as_ref().unwrap().as_str(), "0.2121212121212121212121212121");
    assert_eq!(yeast.grams.as_str(), "7");
}

#[test]
fn what_is_written_can_be_read_back() {
    fn comes_back<T: Serialize + DeserializeOwned + PartialEq>(value: &T) -> bool {
        serde_json::from_str::<T>(&pretty(value)).unwrap() == *value
    }
    for balance in doughs::all() {
        assert!(comes_back(&formula_of(balance.batch())));
        assert!(comes_back(&json::SheetJson::from(&Sheet::new(&balance.batch(), &[]).unwrap())));
    }
}

/// The schemas in `docs/schemas` are made from the types; `LEVAMEN_REWRITE=1` writes them anew.
#[test]
fn schemas_are_those_of_the_types() {
    for (command, schema) in json::schemas() {
        let path = golden::here("../../docs/schemas").join(format!("{command}.json"));
        golden::check_file(&path, &(pretty(&schema) + "\n"));
    }
}

#[test]
fn output_keeps_to_the_schemas() {
    let schema =
        |name| json::schemas().into_iter().find(|(command, _)| *command == name).unwrap().1.to_value();
    let (formula, sheet) = (schema("formula"), schema("sheet"));
    for balance in doughs::all() {
        let value = serde_json::to_value(formula_of(balance.batch())).unwrap();
        assert!(jsonschema::is_valid(&formula, &value));
        let value =
            serde_json::to_value(json::SheetJson::from(&Sheet::new(&balance.batch(), &[]).unwrap())).unwrap();
        assert!(jsonschema::is_valid(&sheet, &value));
        assert!(!jsonschema::is_valid(&formula, &value));
        let value = serde_json::to_value(json::ComparisonJson::from(&balance_with_itself(&balance))).unwrap();
        assert!(jsonschema::is_valid(&schema("compare"), &value));
    }
    let explained = serde_json::to_value(explanation()).unwrap();
    assert!(jsonschema::is_valid(&schema("why"), &explained));
}

fn balance_with_itself(balance: &Balance) -> Comparison {
    Comparison::new([&balance.batch(), &balance.batch()])
}

/// A figure that a few lines settle together.
fn explanation() -> json::WhyJson {
    let (file, text) = why::dough("own-flour");
    json::WhyJson::new(&why::why(&text, "hydration of poolish"), &why::one_text(&file, &text))
}

#[test]
fn explained() {
    assert_snapshot!(pretty(&explanation()));
}
