//! An ingredient and what it is made of, and the key by which names are compared.

use std::borrow::Cow;

use levamen_language::{IngredientPart, Said, SlotValue, Spoils, Statement, YeastKind};
use levamen_quantity::{Density, Exact, Mass, MassUnit, Share, Volume, VolumeUnit};
use unicode_normalization::UnicodeNormalization;

use crate::collect::DraftBlock;

/// Which ingredient of a [`Pantry`](crate::Pantry).
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
}
