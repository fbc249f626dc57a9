//! The reference is true: its examples are read and are in canonical layout, its mistakes are mistakes, and its
//! table of codes is the crate's.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;

use levamen_language::{CARDS, TextId, parse, tidy};

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
    let after = REFERENCE.split_once("## Problem codes").map_or("", |(_, after)| after);
    let rows = after.lines().filter_map(|line| line.strip_prefix("| `"));
    rows.filter_map(|row| row.split_once("` |")).map(|(code, _)| code.to_owned()).collect()
}

/// The texts of the files in a folder of this crate.
fn texts_in(folder: &str) -> io::Result<Vec<String>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    fs::read_dir(folder)?.map(|entry| fs::read_to_string(entry?.path())).collect()
}

/// The codes in some source: what is in quotes where a problem is made.
fn codes_in(source: &str) -> BTreeSet<String> {
    let makers = ["SyntaxError::new(", "Problem::error(", "const MISSING: &str = "];
    let made = makers.iter().flat_map(|maker| source.split(maker).skip(1));
    let quoted = made.filter_map(|after| after.trim_start().strip_prefix('"')?.split('"').next());
    quoted.map(str::to_owned).collect()
}

#[test]
fn the_table_of_codes_is_complete_and_sorted() {
    let table = table();
    assert!(table.is_sorted());
    let made = texts_in("src/problems").unwrap().iter().flat_map(|source| codes_in(source)).collect();
    assert_eq!(table.into_iter().collect::<BTreeSet<_>>(), made);
}

#[test]
fn every_code_has_a_snapshot() {
    let told = texts_in("tests/snapshots").unwrap().concat();
    for code in table() {
        assert!(told.contains(&format!("\n{code}: ")), "no snapshot of `{code}`");
    }
}

#[test]
fn every_card_and_form_is_in_the_reference() {
    let mut rows = REFERENCE.lines().filter(|line| line.starts_with('|'));
    for card in &CARDS {
        for (index, form) in card.forms.iter().enumerate() {
            let keyword = if index == 0 { format!("`{}`", card.keyword) } else { String::new() };
            let shape = form.shape.replace('|', "\\|");
            let again = if form.repeats { " …" } else { "" };
            let row = format!("| {keyword} | `{shape}`{again} | `{}` |", form.example);
            assert!(rows.any(|line| line == row), "not in the reference, or not in its place: {row}");
        }
    }
}
