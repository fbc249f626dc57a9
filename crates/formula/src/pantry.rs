//! Ingredients and what they are made of.

use std::borrow::Cow;
use std::sync::Arc;

use levamen_language::{IngredientPart, Said, SlotValue, Spoils, Statement, YeastKind};
use levamen_quantity::{Density, Exact, Mass, MassUnit, Share, Volume, VolumeUnit};
use rustc_hash::FxHashMap;
use unicode_normalization::UnicodeNormalization;

use crate::built_in::PantryEntry;
use crate::collect::DraftBlock;

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
    /// Whether it is a flour of rye.
    pub is_rye: bool,
    /// What is said of it as baker's yeast; `None` of all that is none.
    pub yeast: Option<YeastFact>,
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
    /// Whether it is said to spoil or to keep; [`Ingredient::spoils`] answers where nothing is said.
    pub spoiling: Option<Spoils>,
    /// Where the figures come from.
    pub source: Option<String>,
}

/// What an ingredient says of itself as baker's yeast: at least one of the two.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct YeastFact {
    /// Of which kind it is.
    pub kind: Option<YeastKind>,
    /// How much fresh yeast does the work of one part of it.
    pub replaces: Option<Exact>,
}

impl Ingredient {
    /// Something of which nothing is known but its name.
    #[must_use]
    pub fn plain(name: &str) -> Self {
        Self {
            name: name.to_owned(),
            is_flour: false,
            is_rye: false,
            yeast: None,
            water: Share::default(),
            fat: Share::default(),
            sugar: Share::default(),
            salt: Share::default(),
            density: None,
            spoiling: None,
            source: None,
        }
    }

    /// Reads what an ingredient is made of.
    pub(crate) fn read(block: &DraftBlock<'_>) -> Self {
        let mut read = Self::plain(block.name.text);
        for line in &block.lines {
            match &line.statement {
                Statement::IsFlour => read.is_flour = true,
                Statement::Holds(holds) => {
                    let share = Share::from_percent(holds.percent.clone());
                    match holds.part {
                        IngredientPart::Water => read.water = share,
                        IngredientPart::Fat => read.fat = share,
                        IngredientPart::Sugar => read.sugar = share,
                        IngredientPart::Salt => read.salt = share,
                    }
                }
                Statement::Density(density) => {
                    let kilograms = Mass::from_unit(density.figure.clone(), MassUnit::Kilogram);
                    let litre = Volume::from_unit(Exact::ONE, VolumeUnit::Litre);
                    read.density = Density::from_mass_of(&kilograms, &litre);
                }
                Statement::Spoils(spoils) => read.spoiling = Some(*spoils),
                Statement::Source(words) => read.source = Some(words.text.to_owned()),
                Statement::Said(said) => read.works(said),
                _ => {}
            }
        }
        read
    }

    /// Takes in what it does beside what it holds.
    fn works(&mut self, said: &Said<'_>) {
        match (said.form.keyword(), said.values.as_slice()) {
            ("rye flour", _) => (self.is_flour, self.is_rye) = (true, true),
            ("yeast", [SlotValue::Yeast(kind)]) => self.yeast.get_or_insert_default().kind = Some(*kind),
            ("replaces", [SlotValue::Number(parts)]) => {
                self.yeast.get_or_insert_default().replaces = Some(parts.clone());
            }
            _ => {}
        }
    }

    /// Whether the lines of a dough are read alike with the one and the other.
    pub(crate) fn reads_like(&self, other: &Self) -> bool {
        let read = |own: &Self| (own.is_flour, own.is_water());
        self.name == other.name && read(self) == read(other) && self.density == other.density
    }

    /// Whether the one and the other are made of the same. What a flour is of and what a yeast can do move no weight.
    pub(crate) fn weighs_like(&self, other: &Self) -> bool {
        let (source, yeast) = (self.source.clone(), self.yeast.clone());
        *self == Self { source, yeast, is_rye: self.is_rye, ..other.clone() }
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
    /// By id; `None` for one that was taken out.
    ingredients: Vec<Option<Arc<PantryEntry>>>,
    by_name: FxHashMap<Arc<str>, IngredientId>,
    /// The ids of those that were taken out, for the next that come.
    free: Vec<IngredientId>,
}

impl Pantry {
    /// Adds an ingredient, or overrides the one of the same name.
    pub fn put(&mut self, ingredient: Ingredient) -> IngredientId {
        self.share(key(&ingredient.name).into(), Arc::new(ingredient.into()))
    }

    /// Adds or overrides an ingredient that is kept elsewhere too, by its name as it is compared.
    pub(crate) fn share(&mut self, key: Arc<str>, ingredient: Arc<PantryEntry>) -> IngredientId {
        let id = self.find_key(&key).unwrap_or_else(|| {
            let next = IngredientId(u32::try_from(self.ingredients.len()).unwrap_or(u32::MAX));
            let id = self.free.pop().unwrap_or(next);
            self.by_name.insert(key, id);
            id
        });
        match self.ingredients.get_mut(id.0 as usize) {
            Some(slot) => *slot = Some(ingredient),
            None => self.ingredients.push(Some(ingredient)),
        }
        id
    }

    /// Takes the ingredient of a name out; the next that is added may get its id.
    pub fn remove(&mut self, name: &str) -> Option<IngredientId> {
        let id = self.by_name.remove(key(name).as_ref())?;
        self.free.push(id);
        self.ingredients.get_mut(id.0 as usize)?.take().map(|_| id)
    }

    /// The ingredient of a name; capitals and the width of spaces do not matter.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<IngredientId> {
        self.find_key(&key(name))
    }

    /// The ingredient of a name as it is compared.
    pub(crate) fn find_key(&self, key: &str) -> Option<IngredientId> {
        self.by_name.get(key).copied()
    }

    /// An ingredient of this pantry.
    #[must_use]
    pub fn get(&self, id: IngredientId) -> Option<&Ingredient> {
        self.ingredients.get(id.0 as usize)?.as_deref().map(PantryEntry::get)
    }

    /// Every ingredient, in the order of the ids: for a book as it is read, that in which they became known.
    pub fn iter(&self) -> impl Iterator<Item = (IngredientId, &Ingredient)> {
        (0..)
            .map(IngredientId)
            .zip(&self.ingredients)
            .filter_map(|(id, known)| Some((id, known.as_deref()?.get())))
    }

    /// The names of all ingredients.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.iter().map(|(_, ingredient)| ingredient.name.as_str())
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
    let lower = name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    // A letter and its accent may be one character or two (Unicode Standard Annex 15): they are one name.
    Cow::Owned(if lower.is_ascii() { lower } else { lower.nfc().collect() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_without_capitals_and_wide_spaces() {
        assert_eq!(key("rye flour"), "rye flour");
        assert_eq!(key("Rye  Flour "), "rye flour");
        assert_eq!(key(" ŽITNÁ\tmouka"), "žitná mouka");
        // Composed and decomposed, as a keyboard here and a file name there write them.
        assert_eq!(key("Cre\u{300}me"), key("Cr\u{e8}me"));
        assert_eq!(key("Z\u{30c}ITNA\u{301} mouka"), "žitná mouka");
    }

    #[test]
    fn a_later_entry_overrides() {
        let mut pantry = Pantry::default();
        let first = pantry.put(Ingredient::plain("duck egg"));
        let second = pantry.put(Ingredient { water: Share::WHOLE, ..Ingredient::plain("Duck egg") });
        assert_eq!(first, second);
        assert!(pantry.get(first).unwrap().is_water());
    }

    #[test]
    fn an_entry_that_is_taken_out_leaves_its_id_to_the_next() {
        let mut pantry = Pantry::default();
        let first = pantry.put(Ingredient::plain("duck egg"));
        let second = pantry.put(Ingredient::plain("goose egg"));
        assert_eq!(pantry.remove("Duck  egg"), Some(first));
        assert_eq!(
            (pantry.remove("duck egg"), pantry.find("duck egg"), pantry.get(first)),
            (None, None, None)
        );
        assert_eq!(pantry.names().collect::<Vec<_>>(), ["goose egg"]);
        assert_eq!(pantry.put(Ingredient::plain("quail egg")), first);
        assert_eq!(pantry.find("goose egg"), Some(second));
    }
}
