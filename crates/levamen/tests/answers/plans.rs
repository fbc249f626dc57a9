//! What a plan relies on, and how large a day may be.

use jiff::civil::{Date, date};
use levamen_views::text::DayPart;

use crate::asked;
use crate::question::{Question, Request};
use crate::questions::{day, orders_costs, store};

const BOOK: &str = include_str!("../small/night_and_day.dough");

/// The day of most orders.
const DATE: Date = date(2026, 11, 27);

const HEADINGS: &str = "date,customer,product,quantity\n";

fn run<R: Request>(book: &str, orders: &str, question: &Question<R>) -> String {
    let orders = format!("{HEADINGS}{orders}");
    asked::book(&[("book.dough", book), ("orders.csv", &orders)]).ask(question)
}

#[test]
fn one_weight_of_a_dough_is_the_same_in_every_line() {
    // 10 loaves of 600 g with 1 % lost are 6.0606 kg, and 6.060 kg as they are weighed.
    insta::assert_snapshot!(run(
        BOOK,
        "2026-11-27,Inn,Loaf,9\n",
        &day(DATE).only(DayPart::Made).only(DayPart::Set)
    ));
}

#[test]
fn a_million_pieces_are_counted_in_batches_and_not_listed() {
    insta::assert_snapshot!(run(
        BOOK,
        "2026-11-27,Inn,Loaf,1000000\n",
        &day(DATE).only(DayPart::Made).only(DayPart::Times).only(DayPart::Set)
    ));
}

#[test]
fn an_error_in_a_card_stops_every_plan() {
    let wrong = [
        ("mixer spiral\n", "mixer spiral\n  there are 0\n", "zero"),
        ("  most   60 kg of dough\n", "  mosst   60 kg of dough\n", "unknown-fact"),
        ("  spare      3 %\n", "  spare      3\n", "fact-form"),
        ("mixer spiral\n", "mixxer spiral\n", "unknown-heading"),
        ("  decks  4\n", "  decks  0\n", "zero"),
    ];
    for (line, instead, code) in wrong {
        assert!(BOOK.contains(line));
        let book = BOOK.replace(line, instead);
        let orders = "2026-11-27,Inn,Loaf,9\n";
        for told in [
            run(&book, orders, &day(DATE)),
            run(&book, orders, &store().from(date(2026, 11, 26))),
            run(&book, orders, &orders_costs(DATE)),
        ] {
            assert!(told.contains(&format!("error[{code}]")) && told.ends_with("--- exit 1\n"), "{told}");
            assert!(!told.contains("What is made"), "{told}");
        }
    }
}

#[test]
fn a_mixer_that_is_not_there_stops_the_day() {
    let book = BOOK.replace("mixer spiral\n", "mixer spiral\n  there are 0\n");
    insta::assert_snapshot!(run(&book, "2026-11-27,Inn,Loaf,9\n", &day(DATE)));
}

#[test]
fn an_error_in_what_is_not_used_stops_nothing() {
    let unused = "\ndough Other\n\noverall\n  white flour  100 %\n  pepperr        1 %\n\ningredient nut paste\n  oily\n";
    let made = |book: &str| run(book, "2026-11-27,Inn,Loaf,14\n", &day(DATE).only(DayPart::Made));
    let told = made(&format!("{BOOK}{unused}"));
    assert!(told.ends_with("--- exit 0\n") && told.contains("What is made"), "{told}");
    // The same ingredient in the dough that is baked, or on its pieces, stops it.
    let used = format!("{BOOK}  each with nut paste  5 g\n{unused}");
    let told = made(&used);
    assert!(told.ends_with("--- exit 1\n") && !told.contains("What is made"), "{told}");
}

#[test]
fn a_shift_at_an_hour_that_is_skipped_is_told() {
    let book =
        BOOK.replace("from 22:00 to 07:00", "from 01:15 to 12:00").replace("out by 06:30", "out by 10:00");
    let told = run(
        &book,
        "2026-03-29,Inn,Loaf,20\n",
        &day(date(2026, 3, 29)).only(DayPart::Made).only(DayPart::Times),
    );
    insta::assert_snapshot!(told);
}
