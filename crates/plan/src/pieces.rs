//! From the pieces that are ordered to those that are made.

use levamen_bakery::{Product, ProductId, Spare};
use levamen_quantity::{Exact, Mass};

/// The pieces of one product on one day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pieces {
    /// The product.
    pub product: ProductId,
    /// How many are ordered.
    pub ordered: u64,
    /// How many are made, spares included, in whole heads where the divider works so.
    pub made: u64,
    /// The dough that they take, what is lost in mixing and dividing included.
    pub dough: Mass,
}

impl Pieces {
    /// The pieces to make of a product of which so many are ordered; nothing is ordered, nothing is made.
    pub(crate) fn of(id: ProductId, product: &Product, ordered: u64) -> Self {
        let spare = match &product.spare {
            Spare::None => 0,
            Spare::Share(share) => ceiling(&(share.fraction() * &exact(ordered))),
            Spare::Pieces(pieces) => u64::from(*pieces),
        };
        let wanted = if ordered == 0 { 0 } else { ordered.saturating_add(spare) };
        let made = match product.head.map(u64::from) {
            Some(head) if head > 0 => wanted.div_ceil(head).saturating_mul(head),
            _ => wanted,
        };
        let net = product.piece.dough().grams() * &exact(made);
        let dough = net.checked_div(product.losing.rest().fraction()).unwrap_or(net);
        Self { product: id, ordered, made, dough: Mass::from_grams(dough) }
    }
}

/// A count as an exact number.
pub(crate) fn exact(count: u64) -> Exact {
    // No order comes near the half of what a word counts; one that did would still not wrap.
    Exact::from(i64::try_from(count).unwrap_or(i64::MAX))
}

/// The least whole number that is not below a number that is not negative.
pub(crate) fn ceiling(number: &Exact) -> u64 {
    let whole = -&(-number).floor();
    whole.to_i64().and_then(|whole| u64::try_from(whole).ok()).unwrap_or(u64::MAX)
}
