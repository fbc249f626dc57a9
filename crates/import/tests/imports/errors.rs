//! What is said of each mistake: every file in `errors/` is a table with mistakes, and its snapshot what a baker is
//! told.

use levamen_import::MAX_ROWS;
use levamen_language::{MAX_BYTES, Problem};
use levamen_quantity::MassUnit;

use crate::{imported, table};

fn problems(table: &[u8], name: &str) -> Vec<Problem> {
    imported(table, MassUnit::Gram, name).err().unwrap_or_default()
}

/// Problems with the words that each label points at, a line each.
fn drawn(table: &str, problems: &[Problem]) -> String {
    let mut lines = Vec::new();
    for problem in problems {
        lines.push(format!("{}: {}", problem.code, problem.message));
        for label in problem.primary.iter().chain(&problem.secondary) {
            lines.push(format!("  at `{}`: {}", label.place.span.of(table).escape_debug(), label.text));
        }
        lines.extend(problem.notes.iter().map(|words| format!("  note: {words}")));
        lines.extend(problem.help.iter().map(|words| format!("  help: {words}")));
    }
    lines.join("\n")
}

fn codes(table: &[u8], name: &str) -> Vec<&'static str> {
    problems(table, name).iter().map(|problem| problem.code).collect()
}

#[test]
fn mistakes() {
    insta::glob!("errors/*.csv", |path| {
        let table = std::fs::read_to_string(path).unwrap();
        let problems = problems(table.as_bytes(), "Country loaf");
        assert!(!problems.is_empty(), "no mistake in {}", path.display());
        insta::with_settings!({ omit_expression => true }, {
            insta::assert_snapshot!(format!("{table}\n----\n{}", drawn(&table, &problems)));
        });
    });
}

#[test]
fn names_that_a_dough_cannot_have() {
    let table = "stage,ingredient,grams\n,flour,100\n,water,60\n,mother culture,5\n";
    let names = ["", "bread, white", "bread #2", "12", "Mother Culture"];
    let told: Vec<String> =
        names.iter().map(|name| drawn(table, &problems(table.as_bytes(), name))).collect();
    insta::assert_snapshot!(told.join("\n"));
}

#[test]
fn a_table_that_is_no_text_or_far_too_long() {
    assert_eq!(codes(b"stage,ingredient,grams\n,flour,\xff\n", "a"), ["not-utf-8"]);
    assert_eq!(
        codes(&b"stage,UTF-16"[..].iter().flat_map(|byte| [*byte, 0xfe]).collect::<Vec<_>>(), "a"),
        ["not-utf-8"]
    );
    assert_eq!(codes(&vec![b','; MAX_BYTES + 1], "a"), ["too-long"]);
}

#[test]
fn a_table_of_too_many_rows() {
    let table = table((0..=MAX_ROWS).map(|row| format!("stage {row},flour,1")));
    assert_eq!(codes(table.as_bytes(), "a"), ["too-many-rows"]);
}

#[test]
fn ten_thousand_mistakes_are_told_in_no_time() {
    let table = table((0..MAX_ROWS).map(|row| format!("stage {row},thing {row},1")));
    let told = codes(table.as_bytes(), "a");
    assert_eq!(told.len(), 201);
    assert_eq!(told.last(), Some(&"more-problems"));
}

#[test]
fn one_line_without_an_end() {
    let cells = "a,".repeat(100_000);
    assert_eq!(codes(cells.as_bytes(), "a"), ["missing-column"]);
    assert_eq!(codes(&vec![b'"'; 100_000], "a"), ["missing-column"]);
}
