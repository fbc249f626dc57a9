//! What the store room needs: the list, and what is said where there is none.

use insta::assert_snapshot;

use jiff::civil::{Date, date};

use crate::asked::book;
use crate::question::{Form, Question};
use crate::questions::{StoreRoom, store};

const BOOK: &str = "\
bakery Quay
  time zone Europe/Lisbon
  currency  EUR
  out by    06:30

culture harbour culture
  white flour  100 %
  water        100 %
  ripens         8 to 10 h at 24 °C
  keeps         20 to 50 % old
  usually       40 % old
  fed every     12 to 24 h
  hold at least 200 g
  hold at most    8 kg

dough Country loaf

overall
  white flour  90 %
  rye flour    10 %
  water        72 %
  salt          2 %

stage levain
  takes       15 % of the flour
  white flour           100 %
  water                 100 %
  from harbour culture   20 %
  ripens                 10 h at 24 °C

product Country loaf
  made of Country loaf
  piece                900 g
  each with poppy seeds  2 g

supply white flour
  pack          25 kg
  price         20 for 25 kg
  delivered in   2 days

supply rye flour
  pack          10 kg
  price         11 for 10 kg
  waste          1 %
  delivered in  24 h

supply salt
  price         0.50 for 1 kg
  delivered in  24 h

supply water
  price 2.10 for 1000 kg
";

const ORDERS: &str = "\
date,customer,product,quantity
2026-11-27,Inn,Country loaf,40
2026-11-28,Inn,Country loaf,60
2026-11-30,Market,Country loaf,100
";

const STOCK: &str = "ingredient,on hand\nwhite flour,30 kg\nsalt,5 kg\nrye flour,2.5 kg\n";

/// The day before the first orders.
const TODAY: Date = date(2026, 11, 26);

/// What is said over a book with these orders and this stock.
fn stored(orders: &str, stock: &str, question: &Question<StoreRoom>) -> String {
    let book = book(&[("bakery.dough", BOOK), ("orders.csv", orders), ("stock.csv", stock)]);
    book.ask(question)
}

#[test]
fn what_to_order_by_when() {
    assert_snapshot!(stored(ORDERS, STOCK, &store().from(TODAY).stock("stock.csv")));
}

#[test]
fn a_levain_is_issued_on_the_day_before_its_bread() {
    // Of the bread of the 27th only the levain is weighed on the 26th, and the culture is fed for it.
    assert_snapshot!(stored(ORDERS, STOCK, &store().from(TODAY).days(1).json()));
}

#[test]
fn as_csv() {
    let table = store().from(TODAY).stock("stock.csv").file(Form::Csv);
    assert_snapshot!(stored(ORDERS, STOCK, &table).replace('\r', ""));
}

#[test]
fn dates_without_orders() {
    assert_snapshot!(stored(ORDERS, STOCK, &store().from(date(2027, 3, 1)).days(2)));
}

#[test]
fn orders_with_mistakes_make_the_list_incomplete() {
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Country loaf,40\n2026-11-27,Inn,Rolls,9\n";
    assert_snapshot!(stored(orders, STOCK, &store().from(TODAY).days(2)));
    let skipped = stored(orders, STOCK, &store().from(TODAY).days(2).skip_wrong());
    assert!(skipped.ends_with("--- exit 0\n"), "{skipped}");
}

#[test]
fn a_culture_that_cannot_give_so_much() {
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Country loaf,4000\n";
    assert_snapshot!(stored(orders, STOCK, &store().from(TODAY).days(2)));
}

#[test]
fn stock_that_cannot_be_read() {
    let stock = "ingredient,on hand\nwhite flower,30 kg\nsalt,5\nsalt,5 kg\nSalt,1 kg\n";
    assert_snapshot!(stored(ORDERS, stock, &store().from(TODAY).stock("stock.csv")));
}
