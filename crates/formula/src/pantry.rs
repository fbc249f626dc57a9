//! Ingredients and what they are made of.

use std::borrow::Cow;

use levamen_quantity::{Density, Share};
use rustc_hash::FxHashMap;

/// Which ingredient of a [`Pantry`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct IngredientId(pub u32);

/// Something that is weighed, and what it is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ingredient {
    /// Its name as it was first written.
    pub name: String,
    /// Whether it counts in the 100 % of flour.
    pub is_flour: bool,
    /// Water by weight; not counted in a flour, by convention of the trade.
    pub water: Share,
    /// Fat by weight.
    pub fat: Share,
    /// Sugars by weight.
    pub sugar: Share,
    /// Salt by weight.
    pub salt: Share,
    /// What a volume of it weighs, where it is measured so.
    pub density: Option<Density>,
    /// Where the figures come from.
    pub source: Option<String>,
}

impl Ingredient {
    /// Something of which nothing is known but its name.
    #[must_use]
    pub fn plain(name: &str) -> Self {
        Self {
            name: name.to_owned(),
            is_flour: false,
            water: Share::default(),
            fat: Share::default(),
            sugar: Share::default(),
            salt: Share::default(),
            density: None,
            source: None,
        }
    }

    /// Whether it is water and nothing else: what hydration counts as added water.
    #[must_use]
    pub fn is_water(&self) -> bool {
        !self.is_flour && self.water == Share::WHOLE
    }
}

/// The ingredients that a book knows.
#[derive(Debug, Clone, Default)]
pub struct Pantry {
    ingredients: Vec<Ingredient>,
    by_name: FxHashMap<String, IngredientId>,
}

impl Pantry {
    /// Adds an ingredient, or overrides the one of the same name.
    pub fn put(&mut self, ingredient: Ingredient) -> IngredientId {
        let key = key(&ingredient.name).into_owned();
        if let Some(&id) = self.by_name.get(&key)
            && let Some(known) = self.ingredients.get_mut(id.0 as usize)
        {
            *known = ingredient;
            return id;
        }
        let id = IngredientId(u32::try_from(self.ingredients.len()).unwrap_or(u32::MAX));
        self.ingredients.push(ingredient);
        self.by_name.insert(key, id);
        id
    }

    /// The ingredient of a name; capitals and the width of spaces do not matter.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<IngredientId> {
        self.by_name.get(key(name).as_ref()).copied()
    }

    /// An ingredient of this pantry.
    #[must_use]
    pub fn get(&self, id: IngredientId) -> Option<&Ingredient> {
        self.ingredients.get(id.0 as usize)
    }

    /// Every ingredient, in the order in which they became known.
    pub fn iter(&self) -> impl Iterator<Item = (IngredientId, &Ingredient)> {
        (0..).map(IngredientId).zip(&self.ingredients)
    }

    /// The names of all ingredients.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.ingredients.iter().map(|ingredient| ingredient.name.as_str())
    }
}

/// A name as it is compared: small letters, single spaces.
#[must_use]
pub fn key(name: &str) -> Cow<'_, str> {
    let plain = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    let mut after_space = true;
    let folded = name.bytes().all(|byte| {
        let fits = plain(byte) || (byte == b' ' && !after_space);
        after_space = byte == b' ';
        fits
    });
    if folded && !after_space {
        return Cow::Borrowed(name);
    }
    Cow::Owned(name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_without_capitals_and_wide_spaces() {
        assert_eq!(key("rye flour"), "rye flour");
        assert_eq!(key("Rye  Flour "), "rye flour");
        assert_eq!(key(" ŽITNÁ\tmouka"), "žitná mouka");
    }

    #[test]
    fn a_later_entry_overrides() {
        let mut pantry = Pantry::default();
        let first = pantry.put(Ingredient::plain("duck egg"));
        let second = pantry.put(Ingredient { water: Share::WHOLE, ..Ingredient::plain("Duck egg") });
        assert_eq!(first, second);
        assert!(pantry.get(first).unwrap().is_water());
    }
}
