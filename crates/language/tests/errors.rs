//! What is said of each mistake: every file in `errors/` is a text with mistakes, and its snapshot what a baker
//! is reported.

mod common;

use std::fs;

use levamen_language::{TextId, parse};

#[test]
fn mistakes() {
    insta::glob!("errors/*.dough", |path| {
        let text = fs::read_to_string(path).unwrap();
        let problems = parse(TextId(0), &text).problems;
        assert!(!problems.is_empty(), "no mistake in {}", path.display());
        insta::with_settings!({ omit_expression => true }, {
            insta::assert_snapshot!(common::draw(&text, &problems));
        });
    });
}
