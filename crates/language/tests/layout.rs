//! What holds of the layout and of the parser, whatever the text.

#[path = "common/untidy.rs"]
mod untidy;

use levamen_language::{Parsed, Problem, Span, TextId, Tree, format, parse, tidy};
use proptest::prelude::*;

fn read(text: &str) -> Parsed<'_> {
    parse(TextId(0), text)
}

/// Every place that a tree and its problems name directly.
fn places(parsed: &Parsed<'_>) -> Vec<Span> {
    let lines = parsed.tree.lines.iter().flat_map(|line| [Some(line.span), line.comment]).flatten();
    let labels = |problem: &Problem| {
        problem.primary.iter().chain(&problem.secondary).map(|label| label.place.span).collect::<Vec<_>>()
    };
    lines.chain(parsed.problems.iter().flat_map(labels)).collect()
}

/// The comments of a text, in order.
fn comments<'t>(tree: &Tree<'_>, text: &'t str) -> Vec<&'t str> {
    tree.lines.iter().filter_map(|line| line.comment).map(|comment| comment.of(text)).collect()
}

/// Words that a text of the language is made of, right and wrong.
#[rustfmt::skip]
const SCRAPS: &[&str] = &[
    "dough ", "culture ", "ingredient ", "scale ", "overall\n", "stage ", "final dough\n", "make ",
    "takes ", "weighs ", "hydration ", "left over ", "loses ", "ripens ", "from ", "this dough", "note ",
    "holds ", "density ", "source ", "division ", "capacity ", "flour", "water", "levain", "a ", "an ",
    "poolish", ", ", ",", "rest", "%", " g", "kg", " lb", "ml", " h", "min", " °C", "of the ", "of its ",
    "of ", " to ", " at ", "pieces ", "losing ", "given back", "stays", "kg/l", "1", "20", "1.5", "1,5",
    "½", "-", "1e5", "NaN", ".", "#", "\n", "\n  ", "\n    ", "\n\t", "\r\n", " ", "\u{a0}", "\u{202e}",
    "º", "Dough ",
];

/// Texts of such words in any order, so that chance finds the corners of the language.
fn scraps() -> impl Strategy<Value = String> {
    let scrap = prop_oneof![4 => prop::sample::select(SCRAPS).prop_map(str::to_owned), 1 => any::<char>().prop_map(String::from)];
    prop::collection::vec(scrap, 0..60).prop_map(|scraps| scraps.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn an_untidy_text_is_right_and_says_the_same_when_tidy(text in untidy::text()) {
        let parsed = read(&text);
        prop_assert_eq!(&parsed.problems, &vec![]);
        let tidied = format(&parsed.tree, &text);
        let again = read(&tidied);
        prop_assert_eq!(&again.problems, &vec![], "{}", tidied);
        prop_assert!(parsed.tree.same_as(&text, &again.tree, &tidied), "{}", tidied);
        prop_assert_eq!(comments(&parsed.tree, &text), comments(&again.tree, &tidied));
        prop_assert_eq!(&format(&again.tree, &tidied), &tidied);
    }

    #[test]
    fn a_tidy_text_is_even(text in untidy::text()) {
        let tidied = tidy(TextId(0), &text).unwrap();
        prop_assert!(tidied.ends_with('\n') && !tidied.ends_with("\n\n"));
        prop_assert!(!tidied.contains("\n\n\n") && !tidied.starts_with('\n'));
        prop_assert!(tidied.lines().all(|line| line.trim_end() == line));
        let unusual = tidied.contains(['\t', '\r', '\u{a0}']);
        prop_assert!(!unusual);
    }

    #[test]
    fn any_text_is_read_and_its_places_stand_in_it(text in prop_oneof![scraps(), any::<String>()]) {
        let parsed = read(&text);
        for span in places(&parsed) {
            prop_assert!(text.get(span.start as usize..span.end as usize).is_some(), "{:?}", span);
        }
        let _ = format(&parsed.tree, &text);
    }

    #[test]
    fn what_is_read_without_a_problem_is_the_same_when_tidy(text in scraps()) {
        let parsed = read(&text);
        if parsed.problems.is_empty() {
            let tidied = format(&parsed.tree, &text);
            let again = read(&tidied);
            prop_assert_eq!(&again.problems, &vec![], "{}", tidied);
            prop_assert!(parsed.tree.same_as(&text, &again.tree, &tidied), "{}", tidied);
            prop_assert_eq!(&format(&again.tree, &tidied), &tidied);
        }
    }
}

#[test]
fn an_untidy_dough_and_its_canonical_layout() {
    let text = include_str!("layout/untidy.dough");
    let tidied = tidy(TextId(0), text).unwrap();
    insta::assert_snapshot!(tidied);
    assert_eq!(tidy(TextId(0), &tidied).unwrap(), tidied);
}

#[test]
fn a_text_with_mistakes_is_left_alone() {
    let problems = tidy(TextId(0), "dough Tin loaf\noverall\n  flour 100\n").unwrap_err();
    assert_eq!(problems.len(), 1);
}
