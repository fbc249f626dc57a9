//! Ingredients and what they are made of.

use levamen_quantity::{Density, Share};

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
    /// Whether it is water and nothing else: what hydration counts as added water.
    #[must_use]
    pub fn is_water(&self) -> bool {
        !self.is_flour && self.water == Share::WHOLE
    }
}
