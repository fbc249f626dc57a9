//! Doughs for reading and not for weighing, exact: a formula with all that follows from its size, and a converted dough beside
//! the dough that it was.

use levamen_balance::{Balance, BalancedItem, BalancedStage, Batch, Comparison};
use levamen_convert::Conversion;
use levamen_language::Hint;
use levamen_quantity::{Exact, Mass, Share};

use crate::cautions::{DoughCaution, cautions};
use crate::pieces::{BatchPieces, loss, to_divide};
use crate::rounding_error::RoundingError;

/// A formula at a size. Nothing in it is rounded.
#[derive(Debug, Clone)]
pub struct FormulaSheet<'b> {
    /// The balance and its size.
    pub batch: Batch<'b>,
    /// The weight of the dough.
    pub weight: Mass,
    /// The pieces that the dough is divided into, where the dough says what a piece weighs.
    pub pieces: Option<BatchPieces>,
    /// The share of the dough lost in mixing and dividing.
    pub loss: Share,
    /// What of the dough is kept for its own next batch before it is divided.
    pub kept_back: Mass,
    /// What is left to divide, once that is kept and the loss is gone.
    pub to_divide: Mass,
    /// How much of that the pieces lack; nothing where they come out.
    pub short: Mass,
    /// How to have both the pieces and what is kept, where they lack what is kept.
    pub enough_for_both: Option<Hint>,
    /// Whether most of its water comes in milk, eggs and the like: its added water, and the dough yield that counts no other,
    /// say nothing of how soft it is.
    pub is_mostly_in_others: bool,
    /// The seed of each stage; `None` where it has none.
    pub seeds: Vec<Option<StageSeed>>,
    /// What can hurt or make ill, by stage.
    pub cautions: Vec<DoughCaution>,
}

/// All seed that is weighed into a stage.
#[derive(Debug, Clone, PartialEq)]
pub struct StageSeed {
    /// What it weighs.
    pub mass: Mass,
    /// On the stage's own flour; `None` without flour.
    pub of_own_flour: Option<Share>,
}

impl<'b> FormulaSheet<'b> {
    /// What follows from a batch.
    ///
    /// # Errors
    /// [`RoundingError::TooManyPieces`], where its pieces are more than can be counted.
    pub fn new(batch: Batch<'b>) -> Result<Self, RoundingError> {
        let balance = batch.balance();
        let pieces = BatchPieces::of(&batch)?;
        let to_divide = to_divide(&batch);
        let kept_back = batch.mass(&balance.of_last_batch());
        let short = pieces.as_ref().map_or(Mass::ZERO, |pieces| pieces.short(&to_divide));
        Ok(Self {
            weight: batch.mass(&balance.weight),
            enough_for_both: BatchPieces::enough_for_both(&short, &kept_back),
            short,
            pieces,
            loss: loss(&batch),
            kept_back,
            to_divide,
            is_mostly_in_others: is_mostly_in_others(balance),
            seeds: balance.stages.iter().map(|stage| StageSeed::of(&batch, stage)).collect(),
            cautions: cautions(balance),
            batch,
        })
    }
}

impl StageSeed {
    fn of(batch: &Batch<'_>, stage: &BalancedStage) -> Option<Self> {
        let seeds = || stage.lines.iter().filter(|line| matches!(line.item, BalancedItem::Seed(_)));
        seeds().next()?;
        let seed = Share::from_fraction(seeds().map(|line| line.share.fraction()).sum::<Exact>());
        let of_own_flour = seed.fraction().checked_div(stage.own_flour.fraction());
        Some(Self { mass: batch.mass(&seed), of_own_flour: of_own_flour.map(Share::from_fraction) })
    }
}

fn is_mostly_in_others(balance: &Balance) -> bool {
    let added = balance.hydration.fraction();
    &(added + added) < balance.effective_hydration.fraction()
}

/// A conversion, and both doughs side by side.
#[derive(Debug)]
pub struct ConversionSheet {
    /// What was done.
    pub done: Conversion,
    /// The dough as it was and as it is, from the same flour.
    pub comparison: Comparison,
}

impl ConversionSheet {
    /// Sets both doughs side by side.
    #[must_use]
    pub fn new(done: Conversion) -> Self {
        let before = done.before.batch();
        let after = done.after.with_flour(before.flour().clone());
        let comparison = Comparison::new([&before, &after]);
        Self { done, comparison }
    }
}
