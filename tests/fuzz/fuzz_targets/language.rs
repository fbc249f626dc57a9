//! Any bytes are decoded, parsed and laid out without a panic; places stand in the text; and what is read without a
//! problem says the same in canonical layout, which lays out to itself.

#![no_main]

use levamen_language::{Label, Problem, TextId, decode, format, parse};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = decode(TextId(0), bytes) else { return };
    let parsed = parse(TextId(0), text);
    for problem in &parsed.problems {
        labels(problem).for_each(|label| stands_in(label, text));
    }
    let tidied = format(&parsed.tree, text);
    if parsed.problems.is_empty() {
        let again = parse(TextId(0), &tidied);
        assert!(again.problems.is_empty(), "a problem in the canonical layout:\n{tidied}\n{:?}", again.problems);
        assert!(parsed.tree.same_as(text, &again.tree, &tidied), "another tree:\n{text}\n{tidied}");
        assert_eq!(format(&again.tree, &tidied), tidied, "not canonical");
    }
});

fn labels(problem: &Problem) -> impl Iterator<Item = &Label> {
    problem.primary.iter().chain(&problem.secondary)
}

fn stands_in(label: &Label, text: &str) {
    let span = label.place.span;
    assert!(text.get(span.start as usize..span.end as usize).is_some(), "{span:?} is no place in the text");
}
