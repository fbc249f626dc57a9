//! What is wanted on which day, and the sums that it comes from.

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_bakery::ProductId;
use rustc_hash::FxHashMap;

use crate::PieceSum;
use crate::interner::OrderKey;

/// Pieces of each product, day by day.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Demand {
    days: BTreeMap<Date, Vec<PieceSum>>,
}

impl Demand {
    /// The days on which anything is wanted, in order.
    pub fn days(&self) -> impl Iterator<Item = Date> {
        self.days.keys().copied()
    }

    /// How much of a product is wanted on a day.
    #[must_use]
    pub fn of(&self, day: Date, product: ProductId) -> PieceSum {
        let pieces = self.days.get(&day).and_then(|products| products.get(product.index()));
        pieces.copied().unwrap_or_default()
    }

    /// Everything that is wanted on a day, in the order of the products: only what is more than nothing.
    pub fn on(&self, day: Date) -> impl Iterator<Item = (ProductId, PieceSum)> {
        let products = self.days.get(&day).map(Vec::as_slice).unwrap_or_default();
        ProductId::all().zip(products.iter().copied()).filter(|(_, pieces)| *pieces > PieceSum::NONE)
    }

    /// Everything that is wanted, day by day.
    pub fn iter(&self) -> impl Iterator<Item = (Date, ProductId, PieceSum)> {
        self.days().flat_map(|day| self.on(day).map(move |(product, pieces)| (day, product, pieces)))
    }

    /// Adds pieces of a product.
    pub fn add(&mut self, day: Date, product: ProductId, pieces: PieceSum) {
        if pieces == PieceSum::NONE {
            return;
        }
        let products = self.days.entry(day).or_default();
        if products.len() <= product.index() {
            products.resize(product.index() + 1, PieceSum::NONE);
        }
        if let Some(own) = products.get_mut(product.index()) {
            *own += pieces;
        }
    }
}

/// Sums of pieces.
#[derive(Debug, Clone)]
pub(crate) struct Totals {
    products: usize,
    /// Pieces of each product for the first date, then for the second, and so on by their numbers.
    pieces: Vec<PieceSum>,
    by_customer: Option<FxHashMap<OrderKey, PieceSum>>,
}

impl Totals {
    /// Totals of so many products, and of each customer where that is asked for.
    pub(crate) fn new(products: usize, by_customer: bool) -> Self {
        Self { products, pieces: Vec::new(), by_customer: by_customer.then(FxHashMap::default) }
    }

    /// Adds a line.
    #[inline]
    pub(crate) fn add(&mut self, key: OrderKey, pieces: PieceSum) {
        let at = self.place(key);
        match self.pieces.get_mut(at) {
            Some(sum) => *sum += pieces,
            None => self.begin(at, pieces),
        }
        if let Some(by_customer) = &mut self.by_customer {
            *by_customer.entry(key).or_default() += pieces;
        }
    }

    /// The first line of a date that is later than all before.
    #[cold]
    fn begin(&mut self, at: usize, pieces: PieceSum) {
        self.pieces.resize(at, PieceSum::NONE);
        self.pieces.push(pieces);
    }

    /// Takes a line back that was added.
    pub(crate) fn take_back(&mut self, key: OrderKey, pieces: PieceSum) {
        let at = self.place(key);
        let by_customer = self.by_customer.as_mut().and_then(|all| all.get_mut(&key));
        for sum in self.pieces.get_mut(at).into_iter().chain(by_customer) {
            *sum -= pieces;
        }
    }

    fn place(&self, (date, _, product): OrderKey) -> usize {
        date as usize * self.products + product as usize
    }

    /// The sums of each date in the order of their numbers.
    pub(crate) fn by_date(&self) -> impl Iterator<Item = &[PieceSum]> {
        self.pieces.chunks(self.products.max(1))
    }

    /// The sums of each customer, in no order; none where they were not asked for.
    pub(crate) fn by_customer(&self) -> impl Iterator<Item = (OrderKey, PieceSum)> {
        self.by_customer.iter().flatten().map(|(key, pieces)| (*key, *pieces))
    }
}
