//! The stages of a day's doughs: which is which, the final dough split over its batches, and the seeds that they are set with.

use levamen_balance::{Balance, BalancedItem, BalancedLine, BalancedStage};
use levamen_formula::{FormulaId, StageKind};
use levamen_language::SeedFate;
use levamen_quantity::{Exact, Mass, Share};

/// A stage of a day: which dough's, and which of its stages, where each batch is a final dough of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct DayStageId {
    /// The dough.
    pub dough: FormulaId,
    /// The stage, by its place in the balance of the [`DayDough`](crate::DayDough).
    pub stage: usize,
}

/// Seed of a culture for one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct Seeding {
    /// The culture.
    pub culture: FormulaId,
    /// The stage that it goes into.
    pub id: DayStageId,
    /// How much seed.
    pub mass: Mass,
    /// Whether the same weight of ripe culture comes back before mixing.
    pub is_given_back: bool,
}

/// The seeds of a dough from so much flour, by its stages.
pub(crate) fn seeds(dough: FormulaId, balance: &Balance, flour: &Mass) -> Vec<Seeding> {
    let stages = balance.stages.iter().enumerate();
    let lines = stages.flat_map(|(stage, own)| own.lines.iter().map(move |line| (stage, line)));
    let seeding = |(stage, line): (usize, &BalancedLine)| {
        let BalancedItem::Seed(fate) = line.item else { return None };
        Some(Seeding {
            culture: line.from?,
            id: DayStageId { dough, stage },
            mass: line.share.of(flour),
            is_given_back: fate == SeedFate::GivenBack,
        })
    };
    lines.filter_map(seeding).collect()
}

/// The balance of a dough whose final dough is mixed in parts: a final dough for each, which takes its share of every
/// line. The stages before are made once for all, and the whole stays what it is.
///
/// The parts are weights of dough; only their proportions count. With less than two the balance is left as it is.
#[must_use]
pub fn split(balance: &Balance, parts: &[Mass]) -> Balance {
    let whole: Exact = parts.iter().map(Mass::grams).sum();
    let shares: Option<Vec<Exact>> = parts.iter().map(|part| part.grams().checked_div(&whole)).collect();
    let mut balance = balance.clone();
    let is_final = |stage: &BalancedStage| stage.kind == StageKind::FinalDough;
    let (Some(shares), 2.., true) = (shares, parts.len(), balance.stages.last().is_some_and(is_final)) else {
        return balance;
    };
    if let Some(last) = balance.stages.pop() {
        balance.stages.extend((1..).zip(&shares).map(|(number, share)| part(&last, share, number)));
    }
    balance
}

/// What a batch is called: `final dough, batch 2`.
pub(crate) fn batch_name(name: &str, number: usize) -> String {
    format!("{name}, batch {number}")
}

/// One batch of the final dough.
fn part(stage: &BalancedStage, share: &Exact, number: usize) -> BalancedStage {
    let of = |whole: &Share| Share::from_fraction(whole.fraction() * share);
    BalancedStage {
        name: batch_name(&stage.name, number),
        lines: stage
            .lines
            .iter()
            .map(|line| BalancedLine { share: of(&line.share), ..line.clone() })
            .collect(),
        own_flour: of(&stage.own_flour),
        flour: of(&stage.flour),
        water: of(&stage.water),
        prefermented_flour: of(&stage.prefermented_flour),
        made: of(&stage.made),
        steam: of(&stage.steam),
        given_back: of(&stage.given_back),
        left_over: of(&stage.left_over),
        taken: of(&stage.taken),
        ..stage.clone()
    }
}
