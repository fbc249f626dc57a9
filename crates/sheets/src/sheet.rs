//! The bench sheet: every weight of a batch as its scale can show it.
//!
//! This is the one place where figures are rounded, and they are rounded once. What is weighed goes through
//! controlled rounding; what is not weighed follows from it by adding up. `docs/rounding.md` says what holds.

mod cells;
mod dilution;
mod enough;
mod lines;
mod stages;

use levamen_balance::Batch;
use levamen_formula::Scale;
use levamen_language::Hint;
use levamen_quantity::{Mass, Share};

use crate::cautions::{DoughCaution, cautions};
use crate::pieces::{BatchPieces, loss};
use crate::rounding_error::RoundingError;
use crate::scales::that_weigh;
use crate::weight::Weight;

pub use lines::{
    Dilution, LineSheet, LineSource, RoundingChange, SheetRow, SmallWeightRemedy, StageSheet, mixed,
};

/// What to weigh for a batch. A [`Weight`] is a whole number of some scale's divisions, or a sum of such; a [`Mass`] is
/// exact.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The dough's name.
    pub dough: String,
    /// The whole flour, unrounded: what percentages are percentages of.
    pub flour: Mass,
    /// The weight of the dough.
    pub batch: Weight,
    /// The finest division that anything in it was weighed with; `None` where nothing was.
    pub division: Option<Mass>,
    /// The stages in the order in which they are made; the final dough is the last.
    pub stages: Vec<StageSheet>,
    /// What is weighed in all stages together, ingredient by ingredient; seeds and pieces of dough as such.
    pub overall: Vec<SheetRow>,
    /// The pieces that the dough is divided into, where the dough says what a piece weighs.
    pub pieces: Option<BatchPieces>,
    /// The share of the dough lost in mixing and dividing.
    pub loss: Share,
    /// What of the dough is kept for its own next batch before it is divided: as much as it took of its last; nothing
    /// where it took none.
    pub kept_back: Weight,
    /// What is left to divide, once that is kept and the loss is gone: a share of a weight, which nobody weighs, and so
    /// exact. `None` on a day's sheet, where each product has a loss of its own.
    pub to_divide: Option<Mass>,
    /// How much of that the pieces lack; nothing where they come out.
    pub short: Mass,
    /// How to have both the pieces and what is kept, where they lack what is kept.
    pub enough_for_both: Option<Hint>,
    /// The largest change that rounding made to what is weighed; `None` where it changed nothing.
    pub largest_change: Option<RoundingChange>,
    /// What the baker noted for the whole dough.
    pub notes: Vec<String>,
    /// What can hurt or make ill, by stage.
    pub cautions: Vec<DoughCaution>,
}

impl Sheet {
    /// Rounds a batch to a bakery's scales; with none that can weigh, to [`Scale::usual`].
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a weight has more digits than a scale can show.
    pub fn new(batch: &Batch<'_>, scales: &[Scale]) -> Result<Self, RoundingError> {
        let balance = batch.balance();
        let scales = that_weigh(scales);
        let weighed = cells::weigh(batch, &scales)?;
        let mut stages = enough::fill(batch, weighed, &scales)?;
        lines::mark_divisions(&mut stages);
        for stage in &mut stages {
            dilution::offer(stage, &scales)?;
        }
        let (mixed, kept_back) = (enough::mixed_weight(&stages)?, enough::kept_back(&stages)?);
        let (pieces, loss) = (BatchPieces::of(batch)?, loss(batch));
        let to_divide = loss.rest().of(&mixed.try_sub(kept_back)?.as_exact());
        let short = pieces.as_ref().map_or(Mass::ZERO, |pieces| pieces.short(&to_divide));
        Ok(Self {
            dough: balance.dough.clone(),
            flour: batch.flour().clone(),
            batch: mixed,
            division: lines::mixed(&stages).filter_map(|stage| stage.division.clone()).min(),
            overall: lines::in_all(&stages)?,
            enough_for_both: BatchPieces::enough_for_both(&short, &kept_back.as_exact()),
            short,
            pieces,
            loss,
            kept_back,
            to_divide: Some(to_divide),
            largest_change: lines::largest_change(&stages, batch.flour()),
            notes: balance.notes.clone(),
            cautions: cautions(balance),
            stages,
        })
    }

    /// The sheet of a dough of which so much is kept for the next day, whatever it takes itself. How many pieces that
    /// leaves is the day's to say.
    #[must_use]
    pub(crate) fn keeping(self, kept_back: Weight) -> Self {
        Self { kept_back, to_divide: None, ..self }
    }
}
