//! `levamen cost`: every way to ask wrongly, and orders that are.

use insta::assert_snapshot;

use crate::run::{folder, levamen, record};

const BOOK: &[u8] =
    b"dough Country loaf\n\noverall\n  white flour  100 %\n  water  72 %\n\nproduct Country loaf\n  \
                      made of Country loaf\n  piece  900 g\n";

const ORDERS: &[u8] = b"date,customer,product,quantity\n2026-11-27,Inn,Country loaf,1\n";

fn said(arguments: &[&str]) -> String {
    let files = folder(&[("bakery.dough", BOOK), ("orders.csv", ORDERS)]);
    let mut words = vec!["cost"];
    words.extend(arguments);
    record(files.path(), &words, "")
}

#[test]
fn what_cannot_be_asked() {
    for wrong in [
        &["Country laof"][..],
        &["--date", "2026-02-30"],
        &["Country loaf", "--date", "2026-11-27"],
        &["--orders", "orders.csv"],
    ] {
        assert_snapshot!(said(wrong));
    }
}

#[test]
fn a_line_that_is_wrong_fails_unless_it_is_skipped() {
    let orders = [ORDERS, b"2026-11-27,Inn,Country laof,1\n"].concat();
    let files = folder(&[("bakery.dough", BOOK), ("orders.csv", orders.as_slice())]);
    let asked = ["cost", "--date", "2026-11-27"];
    assert_eq!(levamen(files.path(), &asked, b"").status.code(), Some(1));
    assert_eq!(levamen(files.path(), &[&asked[..], &["--skip-wrong"]].concat(), b"").status.code(), Some(0));
}
