//! What an edit did to a book.

use crate::formula::FormulaId;
use crate::pantry::IngredientId;

/// What an edit did to a book. Every list is in the order of the ids, each id once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Effect {
    /// Doughs and cultures that are new, or that say something else than before or elsewhere.
    pub formulas: Vec<FormulaId>,
    /// Doughs and cultures that name an ingredient which is made of something else than before.
    pub reweighed: Vec<FormulaId>,
    /// Doughs and cultures that are gone.
    pub gone: Vec<FormulaId>,
    /// Ingredients that are new, gone or not what they were.
    pub ingredients: Vec<IngredientId>,
    /// Whether the scales are others.
    pub scales: bool,
    /// Whether the problems are others, or stand elsewhere.
    pub problems: bool,
}

impl Effect {
    pub(super) fn sort(&mut self) {
        for ids in [&mut self.formulas, &mut self.reweighed, &mut self.gone] {
            ids.sort_unstable();
            ids.dedup();
        }
        self.ingredients.sort_unstable();
        self.ingredients.dedup();
    }
}
