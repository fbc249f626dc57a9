//! Names, and the lines that open a block.

use nom::Parser;
use nom::branch::alt;

use crate::name::LineText;
use crate::parsers::{Read, finish, given};
use crate::problems::heading as heading_problems;
use crate::space::{is_blank, trim};
use crate::syntax_error::SyntaxError;
use crate::{Card, CardHeading, Kind, Name, StageHeading, Statement};

/// The words that a misspelt fact is likely to mean. Those that an ingredient's name is near to by chance are
/// left out.
const LIKELY: [&str; 9] =
    ["takes", "weighs", "hydration", "loses", "ripens", "holds", "density", "division", "capacity"];

/// The most bytes of a name that may be one of them misspelt.
const LONGEST: usize = "hydration".len() + 2;

/// Checks a name: it has a letter, and fits on a sheet.
pub(crate) fn name<'t>(source: LineText<'t>, text: &'t str) -> Result<Name<'t>, SyntaxError<'t>> {
    // A name of so few bytes has no more characters, and nearly every name begins with a letter.
    if text.len() > heading_problems::NAME_CHARACTERS
        && text.chars().count() > heading_problems::NAME_CHARACTERS
    {
        return Err(heading_problems::long_name(text));
    }
    if !text.chars().any(char::is_alphabetic) {
        return Err(heading_problems::no_letter(text));
    }
    Ok(source.name(text))
}

/// A name that runs to the end of its line.
fn last_name<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
    form: &str,
) -> Result<Name<'t>, SyntaxError<'t>> {
    if text.is_empty() {
        return Err(heading_problems::no_name(keyword, form));
    }
    if let Some((before, after)) = text.split_once(',') {
        let comma = text.get(before.len()..text.len() - after.len()).unwrap_or(text);
        return Err(heading_problems::comma_in_name(comma, before));
    }
    name(source, text)
}

/// `dough NAME`, `culture NAME`, `ingredient NAME`, `scale NAME`
pub(crate) fn item<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Statement<'t>, SyntaxError<'t>> {
    let name = |form| last_name(source, keyword, text, form);
    match keyword {
        "dough" => name("dough Country loaf").map(Statement::Dough),
        "culture" => name("culture mother culture").map(Statement::Culture),
        "ingredient" => name("ingredient honey").map(Statement::Ingredient),
        _ => name("scale fine scale").map(Statement::Scale),
    }
}

/// `mixer NAME` and the like.
pub(crate) fn card<'t>(
    source: LineText<'t>,
    card: &'static Card,
    keyword: &'t str,
    text: &'t str,
) -> Result<CardHeading<'t>, SyntaxError<'t>> {
    let name = last_name(source, keyword, text, card.example)?;
    Ok(CardHeading { card, name })
}

/// `stage NAME, a KIND`; the kind may be left out where the name ends with it.
pub(crate) fn stage<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<StageHeading<'t>, SyntaxError<'t>> {
    let (words, kind) = text.split_once(',').map_or((text, None), |(words, kind)| (words, Some(trim(kind))));
    let words = trim(words);
    if words.is_empty() {
        return Err(heading_problems::no_name(keyword, "stage night levain, a levain"));
    }
    let name = name(source, words)?;
    match kind {
        None => Kind::ALL
            .into_iter()
            .find(|kind| ends_with(words, kind.name()))
            .map(|kind| StageHeading { name, kind, kind_span: None })
            .ok_or_else(|| heading_problems::missing_kind(words)),
        Some("" | "a" | "an") => Err(heading_problems::missing_kind(words)),
        Some(text) => {
            let (article, kind) = stated_kind(words, text)?;
            Ok(StageHeading { name, kind, kind_span: Some(source.span(article)) })
        }
    }
}

/// `a KIND`, with the words of the kind.
fn stated_kind<'t>(name: &'t str, text: &'t str) -> Result<(&'t str, Kind), SyntaxError<'t>> {
    let words = finish(article(text))?.map(|(words, _)| trim(words));
    let Some(words) = words else {
        let named = kind_named(text).is_some();
        return Err(if named {
            heading_problems::missing_article(text, name)
        } else {
            heading_problems::unknown_kind(text)
        });
    };
    kind_named(words).map(|kind| (words, kind)).ok_or_else(|| heading_problems::unknown_kind(words))
}

/// `a` or `an`
fn article(input: &str) -> Read<'_, &str> {
    alt((given("a"), given("an"))).parse(input)
}

/// The kind that some words name.
fn kind_named(words: &str) -> Option<Kind> {
    let exact = Kind::ALL.into_iter().find(|kind| kind.name() == words);
    exact.or_else(|| Kind::ALL.into_iter().find(|kind| kind.name().split(' ').eq(words.split_whitespace())))
}

/// Whether a name ends with the words of a kind.
fn ends_with(name: &str, kind: &str) -> bool {
    let mut last = name.split_whitespace().rev();
    kind.split(' ').rev().all(|word| last.next() == Some(word))
}

/// Refuses a single word that is nearly a word of the language.
pub(crate) fn misspelt(name: &str) -> Result<(), SyntaxError<'_>> {
    let (Some(initial), false) = (name.bytes().next(), name.len() > LONGEST) else { return Ok(()) };
    if name.eq_ignore_ascii_case("leftover") {
        return Err(heading_problems::misspelt(name, "left over"));
    }
    // The first letter is seldom wrong, and telling by it alone keeps this off the common path.
    let same_initial = |keyword: &&str| keyword.as_bytes().first() == Some(&initial);
    let near = |keyword: &&str| {
        let forgiven = if keyword.len() > 7 { 2 } else { 1 };
        name.len().abs_diff(keyword.len()) <= forgiven
            && shared(name, keyword) + 2 * forgiven >= keyword.len()
            && strsim::osa_distance(name, keyword) <= forgiven
    };
    let meant = LIKELY.into_iter().filter(same_initial).filter(|_| !name.contains(is_blank)).find(near);
    meant.map_or(Ok(()), |keyword| Err(heading_problems::misspelt(name, keyword)))
}

/// How many bytes two words share at their beginnings and ends. Words of few slips share nearly all, and this is
/// quicker to tell than the slips.
fn shared(one: &str, other: &str) -> usize {
    let same = |(a, b): &(u8, u8)| a == b;
    let start = one.bytes().zip(other.bytes()).take_while(same).count();
    let end = one.bytes().rev().zip(other.bytes().rev()).take_while(same).count();
    start + end
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_slip_in_a_word_of_the_language_is_told_and_a_name_of_two_words_is_a_name() {
        for word in ["takse", "hidration", "riepns", "leftover", "weights"] {
            assert!(misspelt(word).is_err(), "{word}");
        }
        for name in ["salt", "water", "dates", "scald", "oats", "hydratio n", "hydratio  n", "holes bread"] {
            assert!(misspelt(name).is_ok(), "{name}");
        }
    }

    #[test]
    fn a_name_that_ends_with_a_kind_says_it() {
        assert!(ends_with("night levain", "levain"));
        assert!(ends_with("yesterday's old  dough", "old dough"));
        assert!(!ends_with("levain starter", "levain"));
        assert!(!ends_with("dough", "old dough"));
    }
}
