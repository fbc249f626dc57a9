//! Ingredients in stock: one of the built-in pantry is read when somebody first asks what it is made of.
//!
//! A book names a few of the built-in pantry's many ingredients, and a command that reads all of them would spend most of
//! its time on it.

use std::sync::OnceLock;

use levamen_language::{Name, Span, TextId, parse};
use memchr::memmem;

use crate::collect::collect;
use crate::ingredient::Ingredient;

/// The figures that every book starts from; each names its source.
const BUILT_IN: &str = include_str!("../data/pantry.dough");

/// The id of the built-in pantry, which no other text has.
pub(crate) const BUILT_IN_ID: TextId = TextId(u32::MAX);

/// How the heading of an ingredient begins.
const HEADING: &str = "ingredient ";

/// An ingredient, read or still to be read.
#[derive(Debug, Clone)]
pub(crate) struct PantryEntry {
    name: &'static str,
    /// Its heading and lines; nothing where it was read with its text.
    words: &'static str,
    /// In a box: most are never read.
    read: OnceLock<Box<Ingredient>>,
}

impl PantryEntry {
    /// What it is made of.
    pub(crate) fn get(&self) -> &Ingredient {
        self.read.get_or_init(|| {
            let parsed = parse(BUILT_IN_ID, self.words);
            let items = collect(BUILT_IN_ID, &parsed.tree);
            Box::new(items.ingredients.first().map_or_else(|| Ingredient::plain(self.name), Ingredient::read))
        })
    }
}

impl From<Ingredient> for PantryEntry {
    fn from(ingredient: Ingredient) -> Self {
        Self { name: "", words: "", read: OnceLock::from(Box::new(ingredient)) }
    }
}

/// Every ingredient of the built-in pantry by its name, none of them read.
pub(crate) fn built_in() -> impl Iterator<Item = (Name<'static>, PantryEntry)> {
    let starts = memmem::find_iter(BUILT_IN.as_bytes(), b"\ningredient ").map(|index| index + 1);
    let mut starts = starts.peekable();
    let entries = std::iter::from_fn(move || {
        let start = starts.next()?;
        Some((start, starts.peek().copied().unwrap_or(BUILT_IN.len())))
    });
    entries.filter_map(|(start, end)| {
        let words = BUILT_IN.get(start..end)?;
        let text = words.strip_prefix(HEADING)?.lines().next()?.trim_end();
        let at = u32::try_from(start + HEADING.len()).ok()?;
        let span = Span::new(at, at + u32::try_from(text.len()).ok()?);
        Some((Name { text, span }, PantryEntry { name: text, words, read: OnceLock::new() }))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entry_by_entry_the_built_in_pantry_is_what_it_is_as_a_whole() {
        let parsed = parse(BUILT_IN_ID, BUILT_IN);
        assert_eq!(parsed.problems, []);
        let items = collect(BUILT_IN_ID, &parsed.tree);
        assert!(items.formulas.is_empty() && items.scales.is_empty());
        let whole: Vec<_> =
            items.ingredients.iter().map(|block| (block.name, Ingredient::read(block))).collect();
        let one_by_one: Vec<_> = built_in().map(|(name, stock)| (name, stock.get().clone())).collect();
        assert_eq!(one_by_one, whole);
        assert!(whole.len() > 100);
    }
}
