//! The pieces that are ordered for a day, and those that are made for them.

use std::collections::BTreeMap;

use levamen_bakery::{Product, ProductId, Spare};
use levamen_quantity::{Exact, Mass};

/// How many pieces of each product are ordered for one day.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct DayOrders {
    pieces: BTreeMap<ProductId, u64>,
}

impl DayOrders {
    /// Pieces by product; those of one product are added up, up to the most that a machine word counts.
    #[must_use]
    pub fn from_pieces(pieces: impl IntoIterator<Item = (ProductId, u64)>) -> Self {
        let mut orders = Self::default();
        for (product, count) in pieces {
            let sum = orders.pieces.entry(product).or_default();
            *sum = sum.saturating_add(count);
        }
        orders.pieces.retain(|_, count| *count > 0);
        orders
    }

    /// The products that are ordered, and how many pieces of each, in the order of the bakery's products.
    pub fn iter(&self) -> impl Iterator<Item = (ProductId, u64)> {
        self.pieces.iter().map(|(product, count)| (*product, *count))
    }

    /// Whether nothing is ordered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }
}

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
    /// The pieces to make of a product of which so many are ordered; nothing is ordered, nothing is made. `None` of a product
    /// all of whose dough is lost, which no card can say.
    pub(crate) fn of(id: ProductId, product: &Product, ordered: u64) -> Option<Self> {
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
        let dough = net.checked_div(product.losing.rest().fraction())?;
        Some(Self { product: id, ordered, made, dough: Mass::from_grams(dough) })
    }
}

/// A count as an exact number.
pub(crate) fn exact(count: u64) -> Exact {
    Exact::from(count)
}

/// The least whole number that is not below a number that is not negative.
pub(crate) fn ceiling(number: &Exact) -> u64 {
    let whole = -&(-number).floor();
    whole.to_i64().and_then(|whole| u64::try_from(whole).ok()).unwrap_or(u64::MAX)
}
