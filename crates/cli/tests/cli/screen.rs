//! Text of any origin meets a terminal: nothing of it steers the screen or forges a line.

use std::fs;

use insta::assert_snapshot;

use crate::run::{folder, levamen, record};

const BOOK: &[u8] = b"dough Loaf\n\noverall\n  white flour  100 %\n  water         65 %\n\nproduct Loaf\n  made of  Loaf\n  piece    500 g\n\nsupply white flour\n  pack   25 kg\n  price  20 for 25 kg\n";

/// Escapes, C1, bidirectional and zero-width characters, a bell, a line end.
const ODD: [&str; 7] = ["\u{1b}[2K", "\u{9b}2J", "\u{202e}", "\u{200b}", "\u{7}", "\u{ad}", "\u{2028}"];

fn has_odd(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    text.chars().any(|character| {
        (character.is_control() && !matches!(character, '\n' | '\t' | '\r'))
            || matches!(character, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{2069}')
    })
}

#[test]
fn no_argument_file_name_or_order_steers_the_screen() {
    for odd in ODD {
        let name = format!("Al{odd}der");
        let orders =
            format!("date,customer,product,quantity\n2026-11-27,{name},Loaf,3\n2026-11-27,B,L{odd}oaf,3\n");
        let book = folder(&[("book.dough", BOOK), ("orders.csv", orders.as_bytes())]);
        fs::write(
            book.path().join(format!("b{odd}.dough")),
            "dough B\n\noverall\n  flour 100 %\n  water 65\n",
        )
        .unwrap();
        let runs: [&[&str]; 9] = [
            &["cost", "--date", "2026-11-27"],
            &["cost", "--date", "2026-11-27", "--json"],
            &["day", "2026-11-27"],
            &["check"],
            &["check", "--json"],
            &["formula", &name],
            &["list", "--book", &name],
            &["water", "Loaf", "--room", &name],
            &[&name],
        ];
        for run in runs {
            let output = levamen(book.path(), run, b"");
            assert!(!has_odd(&output.stdout), "{run:?}\n{}", String::from_utf8_lossy(&output.stdout));
            assert!(!has_odd(&output.stderr), "{run:?}\n{}", String::from_utf8_lossy(&output.stderr));
        }
    }
}

#[test]
fn a_line_end_in_a_name_forges_no_line() {
    let book = folder(&[
        ("book.dough", BOOK),
        ("orders.csv", b"date,customer,product,quantity\n2026-11-27,\"Alder\nerror: all is lost\",Loaf,3\n"),
    ]);
    assert_snapshot!(record(book.path(), &["cost", "--date", "2026-11-27"], ""));
    assert_snapshot!(record(book.path(), &["formula", "A\nerror: forged"], ""));
    assert_snapshot!(record(book.path(), &["check\nerror: forged"], ""));
    assert_snapshot!(record(book.path(), &["list", "--book", "no\nwhere"], ""));
}

#[test]
fn a_name_is_one_name_however_its_accents_are_written() {
    let text = "ingredient cr\u{e8}me\n  holds  60 % water\n\ndough Pain br\u{e8}ve\n\noverall\n  flour  100 %\n  cre\u{300}me  60 %\n";
    let book = folder(&[("a.dough", text.as_bytes())]);
    assert_snapshot!(record(book.path(), &["formula", "Pain bre\u{300}ve"], ""));
    let twice = format!("{text}\ndough Pain bre\u{300}ve\n\noverall\n  flour  100 %\n  water  60 %\n");
    let book = folder(&[("a.dough", twice.as_bytes())]);
    assert_snapshot!(record(book.path(), &["check"], ""));
}

#[test]
fn a_customer_is_one_customer_however_the_accents_are_written() {
    let orders = "date,customer,product,quantity\n2026-11-27,Caf\u{e9} Alder,Loaf,3\n2026-11-27,Cafe\u{301} Alder,Loaf,2\n";
    let book = folder(&[("book.dough", BOOK), ("orders.csv", orders.as_bytes())]);
    assert_snapshot!(record(book.path(), &["cost", "--date", "2026-11-27"], ""));
}
