//! The pieces of a dough over its batches.

use levamen_bakery::ProductId;
use levamen_quantity::{Exact, Mass};

use crate::day::DayDough;
use crate::pieces::exact;

/// Pieces of one product out of one batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Portion {
    /// The product.
    pub product: ProductId,
    /// How many pieces.
    pub pieces: u64,
}

/// For each batch of a dough, the pieces that come out of it: the products one after the other, each batch filled before
/// the next. Of what is left of a batch a whole piece is made where at least half of one is there; the last batch takes
/// what remains, so that all pieces are there.
#[must_use]
pub fn allot(dough: &DayDough) -> Vec<Vec<Portion>> {
    let mut left: Vec<(ProductId, u64, Exact)> = dough
        .need
        .pieces
        .iter()
        .filter(|pieces| pieces.made > 0)
        .filter_map(|pieces| {
            Some((pieces.product, pieces.made, pieces.dough.grams().checked_div(&exact(pieces.made))?))
        })
        .collect();
    left.reverse();
    let count = dough.batches.parts.len();
    let sold: Exact = dough.need.pieces.iter().map(|pieces| pieces.dough.grams()).sum();
    let parts = dough.batches.parts.iter().enumerate();
    // No pieces come out of a dough that weighs nothing.
    let Some(share) = sold.checked_div(dough.mass().grams()) else { return vec![Vec::new(); count] };
    parts.map(|(index, part)| fill(&mut left, part, &share, index + 1 == count)).collect()
}

/// Fills one batch, of which `share` is for pieces.
fn fill(left: &mut Vec<(ProductId, u64, Exact)>, part: &Mass, share: &Exact, is_last: bool) -> Vec<Portion> {
    let mut room = part.grams() * share;
    let mut portions = Vec::new();
    while let Some((product, waiting, piece)) = left.last_mut() {
        let fits = room.checked_div(piece).map_or(0, |count| nearest(&count));
        let pieces = if is_last { *waiting } else { fits.min(*waiting) };
        if pieces == 0 {
            break;
        }
        portions.push(Portion { product: *product, pieces });
        room = &room - &(&*piece * &exact(pieces));
        *waiting -= pieces;
        if *waiting > 0 {
            break;
        }
        left.pop();
    }
    portions
}

/// The nearest whole number that is not negative.
fn nearest(number: &Exact) -> u64 {
    let rounded = (&(&(number + number) + &Exact::ONE) / &Exact::from(2)).floor();
    rounded.to_i64().and_then(|whole| u64::try_from(whole).ok()).unwrap_or(u64::MAX)
}
