//! The reference is true: its examples are read and are in canonical layout, its mistakes are mistakes, and its
//! table of codes is the crate's.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use levamen_language::{TextId, parse, tidy};

const REFERENCE: &str = include_str!("../../../docs/language.md");

/// The fenced blocks whose first line begins with ```` ```LABEL ````: what follows the label, and the block.
fn blocks(label: &str) -> Vec<(String, String)> {
    let mut blocks = Vec::new();
    let mut lines = REFERENCE.lines();
    while let Some(line) = lines.next() {
        let Some(info) = line.strip_prefix("```") else { continue };
        let block: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
        let (first, rest) = info.split_once(' ').unwrap_or((info, ""));
        if first == label {
            blocks.push((rest.to_owned(), block.join("\n") + "\n"));
        }
    }
    blocks
}

#[test]
fn every_example_is_read_and_is_in_canonical_layout() {
    let examples = blocks("dough");
    assert!(examples.len() > 12);
    for (_, example) in examples {
        assert_eq!(parse(TextId(0), &example).problems, [], "{example}");
        assert_eq!(tidy(TextId(0), &example).unwrap(), example);
    }
}

#[test]
fn every_mistake_has_the_code_it_is_said_to_have() {
    let mistakes = blocks("dough-error");
    assert!(mistakes.len() > 6);
    for (code, mistake) in mistakes {
        let problems = parse(TextId(0), &mistake).problems;
        assert_eq!(problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), [code], "{mistake}");
    }
}

/// The codes of the table, in its order.
fn table() -> Vec<String> {
    let (_, after) = REFERENCE.split_once("## Problem codes").unwrap();
    let rows = after.lines().filter_map(|line| line.strip_prefix("| `"));
    rows.filter_map(|row| row.split_once("` |")).map(|(code, _)| code.to_owned()).collect()
}

/// What stands in quotes right after one of these words in the files of a folder.
fn codes_in(folder: &Path) -> BTreeSet<String> {
    let mut codes = BTreeSet::new();
    for entry in fs::read_dir(folder).unwrap() {
        let text = fs::read_to_string(entry.unwrap().path()).unwrap();
        for makes in ["Fault::new(", "Problem::error(", "const MISSING: &str = "] {
            for after in text.split(makes).skip(1) {
                if let Some(code) =
                    after.trim_start().strip_prefix('"').and_then(|code| code.split('"').next())
                {
                    codes.insert(code.to_owned());
                }
            }
        }
    }
    codes
}

#[test]
fn the_table_of_codes_is_complete_and_sorted() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    let table = table();
    assert!(table.is_sorted());
    assert_eq!(table.iter().cloned().collect::<BTreeSet<_>>(), codes_in(&folder.join("src/fault")));
}

#[test]
fn every_code_has_a_snapshot() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots");
    let told: String = fs::read_dir(folder)
        .unwrap()
        .map(|entry| fs::read_to_string(entry.unwrap().path()).unwrap())
        .collect();
    for code in table() {
        assert!(told.contains(&format!("\n{code}: ")), "no snapshot of `{code}`");
    }
}
