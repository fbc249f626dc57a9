//! `levamen store`: files that cannot be read, and every way to ask wrongly.

use insta::assert_snapshot;

use crate::run::{folder, record};

const BOOK: &[u8] =
    b"bakery Quay\n  time zone Europe/Lisbon\n\ndough Country loaf\n\noverall\n  white flour  100 %\n  \
                      water  72 %\n\nproduct Country loaf\n  made of Country loaf\n  piece  900 g\n";

const ORDERS: &[u8] = b"date,customer,product,quantity\n2026-11-27,Inn,Country loaf,40\n";

const STOCK: &[u8] = b"ingredient,on hand\nwhite flour,30 kg\nsalt,5 kg\nrye flour,2.5 kg\n";

/// What the command says over a book with these orders and this stock.
fn stored(orders: &[u8], stock: &[u8], arguments: &[&str]) -> String {
    let files = folder(&[("bakery.dough", BOOK), ("orders.csv", orders), ("stock.csv", stock)]);
    let mut words = vec!["store"];
    words.extend(arguments);
    record(files.path(), &words, "")
}

#[test]
fn stock_that_cannot_be_read() {
    assert_snapshot!(stored(ORDERS, STOCK, &["--from", "2026-11-26", "--stock", "shelf.csv"]));
    assert_snapshot!(stored(
        ORDERS,
        b"ingredient,on hand\nsalt,\xff kg\n",
        &["--from", "2026-11-26", "--stock", "stock.csv"]
    ));
}

#[test]
fn arguments_that_cannot_be_read() {
    for wrong in [
        &["--from", "2026-02-30"][..],
        &["--from", "tomorrow"],
        &["--from", "2026-11-26", "--days", "0"],
        &["--from", "2026-11-26", "--days", "1000000"],
        &["--from", "2026-11-26", "--json", "--as", "csv"],
        &["--from", "2026-11-26", "--orders", "nowhere.csv"],
        &["--days", "3"],
    ] {
        assert_snapshot!(stored(ORDERS, STOCK, wrong));
    }
}

#[test]
fn a_list_of_what_is_issued() {
    let list = stored(ORDERS, STOCK, &["--from", "2026-11-26", "--as", "csv"]);
    assert!(list.contains("white flour") && list.ends_with("--- exit 0\n"), "{list}");
}
