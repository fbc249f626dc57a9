//! Faults in the facts of cards.

use super::{Fault, listed, quoted};
use crate::{Form, outline::Section};

/// A fact that begins as one of the form does and goes on otherwise.
pub(crate) fn form<'t>(at: &'t str, form: &Form) -> Fault<'t> {
    Fault::new("fact-form", at, format!("`{}` is not a whole fact", quoted(at)))
        .label("not the form")
        .help(format!("write it like `{}`", form.example))
}

/// A line of a card that begins with none of its facts.
pub(crate) fn unknown<'t>(at: &'t str, section: Section, keywords: &[&'static str]) -> Fault<'t> {
    Fault::new("unknown-fact", at, format!("`{}` is no fact of {}", quoted(at), section.name()))
        .label("not known here")
        .nearest(at, keywords.iter().copied())
        .help(format!("in {} stand {}", section.name(), listed(keywords, "and")))
}

/// A number that lacks its unit.
pub(crate) fn unit<'t>(at: &'t str, example: &str) -> Fault<'t> {
    let words = quoted(at);
    Fault::new(super::unit::MISSING, at, format!("`{words}` has no unit"))
        .label(format!("{words} what?"))
        .help(format!("write it like `{example}`"))
}

/// A time of day in another form.
pub(crate) fn clock(at: &str) -> Fault<'_> {
    Fault::new("clock-form", at, format!("`{}` is no time of day", quoted(at)))
        .label("hours and minutes are wanted")
        .help("write it from 00:00 to 23:59, such as 04:30 or 18:00")
}

/// A number of things that is not whole, or too large.
pub(crate) fn count(at: &str, most: u32) -> Fault<'_> {
    Fault::new("whole-count", at, format!("`{}` cannot be counted", quoted(at)))
        .label("a whole number is wanted")
        .help(format!("write a whole number from 1 to {most}"))
}

/// A span that ends before it begins.
pub(crate) fn order<'t>(at: &'t str, least: &str, most: &str, unit: &str) -> Fault<'t> {
    Fault::new("span-order", at, format!("`{}` ends before it begins", quoted(at)))
        .label("the least comes first")
        .help(format!("write {most} to {least} {unit}").trim_end().to_owned())
}

/// A word that is no kind of yeast.
pub(crate) fn yeast<'t>(at: &'t str, kinds: &[&'static str]) -> Fault<'t> {
    Fault::new("unknown-yeast", at, format!("`{}` is no kind of yeast", quoted(at)))
        .label("not a kind")
        .nearest(at, kinds.iter().copied())
        .help(format!("a yeast is {}", listed(kinds, "or")))
        .help("how strong any other is can be said alone: `replaces 2.5 times as much fresh yeast`")
}
