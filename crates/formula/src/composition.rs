//! What a finished mixture is made of, by weight.

use levamen_quantity::Exact;

use crate::{IngredientId, Pantry};

/// What one gram of a culture, a dough or a separate batch is made of.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Composition {
    parts: Vec<(IngredientId, Exact)>,
    flour: Exact,
    water: Exact,
    is_open: bool,
}

impl Composition {
    /// A composition that is still to be found: it may hold these ingredients, and nothing is known of how much.
    #[must_use]
    pub fn open(ingredients: &[IngredientId]) -> Self {
        let parts = ingredients.iter().map(|id| (*id, Exact::ZERO)).collect();
        Self { parts, is_open: true, ..Self::default() }
    }

    /// The composition of a mixture from the weights of its ingredients; `None` where they weigh nothing.
    #[must_use]
    pub fn from_weights(
        weights: impl IntoIterator<Item = (IngredientId, Exact)>,
        pantry: &Pantry,
    ) -> Option<Self> {
        let mut parts: Vec<(IngredientId, Exact)> =
            weights.into_iter().filter(|(_, weight)| !weight.is_zero()).collect();
        let whole: Exact = parts.iter().map(|(_, weight)| weight).sum();
        for (_, weight) in &mut parts {
            // Each goes into the products of every dough that takes from it.
            *weight = weight.checked_div(&whole)?.reduced();
        }
        let sum_where = |wanted: fn(&crate::Ingredient) -> bool| {
            let of_kind = parts.iter().filter(|(id, _)| pantry.get(*id).is_some_and(wanted));
            of_kind.map(|(_, share)| share).sum::<Exact>()
        };
        let (flour, water) = (sum_where(|known| known.is_flour), sum_where(crate::Ingredient::is_water));
        (!parts.is_empty()).then_some(Self { parts, flour, water, is_open: false })
    }

    /// Whether it is still to be found; its figures are then nothing.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        self.is_open
    }

    /// Grams of each ingredient in a gram.
    #[must_use]
    pub fn parts(&self) -> &[(IngredientId, Exact)] {
        &self.parts
    }

    /// Grams of an ingredient in a gram.
    #[must_use]
    pub fn part(&self, id: IngredientId) -> Option<&Exact> {
        self.parts.iter().find(|(own, _)| *own == id).map(|(_, share)| share)
    }

    /// Grams of flour in a gram.
    #[must_use]
    pub const fn flour(&self) -> &Exact {
        &self.flour
    }

    /// Grams of added water in a gram.
    #[must_use]
    pub const fn water(&self) -> &Exact {
        &self.water
    }
}
