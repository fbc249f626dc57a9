//! How much to make: a unit apart from its figure, and sizes that do not fit a dough.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use insta::assert_snapshot;
use serde_json::Value;

use crate::run::{folder, levamen, record};

const LOAF: &str = include_str!("../../../levamen/tests/small/loaf.dough");

/// The whole dough and what is to divide of it, in grams.
fn weights(dough: &str, arguments: &[&str]) -> (String, String) {
    let book = folder(&[("loaf.dough", dough.as_bytes())]);
    let output = levamen(book.path(), &[arguments, &["--json"]].concat(), b"");
    let value: Value = serde_json::from_slice(&output.stdout).unwrap();
    let weight = |name: &str| value[name].as_str().unwrap().to_owned();
    (weight("dough_g"), weight("to_divide_g"))
}

#[test]
fn a_unit_may_stand_apart_from_its_figure() {
    let made = format!("{LOAF}\nmake 24 pieces of 920 g, losing 2 %\n");
    let apart = weights(&made, &["scale", "Loaf", "--dough", "20", "kg", "--losing", "3", "%"]);
    assert_eq!(apart, weights(&made, &["scale", "Loaf", "--dough", "20kg", "--losing", "3%"]));
    assert_eq!(
        weights(&made, &["scale", "Loaf", "--have", "poolish=4", "kg"]),
        weights(&made, &["scale", "Loaf", "--have", "poolish=4kg"]),
    );
}

#[test]
fn sizes_that_do_not_fit_a_dough() {
    let book = folder(&[("loaf.dough", LOAF.as_bytes())]);
    for asked in [
        &["Loaf"][..],
        &["Loaf", "--with-old-dough", "--pieces", "3", "--piece", "1kg"],
        &["Daily bread", "--with-old-dough", "--dough", "3kg"],
    ] {
        assert_snapshot!(record(book.path(), &[&["scale"], asked].concat(), ""));
    }
}
