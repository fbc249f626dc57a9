//! Feedings of cultures: plans, and why there is none.

use insta::assert_snapshot;

use crate::asked::book;

const BOOK: &str = include_str!("../small/cultures.dough");

const NEED: &str = include_str!("../small/needs.csv");

/// What is said, with a table of its own of what is needed.
fn fed(need: &str, arguments: &[&str]) -> String {
    let words = ["feed", "--zone", "UTC", "--need", "need.csv"];
    book(&[("bakery.dough", BOOK), ("need.csv", need)]).ask(&[&words[..], arguments].concat())
}

#[test]
fn each_culture_that_is_needed_has_a_page() {
    assert_snapshot!(fed(NEED, &["--from", "2026-12-01", "--days", "4"]));
}

#[test]
fn one_culture_from_what_is_on_hand() {
    let one = ["--from", "2026-12-01", "--days", "4", "--culture", "harbour culture", "--on-hand", "350g"];
    assert_snapshot!(fed(NEED, &one));
    assert_snapshot!(fed(NEED, &[&one[..], &["--feed-at", "06:00,18:00"]].concat()));
    assert_snapshot!(fed(NEED, &[&one[..], &["--json"]].concat()));
}

#[test]
fn tables_that_cannot_be() {
    for table in [
        "date,culture,grams\n2026-11-30,harbour culture,300\n2026-12-02,harbor culture,300\n",
        "date,grams\n2026-12-01,300\n",
        "date,culture,grams\n2026-12-32,harbour culture,300\n2026-12-02,harbour culture,3 kg\n",
        "date,culture,grams\n2026-12-01,harbour culture,9000\n",
        "date,culture,grams\n2026-12-02,cellar culture,90\n",
        "",
    ] {
        assert_snapshot!(fed(table, &["--from", "2026-12-01"]));
    }
}

#[test]
fn needs_that_cannot_be_met() {
    let small = ["--from", "2026-12-01", "--on-hand", "300g"];
    assert_snapshot!(fed("date,culture,grams\n2026-12-02,harbour culture,7900\n", &small));
    assert_snapshot!(fed(
        "date,culture,grams\n2026-12-02,harbour culture,7000\n",
        &["--from", "2026-12-01", "--on-hand", "100g"]
    ));
    assert_snapshot!(fed(
        "date,culture,grams\n2026-12-02,harbour culture,700\n",
        &[&small[..], &["--feed-at", "02:00"]].concat()
    ));
}

#[test]
fn a_culture_that_cannot_be_kept_so() {
    let book = "culture quick culture\n  white flour  100 %\n  water  100 %\n  ripens  20 h\n  fed every  6 to 12 h\n";
    let book = self::book(&[("bakery.dough", book), ("need.csv", "date,grams\n2026-12-01,30\n")]);
    let words = ["feed", "--zone", "UTC", "--from", "2026-12-01", "--need", "need.csv"];
    assert_snapshot!(book.ask(&words));
}

#[test]
fn a_new_culture_day_by_day() {
    let book = book(&[("bakery.dough", BOOK)]);
    for words in [
        &["feed", "--new", "Harbour culture"][..],
        &["feed", "--new", "rye culture", "--json"],
        &["feed", "--new", "cellar culture"],
    ] {
        assert_snapshot!(book.ask(words));
    }
}

#[test]
fn kept_colder_or_warmer_than_the_book_says() {
    let one = ["--from", "2026-12-01", "--days", "3", "--culture", "harbour culture"];
    for at in ["20°C", "68 °F", "48°C", "2°C"] {
        assert_snapshot!(fed(NEED, &[&one[..], &["--kept-at", at]].concat()));
    }
}
