//! Feedings of cultures: plans, and why there is none.

use insta::assert_snapshot;
use jiff::civil::{Date, date, time};

use crate::asked::book;
use crate::question::Question;
use crate::questions::{Feeding, feed, new_culture};

const BOOK: &str = include_str!("../small/cultures.dough");

const NEED: &str = include_str!("../small/needs.csv");

/// The first day.
const FIRST: Date = date(2026, 12, 1);

/// Cultures are fed from the first day on, for what is needed of them.
fn from_first() -> Question<Feeding> {
    feed().zone("UTC").need("need.csv").from(FIRST)
}

/// What is said, with a table of its own of what is needed.
fn fed(need: &str, question: &Question<Feeding>) -> String {
    book(&[("bakery.dough", BOOK), ("need.csv", need)]).ask(question)
}

#[test]
fn each_culture_that_is_needed_has_a_page() {
    assert_snapshot!(fed(NEED, &from_first().days(4)));
}

#[test]
fn one_culture_from_what_is_on_hand() {
    let one = || from_first().days(4).culture("harbour culture").on_hand("350g");
    assert_snapshot!(fed(NEED, &one()));
    assert_snapshot!(fed(NEED, &one().feed_at(&[time(6, 0, 0, 0), time(18, 0, 0, 0)])));
    assert_snapshot!(fed(NEED, &one().json()));
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
        assert_snapshot!(fed(table, &from_first()));
    }
}

#[test]
fn needs_that_cannot_be_met() {
    let small = || from_first().on_hand("300g");
    assert_snapshot!(fed("date,culture,grams\n2026-12-02,harbour culture,7900\n", &small()));
    assert_snapshot!(fed(
        "date,culture,grams\n2026-12-02,harbour culture,7000\n",
        &from_first().on_hand("100g")
    ));
    assert_snapshot!(fed(
        "date,culture,grams\n2026-12-02,harbour culture,700\n",
        &small().feed_at(&[time(2, 0, 0, 0)])
    ));
}

#[test]
fn a_culture_that_cannot_be_kept_so() {
    let book = "culture quick culture\n  white flour  100 %\n  water  100 %\n  ripens  20 h\n  fed every  6 to 12 h\n";
    let book = self::book(&[("bakery.dough", book), ("need.csv", "date,grams\n2026-12-01,30\n")]);
    assert_snapshot!(book.ask(&feed().zone("UTC").from(FIRST).need("need.csv")));
}

#[test]
fn a_new_culture_day_by_day() {
    let book = book(&[("bakery.dough", BOOK)]);
    for question in
        [new_culture("Harbour culture"), new_culture("rye culture").json(), new_culture("cellar culture")]
    {
        assert_snapshot!(book.ask(&question));
    }
}

#[test]
fn kept_colder_or_warmer_than_the_book_says() {
    for at in ["20°C", "68 °F", "48°C", "2°C"] {
        assert_snapshot!(fed(NEED, &from_first().days(3).culture("harbour culture").kept_at(at)));
    }
}
