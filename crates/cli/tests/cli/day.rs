//! `levamen day`: every way to ask wrongly, and how it ends where orders are wrong.

use crate::run::{folder, levamen, record};

const BOOK: &str = "\
dough Loaf

overall
  white flour  100 %
  water         70 %
  salt           2 %
  fresh yeast    1 %

bakery Test bakehouse
  time zone Europe/Lisbon
  out by 06:30

product Loaf
  made of Loaf
  piece  860 g
";

#[test]
fn wrong_calls() {
    let book = folder(&[("book.dough", BOOK.as_bytes())]);
    let calls: [&[&str]; 4] = [
        &["day", "2026-11-27"],
        &["day", "tomorrow"],
        &["day", "2026-02-30"],
        &["day", "2026-11-27", "--orders", "nowhere.csv", "--only", "made"],
    ];
    let shown: Vec<String> = calls.iter().map(|call| record(book.path(), call, "")).collect();
    insta::assert_snapshot!(shown.join("\n"));
}

#[test]
fn a_calendar_file_is_not_read_as_json_and_text_at_once() {
    let book =
        folder(&[("book.dough", BOOK.as_bytes()), ("orders.csv", b"date,customer,product,quantity\n")]);
    let output = levamen(book.path(), &["day", "2026-11-27", "--json", "--as", "text"], b"");
    assert_eq!(output.status.code(), Some(2));
}

#[test]
fn a_wrong_line_fails_unless_it_is_skipped() {
    let orders = b"date,customer,product,quantity\n2026-11-27,Inn,Loaf,8\n2026-11-27,Inn,Laof,4\n";
    let book = folder(&[("book.dough", BOOK.as_bytes()), ("orders.csv", orders)]);
    let day = ["day", "2026-11-27", "--only", "made"];
    let output = levamen(book.path(), &day, b"");
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&output.stdout).contains("INCOMPLETE"));
    assert!(String::from_utf8_lossy(&output.stderr).contains("error[orders-unknown-product]"));
    let output = levamen(book.path(), &[&day[..], &["--skip-wrong"]].concat(), b"");
    assert_eq!(output.status.code(), Some(0));
}

/// Whoever mends the dough alone would meet the order's mistake on the next run.
#[test]
fn what_is_wrong_with_orders_is_reported_beside_what_is_wrong_with_a_dough() {
    let orders = b"date,customer,product,quantity\n2026-11-27,Inn,Loaf,8\n12-11-27,Inn,Loaf,4\n";
    let book = BOOK.replace("salt           2 %", "salt           2");
    let book = folder(&[("book.dough", book.as_bytes()), ("orders.csv", orders)]);
    let calls: [&[&str]; 3] = [
        &["day", "2026-11-27"],
        &["store", "--from", "2026-11-27", "--days", "1"],
        &["cost", "--date", "2026-11-27"],
    ];
    for call in calls {
        let output = levamen(book.path(), call, b"");
        let told = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(1), "{call:?}");
        assert!(told.contains("error[missing-unit]") && told.contains("error[orders-date]"), "{told}");
    }
}
