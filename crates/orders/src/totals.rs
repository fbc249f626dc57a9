//! Sums of pieces by date and product, and by customer where that is asked for.

use rustc_hash::FxHashMap;

use crate::Pieces;

/// Date, customer and product by number: what may be ordered once.
pub(crate) type Key = (u32, u32, u32);

/// Sums of pieces.
#[derive(Debug, Clone)]
pub(crate) struct Totals {
    products: usize,
    /// Pieces of each product for the first date, then for the second, and so on by their numbers.
    pieces: Vec<Pieces>,
    by_customer: Option<FxHashMap<Key, Pieces>>,
}

impl Totals {
    /// Totals of so many products, and of each customer where that is asked for.
    pub(crate) fn new(products: usize, by_customer: bool) -> Self {
        Self { products, pieces: Vec::new(), by_customer: by_customer.then(FxHashMap::default) }
    }

    /// Adds a line.
    #[inline]
    pub(crate) fn add(&mut self, key: Key, pieces: Pieces) {
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
    fn begin(&mut self, at: usize, pieces: Pieces) {
        self.pieces.resize(at, Pieces::NONE);
        self.pieces.push(pieces);
    }

    /// Takes a line back that was added.
    pub(crate) fn take_back(&mut self, key: Key, pieces: Pieces) {
        let at = self.place(key);
        let by_customer = self.by_customer.as_mut().and_then(|all| all.get_mut(&key));
        for sum in self.pieces.get_mut(at).into_iter().chain(by_customer) {
            *sum -= pieces;
        }
    }

    fn place(&self, (date, _, product): Key) -> usize {
        date as usize * self.products + product as usize
    }

    /// The sums of each date in the order of their numbers.
    pub(crate) fn by_date(&self) -> impl Iterator<Item = &[Pieces]> {
        self.pieces.chunks(self.products.max(1))
    }

    /// The sums of each customer, in no order; none where they were not asked for.
    pub(crate) fn by_customer(&self) -> impl Iterator<Item = (Key, Pieces)> {
        self.by_customer.iter().flatten().map(|(key, pieces)| (*key, *pieces))
    }
}
