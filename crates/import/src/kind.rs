//! What kind of stage it is, told from its name: a table says nothing else of it.

use levamen_formula::key;
use levamen_language::{Kind, TextId, parse};

/// Words of the trade in the names of stages, and the kind that they tell (common practice, no source). The first
/// that fits counts, so `sourdough` is not taken for a sour of rye.
const TELLING: [(&str, Kind); 21] = [
    ("poolish", Kind::Poolish),
    ("biga", Kind::Biga),
    ("sponge", Kind::Sponge),
    ("old dough", Kind::OldDough),
    ("pâte fermentée", Kind::OldDough),
    ("pate fermentee", Kind::OldDough),
    ("sourdough", Kind::Levain),
    ("rye sour", Kind::RyeSour),
    ("sour", Kind::RyeSour),
    ("levain", Kind::Levain),
    ("starter", Kind::Levain),
    ("build", Kind::Levain),
    ("brew", Kind::Brew),
    ("pre-ferment", Kind::PreFerment),
    ("preferment", Kind::PreFerment),
    ("soaker", Kind::Soaker),
    ("soak", Kind::Soaker),
    ("scald", Kind::Scald),
    ("scalded", Kind::Scald),
    ("autolyse", Kind::Autolyse),
    ("autolysis", Kind::Autolyse),
];

/// What stands after `stage`: the name, the kind where the name does not end with it, and a comment where nothing
/// in the name tells it.
pub(crate) fn heading(name: &str, has_flour: bool) -> String {
    if ends_with_kind(name) {
        return name.to_owned();
    }
    match told(&key(name)) {
        Some(kind) => format!("{name}, {}", with_article(kind)),
        None => format!("{name}, {}  # The name does not tell what it is.", with_article(guessed(has_flour))),
    }
}

/// Whether a name needs no kind after it: the language is asked.
fn ends_with_kind(name: &str) -> bool {
    let text = format!("dough a\nstage {name}\n  flour 1 g\n");
    parse(TextId::default(), &text).problems.is_empty()
}

/// The kind that the words of a name tell.
fn told(key: &str) -> Option<Kind> {
    let spaced = |words: &str| format!(" {} ", words.replace(|letter: char| !letter.is_alphanumeric(), " "));
    let name = spaced(key);
    TELLING.iter().find(|(words, _)| name.contains(&spaced(words))).map(|(_, kind)| *kind)
}

/// The kind of a stage whose name does not tell: one with flour is likely to ferment.
const fn guessed(has_flour: bool) -> Kind {
    if has_flour { Kind::PreFerment } else { Kind::Soaker }
}

fn with_article(kind: Kind) -> String {
    let article = if kind.name().starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {}", kind.name())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_kind_is_told_by_the_words_of_the_name() {
        assert_eq!(told("night poolish"), Some(Kind::Poolish));
        assert_eq!(told("sourdough, first stage"), Some(Kind::Levain));
        assert_eq!(told("basic sour"), Some(Kind::RyeSour));
        assert_eq!(told("pre-ferment"), Some(Kind::PreFerment));
        assert_eq!(told("pâte fermentée"), Some(Kind::OldDough));
        assert_eq!(told("soaker 2"), Some(Kind::Soaker));
        assert_eq!(told("freshening"), None);
        assert_eq!(told("brewer's mash"), None);
    }

    #[test]
    fn the_kind_is_written_where_the_name_does_not_end_with_it() {
        assert_eq!(heading("night poolish", true), "night poolish");
        assert_eq!(heading("Poolish", true), "Poolish, a poolish");
        assert_eq!(heading("autolysis", true), "autolysis, an autolyse");
        assert_eq!(
            heading("freshening", true),
            "freshening, a pre-ferment  # The name does not tell what it is."
        );
        assert_eq!(heading("grains", false), "grains, a soaker  # The name does not tell what it is.");
    }
}
