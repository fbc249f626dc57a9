//! What is wanted on which day.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::{Pieces, ProductId};

/// Pieces of each product, day by day.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Demand {
    days: BTreeMap<Date, Vec<Pieces>>,
}

impl Demand {
    /// The days on which anything is wanted, in order.
    pub fn days(&self) -> impl Iterator<Item = Date> {
        self.days.keys().copied()
    }

    /// How much of a product is wanted on a day.
    #[must_use]
    pub fn of(&self, day: Date, product: ProductId) -> Pieces {
        let pieces = self.days.get(&day).and_then(|products| products.get(product.index()));
        pieces.copied().unwrap_or_default()
    }

    /// Everything that is wanted on a day, in the order of the products: only what is more than nothing.
    pub fn on(&self, day: Date) -> impl Iterator<Item = (ProductId, Pieces)> {
        let products = self.days.get(&day).map(Vec::as_slice).unwrap_or_default();
        ProductId::all().zip(products.iter().copied()).filter(|(_, pieces)| *pieces > Pieces::NONE)
    }

    /// Everything that is wanted, day by day.
    pub fn iter(&self) -> impl Iterator<Item = (Date, ProductId, Pieces)> {
        self.days().flat_map(|day| self.on(day).map(move |(product, pieces)| (day, product, pieces)))
    }

    /// Adds pieces of a product.
    pub fn add(&mut self, day: Date, product: ProductId, pieces: Pieces) {
        if pieces == Pieces::NONE {
            return;
        }
        let products = self.days.entry(day).or_default();
        if products.len() <= product.index() {
            products.resize(product.index() + 1, Pieces::NONE);
        }
        if let Some(own) = products.get_mut(product.index()) {
            *own += pieces;
        }
    }
}
