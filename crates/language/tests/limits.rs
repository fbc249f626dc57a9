//! Texts beyond what is read: each gets one clear problem, at once.

mod common;

use std::time::{Duration, Instant};

use levamen_language::{MAX_BYTES, MAX_LINES, Statement, TextId, decode, parse};

/// What no text takes, however busy the machine: quadratic time on these would be minutes.
const FAR_TOO_LONG: Duration = Duration::from_secs(60);

/// The problems of a text as a baker sees them.
fn told(text: &str) -> String {
    common::draw(text, &parse(TextId(0), text).problems)
}

#[test]
fn bytes_that_are_no_text() {
    let problem = decode(TextId(0), b"dough Tin loaf\noverall\n  cr\xe8me 5 %\n").unwrap_err();
    insta::assert_snapshot!(common::draw("", &[problem]));
}

#[test]
fn bytes_that_are_too_many() {
    let problem = decode(TextId(0), &vec![b' '; 100 << 20]).unwrap_err();
    insta::assert_snapshot!(common::draw("", &[problem]));
}

#[test]
fn a_text_with_a_byte_order_mark_is_read() {
    let text = decode(TextId(0), b"\xef\xbb\xbfdough Tin loaf\noverall\n  flour 100 %\n").unwrap();
    assert_eq!(parse(TextId(0), text).problems, []);
}

#[test]
fn a_text_that_is_too_long() {
    let text = " ".repeat(MAX_BYTES + 1);
    assert_eq!(parse(TextId(0), &text).tree.lines, []);
    insta::assert_snapshot!(told(&text));
}

#[test]
fn a_text_of_too_many_lines() {
    let text = "\n".repeat(MAX_LINES + 1);
    assert_eq!(parse(TextId(0), &text).tree.lines, []);
    insta::assert_snapshot!(told(&text));
}

#[test]
fn more_problems_than_anybody_reads() {
    let text = format!("dough Tin loaf\noverall\n{}", "  water\n".repeat(1000));
    let problems = parse(TextId(0), &text).problems;
    assert_eq!(problems.len(), 201);
    insta::assert_snapshot!(common::draw(&text, &problems[199..]));
}

/// A dough whose stages are nested this deep.
fn nested(levels: usize) -> String {
    let stage = |level| {
        let indent = " ".repeat(level);
        format!("{indent}stage build {level}, a levain\n{indent} note warm\n")
    };
    (0..levels).map(stage).fold("dough Deep\n".to_owned(), |text, stage| text + &stage)
}

#[test]
fn thirty_two_stages_in_each_other_are_read_and_one_more_is_not() {
    assert_eq!(parse(TextId(0), &nested(32)).problems, []);
    insta::assert_snapshot!(told(&nested(33)));
}

#[test]
fn thousands_of_stages_in_each_other_are_one_problem_and_take_no_time() {
    let deep = nested(5_000);
    let start = Instant::now();
    let parsed = parse(TextId(0), &deep);
    assert_eq!(parsed.problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["too-nested"]);
    assert!(parsed.tree.lines.iter().any(|line| line.statement == Statement::Unread));
    // The space before ten thousand of them is more text than is read at all.
    let deeper = nested(10_000);
    let parsed = parse(TextId(0), &deeper);
    assert_eq!(parsed.problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["too-long"]);
    assert!(start.elapsed() < FAR_TOO_LONG);
}

#[test]
fn a_block_of_very_many_lines_takes_no_time() {
    let lines: Vec<String> = (0..100_000).map(|number| format!("  flour {number} kind 1 g")).collect();
    let text = format!("dough Long\noverall\n{}", lines.join("\n"));
    let start = Instant::now();
    assert_eq!(parse(TextId(0), &text).problems, []);
    assert!(start.elapsed() < FAR_TOO_LONG);
}
