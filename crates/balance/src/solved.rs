//! What is solved: the equations of a formula with their values, and the mixtures that other formulas take from.

use std::sync::Arc;

use levamen_formula::{Composition, Equations, Formula, Pantry, StageId};
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

use crate::figures::{Balance, StatedSize};
use crate::linear::Values;

/// How deep separate batches may be nested.
pub(crate) const MAX_SEPARATE_DEPTH: usize = 16;

/// A formula's equations and what they come to.
pub(crate) struct Solved<'f> {
    pub formula: &'f Formula,
    pub equations: Equations,
    pub values: Values,
}

/// What is solved before the formula that takes from it.
#[derive(Debug, Default)]
pub(crate) struct Parts {
    pub separate: FxHashMap<StageId, Mixture>,
    pub last_batch: Option<Composition>,
}

/// A balanced culture, dough or separate batch, as something to take from.
#[derive(Debug, Clone)]
pub(crate) struct Mixture {
    pub balance: Arc<Balance>,
    pub composition: Composition,
}

impl Mixture {
    /// The mixture of a balance; `None` of nothing.
    pub fn new(balance: Balance, pantry: &Pantry) -> Option<Self> {
        let weights = balance.overall.iter().map(|row| (row.ingredient, row.share.fraction().clone()));
        let composition = Composition::from_weights(weights, pantry)?;
        Some(Self { balance: Arc::new(balance), composition })
    }

    /// What its own weights come to, in grams; `None` where it is stated in shares alone.
    pub fn grams(&self) -> Option<Exact> {
        match &self.balance.size {
            StatedSize::Weights { flour } => Some(self.balance.weight.of(flour).grams().clone()),
            StatedSize::Open | StatedSize::Make { .. } => None,
        }
    }
}
