//! How many pieces a batch is divided into.

use levamen_balance::{Batch, Size};
use levamen_quantity::{Mass, Share};

/// The pieces that a batch gives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pieces {
    /// How many.
    pub count: u64,
    /// What one weighs before baking.
    pub piece: Mass,
    /// Whether the count is what the dough asks for; at another size it is as many whole pieces as there is dough
    /// for.
    pub as_asked: bool,
}

impl Pieces {
    /// The pieces of a batch; `None` where its dough does not say what a piece weighs.
    #[must_use]
    pub fn of(batch: &Batch<'_>) -> Option<Self> {
        let Size::Make { flour, pieces: Some((count, piece)), .. } = &batch.balance().size else {
            return None;
        };
        let as_asked = flour == batch.flour();
        let count = if as_asked { *count } else { whole_pieces(&usable(batch), piece)? };
        Some(Self { count, piece: piece.clone(), as_asked })
    }
}

/// The share of the dough that the baker expects to lose in mixing and dividing.
pub(crate) fn loss(batch: &Batch<'_>) -> Share {
    match &batch.balance().size {
        Size::Make { loss, .. } => loss.clone(),
        Size::Open | Size::Weights { .. } => Share::default(),
    }
}

/// The dough that is left to divide after the loss.
fn usable(batch: &Batch<'_>) -> Mass {
    loss(batch).rest().of(&batch.mass(&batch.balance().weight))
}

fn whole_pieces(dough: &Mass, piece: &Mass) -> Option<u64> {
    let count = dough.grams().checked_div(piece.grams())?.floor().to_i64()?;
    u64::try_from(count).ok()
}
