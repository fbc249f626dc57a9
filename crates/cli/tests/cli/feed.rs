//! `levamen feed`: a table from standard input, and every way to ask wrongly.

use insta::assert_snapshot;

use crate::run::{folder, record};

const BOOK: &[u8] = include_bytes!("../../../levamen/tests/small/cultures.dough");

const NEED: &[u8] = include_bytes!("../../../levamen/tests/small/needs.csv");

/// What the command says, with a need file of its own.
fn fed(need: &[u8], arguments: &[&str]) -> String {
    let files = folder(&[("bakery.dough", BOOK), ("need.csv", need)]);
    let mut words = vec!["feed", "--zone", "UTC", "--need", "need.csv"];
    words.extend(arguments);
    record(files.path(), &words, "")
}

/// What the command says of wrong arguments.
fn refused(arguments: &[&str]) -> String {
    fed(NEED, arguments)
}

#[test]
fn need_from_standard_input() {
    let files = folder(&[("bakery.dough", BOOK)]);
    let words =
        ["feed", "--zone", "UTC", "--need", "-", "--culture", "harbour culture", "--from", "2026-12-01"];
    assert_snapshot!(record(files.path(), &words, "date,grams\n2026-12-03,500\n"));
}

#[test]
fn arguments_that_cannot_be_read() {
    let from = ["--from", "2026-12-01"];
    for wrong in [
        &["--from", "2026-02-30"][..],
        &["--from", "tomorrow"],
        &["--days", "0"],
        &["--days", "1000000"],
        &["--days", "99999999999999999999"],
        &["--days", "-3"],
        &["--days", "a week"],
        &["--from", "9999-12-30"],
        &["--at", "25:00"],
        &["--at", "four"],
        &["--feed-at", "06:00,six"],
        &["--on-hand", "400"],
        &["--on-hand", "0g"],
        &["--on-hand", "40 %"],
        &["--on-hand", "400g"],
        &["--culture", "harbor culture"],
        &["--days", "3", "--culture", "harbour culture", "--kept-at", "70"],
        &["--culture", "rye culture", "--kept-at", "20°C"],
        &["--culture", "baguette"],
        &["--culture", "cellar culture"],
        &["--from", "2027-06-01"],
    ] {
        let has_from = wrong.first() == Some(&"--from");
        let arguments = if has_from { wrong.to_vec() } else { [&from[..], wrong].concat() };
        let arguments: Vec<&str> = arguments.into_iter().collect();
        assert_snapshot!(refused(&arguments));
    }
}

#[test]
fn a_zone_that_is_none() {
    let files = folder(&[("bakery.dough", BOOK), ("need.csv", NEED)]);
    let words = ["feed", "--zone", "Harbour/Town", "--from", "2026-12-01", "--need", "need.csv"];
    assert_snapshot!(record(files.path(), &words, ""));
}

#[test]
fn a_table_that_is_no_text() {
    assert_snapshot!(fed(b"\xff\xfe", &["--from", "2026-12-01"]));
}

#[test]
fn a_new_culture_that_is_not_there_and_one_with_a_table() {
    let files = folder(&[("bakery.dough", BOOK)]);
    assert_snapshot!(record(files.path(), &["feed", "--new", "harbor culture"], ""));
    assert_snapshot!(record(files.path(), &["feed", "--new", "rye culture", "--need", "need.csv"], ""));
}
