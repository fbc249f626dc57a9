//! Seeds of cultures that a day's stages are set with.

use levamen_balance::{Balance, BalancedItem};
use levamen_formula::FormulaId;
use levamen_language::SeedFate;
use levamen_quantity::{Exact, Mass};

/// Seed of a culture for one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct Seeding {
    /// The culture.
    pub culture: FormulaId,
    /// The dough.
    pub dough: FormulaId,
    /// The stage's name.
    pub stage: String,
    /// How much seed.
    pub mass: Mass,
    /// Whether the same weight of ripe culture comes back before mixing.
    pub is_given_back: bool,
}

/// The seeds of a dough from so much flour.
pub(crate) fn of(dough: FormulaId, balance: &Balance, flour: &Exact) -> Vec<Seeding> {
    let stages = balance.stages.iter();
    let seeds = stages.flat_map(|stage| stage.lines.iter().map(move |line| (stage, line)));
    seeds
        .filter_map(|(stage, line)| {
            let BalancedItem::Seed(fate) = line.item else { return None };
            Some(Seeding {
                culture: line.from?,
                dough,
                stage: stage.name.clone(),
                mass: Mass::from_grams(line.share.fraction() * flour),
                is_given_back: fate == SeedFate::GivenBack,
            })
        })
        .collect()
}
