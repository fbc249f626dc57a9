//! How much memory a day takes, and dates and files that are not what they seem.

use std::fmt::Write as _;
use std::process::Command;

use crate::run::{folder, levamen, record};

const BOOK: &str = include_str!("../../../levamen/tests/small/night_and_day.dough");

const HEADINGS: &str = "date,customer,product,quantity\n";

fn run(book: &str, orders: &str, arguments: &[&str]) -> String {
    let orders = format!("{HEADINGS}{orders}");
    let folder = folder(&[("book.dough", book.as_bytes()), ("orders.csv", orders.as_bytes())]);
    record(folder.path(), arguments, "")
}

#[test]
fn a_day_that_nobody_can_bake_takes_little_memory() {
    let many: String = (0..160).fold(HEADINGS.to_owned(), |mut lines, number| {
        let _ = writeln!(lines, "2026-11-27,Customer {number},Loaf,1000000");
        lines
    });
    let crumbs = BOOK.replace("least   8 kg", "least   2 g").replace("most   60 kg", "most   6 g");
    let few = format!("{HEADINGS}2026-11-27,Inn,Loaf,80\n");
    for (book, orders) in [(BOOK, &many), (crumbs.as_str(), &few), (crumbs.as_str(), &many)] {
        for batching in ["equal", "full"] {
            let book = book.replace("  out by 06:30\n", &format!("  out by 06:30\n  batches {batching}\n"));
            let folder = folder(&[("book.dough", book.as_bytes()), ("orders.csv", orders.as_bytes())]);
            // What cannot be baked in time is said by how the day ends.
            for (command, code) in
                [(&["day", "2026-11-27", "--json"][..], 1), (&["store", "--from", "2026-11-26"], 0)]
            {
                // Half a gigabyte of addresses, of which most is stacks and libraries.
                let output = Command::new("sh")
                    .args(["-c", "ulimit -v 500000; exec \"$0\" \"$@\"", env!("CARGO_BIN_EXE_levamen")])
                    .args(command)
                    .current_dir(folder.path())
                    .output()
                    .unwrap();
                let told = String::from_utf8_lossy(&output.stderr);
                assert_eq!(output.status.code(), Some(code), "{command:?} {batching}: {told}");
            }
        }
    }
}

#[test]
fn a_date_is_written_in_one_way() {
    let mut all = String::new();
    for command in [
        &["day", "20261127"][..],
        &["day", "0000-11-27"],
        &["day", "2026-02-30"],
        &["day", "2026-W48-5"],
        &["cost", "--date", "20261127"],
        &["store", "--from", "0000-11-27"],
        &["day", "2026-11-27", "--today", "20261127"],
    ] {
        all += &run(BOOK, "2026-11-27,Inn,Loaf,9\n", command);
    }
    insta::assert_snapshot!(all);
}

#[test]
fn orders_that_take_the_place_of_the_books_own_are_told() {
    let own = format!("{HEADINGS}2026-11-27,Inn,Loaf,900\n");
    let other = format!("{HEADINGS}2026-11-27,Shop,Loaf,14\n");
    let folder = folder(&[
        ("book.dough", BOOK.as_bytes()),
        ("orders.csv", own.as_bytes()),
        ("other.csv", other.as_bytes()),
    ]);
    let told = |orders: &[&str]| {
        let mut arguments = vec!["day", "2026-11-27", "--only", "made"];
        arguments.extend(orders.iter().flat_map(|file| ["--orders", file]));
        let output = levamen(folder.path(), &arguments, b"");
        assert_eq!(output.status.code(), Some(0));
        String::from_utf8_lossy(&output.stderr).into_owned()
    };
    insta::assert_snapshot!(told(&["other.csv"]), @"note: `./orders.csv` is not read, since `--orders` names other files in its place");
    assert_eq!(told(&[]), "");
    assert_eq!(told(&["./orders.csv"]), "");
    assert_eq!(told(&["other.csv", "orders.csv"]), "");
}
