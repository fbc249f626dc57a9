//! What the JSON of every demo dough is, and what the schemas in `docs/schemas` say it is, by an independent validator.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use std::fs;
use std::path::Path;
use std::sync::Arc;

use jiff::civil::date;
use jsonschema::Validator;
use levamen::{InputText, ListedDough, OrderSources, OrdersQuestion, Workspace, day, day_orders};
use levamen_balance::Balancer;
use levamen_convert::{ConversionRequest, ConversionTarget, convert};
use levamen_formula::{Book, Role};
use levamen_language::TextId;
use levamen_orders::SourceText;
use levamen_sheets::{ConversionSheet, FormulaSheet, Sheet};
use levamen_views::json;
use serde_json::{Value, json as value};

fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

fn validator(name: &str) -> Validator {
    let path = root().join("docs/schemas").join(name).with_extension("json");
    let schema: Value = serde_json::from_str(&fs::read_to_string(path).expect("a schema")).expect("JSON");
    jsonschema::validator_for(&schema).expect("a valid schema")
}

fn assert_valid(validator: &Validator, instance: &Value) {
    let errors: Vec<String> = validator.iter_errors(instance).map(|error| error.to_string()).collect();
    assert!(errors.is_empty(), "{errors:?}\n{instance:#}");
}

/// The texts of the demo book.
fn texts() -> Vec<String> {
    let files = fs::read_dir(root().join("formulas")).expect("the demo book");
    let mut files: Vec<_> = files.map(|file| file.expect("a file").path()).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "dough"));
    files.sort();
    files.iter().map(|file| fs::read_to_string(file).expect("a text")).collect()
}

#[test]
fn every_demo_dough_is_as_its_schema_says() {
    let texts = texts();
    let layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, problems) = Book::read(&[&layer]);
    assert!(problems.is_empty(), "{problems:?}");
    let (formula, sheet, list) = (validator("formula"), validator("sheet"), validator("list"));
    let mut balancer = Balancer::new(&book);
    let mut items = Vec::new();
    for (id, entry) in book.entries().filter(|(_, entry)| entry.role == Role::Dough) {
        let balance = balancer.balance(id).expect("a balance").clone();
        let batch = balance.batch();
        assert_valid(
            &formula,
            &value!(json::FormulaJson::from(&FormulaSheet::new(balance.batch()).expect("a formula"))),
        );
        assert_valid(
            &sheet,
            &value!(json::SheetJson::from(&Sheet::new(&batch, &book.scales()).expect("a sheet"))),
        );
        let entry = ListedDough {
            dough: entry.name.clone(),
            file: "a.dough".to_owned(),
            balance: Some(Arc::new(balance.clone())),
        };
        items.push(value!(json::ListItemJson::from(&entry)));
    }
    assert!(items.len() > 15);
    assert_valid(&list, &Value::Array(items));
}

#[test]
fn conversions_are_as_their_schema_says() {
    let texts = texts();
    let layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let convert_schema = validator("convert");
    for (dough, target) in [
        ("Ballast tin", ConversionTarget::Poolish),
        ("Quayside loaf", ConversionTarget::Straight),
        ("Market day bread", ConversionTarget::StiffLevain),
    ] {
        let done = convert(&[&layer], dough, &ConversionRequest::new(target)).expect("a conversion");
        assert_valid(&convert_schema, &value!(json::ConversionJson::from(&ConversionSheet::new(done))));
    }
    assert!(!convert_schema.is_valid(&value!({ "dough": "A" })));
}

#[test]
fn a_demo_day_is_as_its_schema_says() {
    let named =
        |(number, text): (usize, String)| InputText { name: format!("{number}.dough"), text: Ok(text) };
    let workspace = Workspace::read(texts().into_iter().enumerate().map(named).collect(), None);
    let schema = validator("day");
    // Nothing, a dough with a levain, one with a shared poolish and old dough; more than the bakers can do; a mistake.
    for ordered in [
        "",
        "2026-11-27,Corner shop,Quayside loaf,24",
        "2026-11-27,Corner shop,Harbour baguette,60\n2026-11-27,Corner shop,Ferry bread,20",
        "2026-11-27,Corner shop,Quayside loaf,5000",
        "2026-11-27,Corner shop,Quayside laof,24",
    ] {
        let table = SourceText::new(
            "orders.csv",
            format!("date,customer,product,quantity\n{ordered}\n").into_bytes(),
        );
        let files = OrderSources { orders: &[&table], ..OrderSources::default() };
        let bread = date(2026, 11, 27);
        let orders = day_orders(&workspace, bread, &OrdersQuestion { files, today: None });
        let report = day(&workspace, bread, orders.expect("orders"), levamen::Effort::default());
        assert_valid(&schema, &value!(json::DayJson::new(&report.expect("a day"))));
    }
    assert!(!schema.is_valid(&value!({ "date": "2026-11-27" })));
}

#[test]
fn a_schema_refuses_what_is_not_of_its_kind() {
    assert!(!validator("formula").is_valid(&value!({ "dough": "A" })));
    assert!(!validator("list").is_valid(&value!({})));
}
