//! Doughs without a balance: what is said of each.

use std::fmt::Write as _;

use levamen_balance::Balancer;
use levamen_formula::Book;
use levamen_language::{Problem, TextId};

/// Every problem of a text, drawn with the words that each label points at.
fn problems(text: &str) -> String {
    let (book, mut problems) = Book::read(&[&[(TextId(0), text)]]);
    let mut balancer = Balancer::new(&book);
    for (id, entry) in book.entries() {
        if entry.formula.is_some() {
            problems.extend(balancer.balance(id).err().map(<[Problem]>::to_vec).unwrap_or_default());
        }
    }
    let mut drawn = String::new();
    for problem in problems {
        let _ = writeln!(drawn, "{}: {}", problem.code, problem.message);
        for label in problem.primary.iter().chain(&problem.secondary) {
            let _ = writeln!(drawn, "  at `{}`: {}", label.place.span.of(text), label.text);
        }
        for words in problem.notes {
            let _ = writeln!(drawn, "  note: {words}");
        }
        for words in problem.help {
            let _ = writeln!(drawn, "  help: {words}");
        }
    }
    drawn
}

/// A snapshot for each dough of the folder: its file name says what is wrong with it.
#[test]
fn every_trouble_is_explained() {
    insta::glob!("trouble/*.dough", |path| {
        let text = std::fs::read_to_string(path).expect("a text");
        let drawn = problems(&text);
        assert!(!drawn.is_empty(), "{} has no problem", path.display());
        insta::assert_snapshot!(format!("{text}\n----\n{drawn}"));
    });
}
