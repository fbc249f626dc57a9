//! Every published worked example, imported from its weights.
//!
//! Each list of rows in `tests/published/` is written as CSV, and what comes of it is canonical, read without a
//! problem, and balances to the weights that are printed.

use std::path::PathBuf;

use levamen_quantity::{Exact, Mass, MassUnit};
use serde_json::Value;

use crate::sound;

/// A published list of rows.
struct Example {
    file: String,
    unit: MassUnit,
    /// Stage, ingredient, figure.
    rows: Vec<[String; 3]>,
}

fn examples() -> Vec<Example> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/published");
    let mut paths: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
    paths.sort();
    paths.iter().filter_map(|path| example(path)).collect()
}

/// An example; none where the built-in pantry does not know all of it.
fn example(path: &std::path::Path) -> Option<Example> {
    let json: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let unit = MassUnit::ALL.into_iter().find(|unit| json["unit"] == unit.symbol()).unwrap();
    let rows = json["rows"].as_array().unwrap().iter();
    let rows = rows.map(|row| [0, 1, 2].map(|column| row[column].as_str().unwrap().to_owned())).collect();
    let file = path.file_stem().unwrap().to_string_lossy().into_owned();
    json["plain"].is_null().then_some(Example { file, unit, rows })
}

fn table(example: &Example) -> String {
    crate::table(example.rows.iter().map(|row| row.join(",")))
}

fn imported(example: &Example) -> String {
    let text = crate::imported(table(example).as_bytes(), example.unit, &example.file.replace('-', " "));
    text.unwrap_or_else(|problems| panic!("{}: {problems:#?}", example.file))
}

#[test]
fn there_are_examples() {
    assert!(examples().len() >= 30);
}

#[test]
fn each_balances_to_its_own_weights() {
    for example in examples() {
        let text = imported(&example);
        // A feeding has no final dough in print: its one stage is imported as that.
        let is_feeding = !example.rows.iter().any(|[stage, ..]| stage == "final dough");
        let printed = example.rows.iter().map(|[stage, name, figure]| {
            let stage = if is_feeding { "final dough" } else { stage };
            (format!("{stage}/{name}"), Mass::from_unit(Exact::from_literal(figure).unwrap(), example.unit))
        });
        let mut printed: Vec<(String, Mass)> = printed.collect();
        let found = sound::weights(&sound::balanced(&text));
        printed.sort();
        assert_eq!(found, printed, "{text}");
    }
}

#[test]
fn each_as_text() {
    for example in examples() {
        insta::with_settings!({ description => table(&example), omit_expression => true }, {
            insta::assert_snapshot!(example.file.as_str(), imported(&example));
        });
    }
}
