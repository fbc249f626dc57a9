//! Every published worked example, imported from its weights.
//!
//! Each list of rows in `tests/published/` is written as CSV, and what comes of it is canonical, read without a
//! problem, and balances to the weights that are printed.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test says where it fails")]

use std::path::PathBuf;

use levamen_balance::{Balance, Balancer};
use levamen_formula::{Book, Role};
use levamen_import::{Options, import};
use levamen_language::{TextId, tidy};
use levamen_quantity::{Exact, Mass, MassUnit};
use serde_json::Value;

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
    paths.iter().map(|path| example(path)).collect()
}

fn example(path: &std::path::Path) -> Example {
    let json: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let unit = MassUnit::ALL.into_iter().find(|unit| json["unit"] == unit.symbol()).unwrap();
    let rows = json["rows"].as_array().unwrap().iter();
    let rows = rows.map(|row| [0, 1, 2].map(|column| row[column].as_str().unwrap().to_owned())).collect();
    let file = path.file_stem().unwrap().to_string_lossy().into_owned();
    Example { file, unit, rows }
}

fn table(example: &Example) -> String {
    let rows = example.rows.iter().map(|row| row.join(",") + "\n");
    std::iter::once("stage,ingredient,grams\n".to_owned()).chain(rows).collect()
}

fn imported(example: &Example) -> String {
    let (book, _) = Book::read(&[]);
    let options = Options { unit: example.unit, name: example.file.replace('-', " ") };
    let text = import(TextId(0), table(example).as_bytes(), &options, book.pantry());
    text.unwrap_or_else(|problems| panic!("{}: {problems:#?}", example.file))
}

fn balanced(text: &str) -> Balance {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert!(problems.is_empty(), "{text}\n{problems:#?}");
    let (id, _) = book.entries().find(|(_, entry)| entry.role == Role::Dough).unwrap();
    Balancer::new(&book).balance(id).cloned().unwrap_or_else(|problems| panic!("{text}\n{problems:#?}"))
}

#[test]
fn there_are_examples() {
    assert!(examples().len() >= 30);
}

#[test]
fn each_is_canonical() {
    for example in examples() {
        let text = imported(&example);
        assert_eq!(tidy(TextId(0), &text).as_ref(), Ok(&text), "{}", example.file);
    }
}

#[test]
fn each_balances_to_its_own_weights() {
    for example in examples() {
        let text = imported(&example);
        let balance = balanced(&text);
        let batch = balance.batch();
        // A feeding has no final dough in print: its one stage is imported as that.
        let is_last =
            |name: &str| name == "final dough" || !example.rows.iter().any(|row| row[0] == "final dough");
        let mut compared = 0;
        for [stage, name, figure] in &example.rows {
            let found = balance
                .stages
                .iter()
                .find(|own| own.name == *stage || (own.name == "final dough" && is_last(stage)));
            let line = found.unwrap().lines.iter().find(|line| line.name == *name).unwrap();
            let printed = Mass::from_unit(Exact::from_literal(figure).unwrap(), example.unit);
            assert_eq!(batch.mass(&line.share), printed, "{} {stage} {name}\n{text}", example.file);
            compared += 1;
        }
        assert_eq!(compared, balance.stages.iter().map(|stage| stage.lines.len()).sum::<usize>(), "{text}");
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
