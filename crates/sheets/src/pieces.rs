//! How many pieces a batch is divided into.

use levamen_balance::{Batch, StatedSize};
use levamen_language::{AskedField, Hint};
use levamen_quantity::{Exact, Mass, Share};
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::rounding_error::RoundingError;

/// The pieces that a batch gives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BatchPieces {
    /// How many.
    pub count: u64,
    /// What one weighs before baking.
    pub piece: Mass,
    /// Whether the count is what the dough asks for; at another size it is as many whole pieces as there is dough
    /// for.
    pub as_asked: bool,
}

impl BatchPieces {
    /// What all of them weigh.
    #[must_use]
    pub fn mass(&self) -> Mass {
        Mass::from_grams(self.piece.grams() * &Exact::from(Decimal::from(self.count)))
    }

    /// How much they lack where so much is left to divide.
    #[must_use]
    pub fn short(&self, to_divide: &Mass) -> Mass {
        (&self.mass() - to_divide).max(Mass::ZERO)
    }

    /// How to have both the pieces and what is kept for the next batch, where that takes what the pieces lack.
    pub(crate) fn enough_for_both(short: &Mass, kept_back: &Mass) -> Option<Hint> {
        let is_taken = *short != Mass::ZERO && *kept_back != Mass::ZERO;
        is_taken.then(|| Hint::of_field("`", AskedField::WithOldDough, "` makes enough for both"))
    }

    /// The pieces of a batch; `None` where its dough does not say what a piece weighs.
    ///
    /// # Errors
    /// [`RoundingError::TooManyPieces`], where they are more than can be counted.
    pub fn of(batch: &Batch<'_>) -> Result<Option<Self>, RoundingError> {
        let StatedSize::Make { flour, pieces: Some((count, piece)), .. } = &batch.balance().size else {
            return Ok(None);
        };
        let as_asked = flour == batch.flour();
        let count = if as_asked { Some(*count) } else { whole_pieces(&to_divide(batch), piece)? };
        Ok(count.map(|count| Self { count, piece: piece.clone(), as_asked }))
    }
}

/// The share of the dough that the baker expects to lose in mixing and dividing.
#[must_use]
pub fn loss(batch: &Batch<'_>) -> Share {
    match &batch.balance().size {
        StatedSize::Make { loss, .. } => loss.clone(),
        StatedSize::Open | StatedSize::Weights { .. } => Share::default(),
    }
}

/// What is left to divide: of the dough, once a piece for its own next batch is kept, what is not lost.
#[must_use]
pub fn to_divide(batch: &Batch<'_>) -> Mass {
    let balance = batch.balance();
    let kept = batch.mass(&balance.of_last_batch());
    loss(batch).rest().of(&(&batch.mass(&balance.weight) - &kept))
}

/// How many whole pieces there is dough for; `None` of pieces that weigh nothing.
fn whole_pieces(dough: &Mass, piece: &Mass) -> Result<Option<u64>, RoundingError> {
    let Some(count) = dough.grams().checked_div(piece.grams()) else { return Ok(None) };
    // Where less is left than is kept back there is not one.
    let whole = count.floor().max(Exact::ZERO).to_decimal().and_then(|count| count.to_u64());
    whole.map(Some).ok_or(RoundingError::TooManyPieces)
}
