//! A small bakery's day, and what is said of orders that are wrong.

use jiff::civil::{Date, date};
use levamen_views::text::DayPart;

use crate::asked::book;
use crate::question::Question;
use crate::questions::{DayPages, day};

const BOOK: &str = "\
dough Loaf

overall
  strong white flour  100 %
  water                70 %
  salt                  2 %

stage levain
  takes                20 % of the flour
  strong white flour  100 %
  water               100 %
  from mild culture    20 %
  ripens                8 to 10 h at 24 °C

culture mild culture
  strong white flour  100 %
  water               100 %

bakery Test bakehouse
  time zone Europe/Lisbon
  out by 06:30
  tap water    16 °C
  flour store  20 °C

mixer spiral mixer
  least   4 kg of dough
  most   12 kg of dough
  warms  10 °C

oven deck oven
  decks  2

room bakehouse
  stands at  22 °C

shift early
  from 00:00 to 12:00
  bakers  2

shift late
  from 12:00 to 00:00
  bakers  2

tub bucket
  volume  10 l

method Loaf
  in spiral mixer
  mixes    12 min
  dough at  25 °C
  bulk      2 to 3 h

product Loaf
  made of Loaf
  piece                 860 g
  losing                  2 %
  spare                   1 piece
  each with poppy seeds   5 g
  deck                   12 pieces
  shaping                20 min
  proof                  60 to 90 min
  bakes                  40 min
";

/// The day of the orders.
const DATE: Date = date(2026, 11, 27);

/// What is said with these orders.
fn with_orders(orders: &str, question: &Question<DayPages>) -> String {
    book(&[("book.dough", BOOK), ("orders.csv", orders)]).ask(question)
}

#[test]
fn a_day_from_order_to_bench() {
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Loaf,14\n2026-11-27,Shop,Loaf,9\n2026-11-30,Shop,Loaf,9\n";
    insta::assert_snapshot!(with_orders(orders, &day(DATE)));
}

#[test]
fn a_dough_under_the_least_says_what_to_do() {
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Loaf,2\n";
    insta::assert_snapshot!(with_orders(orders, &day(DATE).only(DayPart::Made)));
}

#[test]
fn a_wrong_line_makes_the_day_incomplete_and_the_command_fail() {
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Loaf,4\n2026-11-27,Inn,Laof,4\n2026-11-31,Inn,Loaf,4\n\
                  2026-11-27,Shop,Loaf,a dozen\n2026-11-27,Shop,Loaf,1000000000000\n2026-11-27,Inn,Loaf,4\n";
    insta::assert_snapshot!(with_orders(orders, &day(DATE).only(DayPart::Made)));
}

#[test]
fn told_to_skip_it_goes_on() {
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Loaf,8\n2026-11-27,Inn,Laof,4\n";
    insta::assert_snapshot!(with_orders(orders, &day(DATE).only(DayPart::Made).skip_wrong()));
}

#[test]
fn a_day_without_orders_has_nothing_to_make() {
    insta::assert_snapshot!(with_orders("date,customer,product,quantity\n", &day(DATE)));
}

#[test]
fn a_day_of_wrong_lines_does_not_say_that_nothing_is_ordered() {
    insta::assert_snapshot!(with_orders(
        "date,customer,product,quantity\n2026-11-27,Inn,Laof,4\n",
        &day(DATE)
    ));
}

#[test]
fn weekly_orders_and_their_exceptions_count() {
    let weekly = "weekday,customer,product,quantity\nFriday,Inn,Loaf,20\nFriday,Shop,Loaf,6\n";
    let exceptions = "date,customer,product,quantity\n2026-11-27,Inn,Loaf,0\n";
    let book = book(&[("book.dough", BOOK), ("weekly.csv", weekly), ("exceptions.csv", exceptions)]);
    insta::assert_snapshot!(book.ask(&day(DATE).only(DayPart::Made)));
}

#[test]
fn a_dough_that_is_wrong_is_told_where_it_is_ordered() {
    let text = BOOK.replace("  salt                  2 %", "  salt                  2,5 %");
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Loaf,14\n";
    let book = book(&[("book.dough", &text), ("orders.csv", orders)]);
    insta::assert_snapshot!(book.ask(&day(DATE)));
}

#[test]
fn what_to_take_care_of_with_cultures_is_said_once_for_all_of_them() {
    let sour = "stage sour, a levain\n  takes 5 % of the flour\n  strong white flour 100 %\n  water 100 %\n  from brisk culture 10 %\n  \
                ripens 12 to 14 h at 24 °C\n\nstage levain\n";
    let cultures = "culture mild culture\n  ripens 8 to 10 h at 24 °C\n";
    let brisk =
        "\nculture brisk culture\n  strong white flour 100 %\n  water 100 %\n  ripens 8 to 10 h at 24 °C\n";
    let text = BOOK.replace("stage levain\n", sour).replace("culture mild culture\n", cultures) + brisk;
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Loaf,14\n";
    let book = book(&[("book.dough", &text), ("orders.csv", orders)]);
    let page = book.ask(&day(DATE).only(DayPart::Cultures));
    assert_eq!(page.matches(": feeding plan").count(), 2, "{page}");
    assert_eq!(page.matches("Look and smell").count(), 1, "{page}");
}
