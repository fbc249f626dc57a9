//! Every form of the language, as it is in the tree.

use levamen_language::{Line, TextId, parse, tidy};

const TEXT: &str = include_str!("forms/every.dough");

fn shown(line: &Line<'_>) -> String {
    let comment = line.comment.map(|comment| format!("  {}", comment.of(TEXT))).unwrap_or_default();
    format!("{} {:?}{comment}", line.depth, line.statement)
}

#[test]
fn every_form_has_its_statement() {
    let parsed = parse(TextId(0), TEXT);
    assert_eq!(parsed.problems, []);
    let shown: Vec<String> = parsed.tree.lines.iter().map(shown).collect();
    insta::assert_snapshot!(shown.join("\n"));
}

#[test]
fn every_form_is_in_canonical_layout() {
    assert_eq!(tidy(TextId(0), TEXT).unwrap(), TEXT);
}

#[test]
fn a_place_holds_the_words_it_names() {
    let parsed = parse(TextId(0), TEXT);
    let places: Vec<&str> = parsed.tree.lines.iter().map(|line| line.span.of(TEXT)).collect();
    let lines: Vec<&str> = TEXT.lines().map(str::trim).collect();
    assert_eq!(places, lines);
}
