//! What is ordered for one day.

use std::collections::BTreeMap;

use levamen_bakery::ProductId;

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
