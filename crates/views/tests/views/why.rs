//! What explanations look like.

use std::path::Path;

use insta::assert_snapshot;
use levamen_balance::{Balancer, Why};
use levamen_formula::{Book, FormulaId, NamedFigure};
use levamen_language::{TextId, Texts};
use levamen_views::text;

use crate::golden;

/// The texts of a book of one file.
pub fn one_text(file: &str, text: &str) -> Texts {
    let mut texts = Texts::default();
    texts.add(TextId(0), file.to_owned(), text);
    texts
}

/// A dough of the folder of reasons, and some of its figures explained.
fn explained(name: &str, figures: &[&str]) -> String {
    let (file, text) = dough(name);
    let texts = one_text(&file, &text);
    let explained = figures.iter().map(|words| text::why(&why(&text, words), &texts));
    explained.collect::<Vec<_>>().join("\n\n")
}

pub fn dough(name: &str) -> (String, String) {
    let file = format!("{name}.dough");
    let path = golden::here("../../tests/reasons").join(Path::new(&file));
    (file, std::fs::read_to_string(path).unwrap())
}

/// A figure of the last dough of a text, explained.
pub fn why(text: &str, words: &str) -> Why {
    let (book, _) = Book::read(&[&[(TextId(0), text)]]);
    let (id, entry) = book.entries().last().unwrap();
    let asked = NamedFigure::read(words, entry.formula.as_ref().unwrap(), book.pantry()).unwrap();
    Balancer::new(&book).why(FormulaId(id.0), asked).unwrap()
}

#[test]
fn poolish() {
    let figures = [
        "hydration",
        "dough yield",
        "salt",
        "pre-fermented flour",
        "dough",
        "flour",
        "white flour",
        "poolish",
        "hydration of poolish",
        "flour of poolish",
        "water in poolish",
        "water in final dough",
        "fresh yeast in final dough",
        "poolish in final dough",
    ];
    assert_snapshot!(explained("poolish", &figures));
}

#[test]
fn levain_given_back() {
    let figures =
        ["seed of levain", "given back of levain", "made of levain", "levain", "flour in final dough"];
    assert_snapshot!(explained("levain-given-back", &figures));
}

#[test]
fn levain_partly_left_over() {
    let figures = [
        "levain build",
        "left over of levain build",
        "white flour",
        "water in levain build",
        "hydration of levain build",
        "pre-fermented flour",
        "flour",
    ];
    assert_snapshot!(explained("levain-partly-left-over", &figures));
}

#[test]
fn scald_with_steam() {
    let figures = [
        "steam of scald",
        "water in scald",
        "scald",
        "left over of rye sour",
        "made of rye sour",
        "water in rye sour",
    ];
    assert_snapshot!(explained("scald-with-steam", &figures));
}

#[test]
fn old_dough() {
    assert_snapshot!(explained("old-dough", &["pre-fermented flour", "old dough", "salt in final dough"]));
}

#[test]
fn dough_on_its_own_flour() {
    assert_snapshot!(explained("own-flour", &["pre-fermented flour", "flour", "water in poolish"]));
}

#[test]
fn coupled() {
    assert_snapshot!(explained("coupled", &["hydration", "sponge"]));
}

#[test]
fn enriched() {
    assert_snapshot!(explained("enriched", &["effective hydration", "salt"]));
}

#[test]
fn a_levain_shared_by_two_stages() {
    assert_snapshot!(explained(
        "two-that-share-a-levain",
        &["water in first build", "levain", "pre-fermented flour of sponge"]
    ));
}

#[test]
fn a_piece_of_another_dough_and_a_want() {
    assert_snapshot!(explained("piece-of-another", &["water in final dough"]));
    assert_snapshot!(explained("wanted", &["water"]));
}

#[test]
fn weights_and_the_batch() {
    assert_snapshot!(explained("made-larger", &["water in poolish", "hydration"]));
    assert_snapshot!(explained("weight-among-percentages", &["salt", "salt in final dough"]));
}
