//! What is solved before the dough that takes from it.

use levamen_formula::{Composition, Pantry};
use levamen_quantity::Exact;

use crate::figures::{Balance, Size};

/// A balanced culture, dough or batch built apart, as something to take from.
#[derive(Debug, Clone)]
pub(crate) struct Mixture {
    pub balance: Balance,
    pub composition: Composition,
}

impl Mixture {
    /// The mixture of a balance; `None` of nothing.
    pub fn new(balance: Balance, pantry: &Pantry) -> Option<Self> {
        let weights = balance.overall.iter().map(|row| (row.ingredient, row.share.fraction().clone()));
        let composition = Composition::from_weights(weights, pantry)?;
        Some(Self { balance, composition })
    }

    /// What its own weights come to, in grams; `None` where it is stated in shares alone.
    pub fn grams(&self) -> Option<Exact> {
        match &self.balance.size {
            Size::Weights { flour } => Some(self.balance.weight.of(flour).grams().clone()),
            Size::Open | Size::Make { .. } => None,
        }
    }
}
