//! What is ordered twice: the orders that were read, and the line that each duplicate repeats.
//!
//! An order is a customer on a date. It has one bit for each product of the book, so a second line for the same product
//! is found at once, and exactly, in memory that grows with orders and not with their lines. The search takes up to
//! three steps, and most files need the first alone:
//!
//! 1. all files are read once with a [`DuplicateSet`] of all customers. Where it outgrows its memory, the reading is
//!    given up and begins again with half of the customers, a quarter, an eighth …;
//! 2. where it is of a part of the customers, the files are read again for each other part;
//! 3. where duplicates were found, the files are read once more for the [`FirstLines`] that they repeat.

use std::ops::ControlFlow;

use memchr::memchr_iter;
use rustc_hash::FxHashMap;

use crate::block::FileBlock;
use crate::error::FileLine;
use crate::interner::{Interner, OrderKey};
use crate::reader::{BlockConsumer, BlockReader};

/// The most bytes that are used before customers are divided among several readings.
pub(crate) const MAX_BYTES: usize = 32 << 20;

/// 256 readings.
const MOST_HALVINGS: u32 = 8;

/// One of two, four, eight, … parts of all customers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct CustomerPart {
    pub(crate) number: u32,
    /// How often the whole was halved.
    pub(crate) halvings: u32,
}

impl CustomerPart {
    /// How many parts of this size there are.
    pub(crate) fn count(self) -> u32 {
        1 << self.halvings
    }

    /// The first of parts half as large.
    pub(crate) fn halved(self) -> Self {
        Self { number: 0, halvings: self.halvings + 1 }
    }

    /// Whether it is not halved any more. Past that, memory is taken rather than still more readings.
    pub(crate) fn is_least(self) -> bool {
        self.halvings >= MOST_HALVINGS
    }

    /// The place of a customer among those of this part.
    #[inline]
    fn place(self, customer: u32) -> Option<usize> {
        let is_of_it = customer & (self.count() - 1) == self.number;
        is_of_it.then_some((customer >> self.halvings) as usize)
    }
}

/// What inserting a product of an order found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Insertion {
    /// Not inserted before.
    New,
    /// Inserted before.
    Present,
    /// Of a customer that another reading watches.
    OtherPart,
}

/// The products of the orders that were read.
#[derive(Debug, Clone)]
pub(crate) struct DuplicateSet {
    part: CustomerPart,
    /// For each date, for each customer of the part: 1 + the number of the order, or 0.
    orders: Vec<Vec<u32>>,
    /// A bit for each product, order after order.
    bits: Vec<u64>,
    /// Words of `bits` for an order.
    stride: usize,
    /// How many bytes are used.
    bytes: usize,
}

impl DuplicateSet {
    pub(crate) fn new(products: usize, part: CustomerPart) -> Self {
        Self { part, orders: Vec::new(), bits: Vec::new(), stride: products.div_ceil(64), bytes: 0 }
    }

    /// How many bytes are used.
    pub(crate) fn bytes(&self) -> usize {
        self.bytes
    }

    /// Inserts a product of an order, and says whether it was there.
    #[inline]
    pub(crate) fn insert(&mut self, date: u32, customer: u32, product: u32) -> Insertion {
        let Some(place) = self.part.place(customer) else { return Insertion::OtherPart };
        let order = self.orders.get(date as usize).and_then(|day| day.get(place)).copied().unwrap_or(0);
        let order = if order == 0 { self.begin(date as usize, place) } else { order };
        let at = (order as usize - 1) * self.stride + product as usize / 64;
        let Some(bits) = self.bits.get_mut(at) else {
            debug_assert!(false, "an order without bits: {order}");
            return Insertion::New;
        };
        let bit = 1 << (product % 64);
        let is_present = *bits & bit != 0;
        *bits |= bit;
        if is_present { Insertion::Present } else { Insertion::New }
    }

    /// The first line of an order.
    #[cold]
    fn begin(&mut self, date: usize, place: usize) -> u32 {
        if self.orders.len() <= date {
            self.orders.resize(date + 1, Vec::new());
        }
        let order = u32::try_from(self.bits.len() / self.stride.max(1) + 1).unwrap_or(u32::MAX);
        self.bits.resize(self.bits.len() + self.stride, 0);
        self.bytes += self.stride * 8;
        if let Some(day) = self.orders.get_mut(date) {
            let before = day.len();
            day.resize(before.max(place + 1), 0);
            self.bytes += (day.len() - before) * 4;
            if let Some(own) = day.get_mut(place) {
                *own = order;
            }
        }
        order
    }
}

/// Looks for the first line of some orders.
pub(crate) struct FirstLines<'t> {
    interner: &'t mut Interner,
    wanted: FxHashMap<OrderKey, Option<FileLine>>,
    missing: usize,
    line: u64,
}

impl<'t> FirstLines<'t> {
    /// Keys are numbers of the register.
    pub(crate) fn new(interner: &'t mut Interner, keys: &[OrderKey]) -> Self {
        let wanted: FxHashMap<OrderKey, Option<FileLine>> = keys.iter().map(|key| (*key, None)).collect();
        let missing = wanted.len();
        Self { interner, wanted, missing, line: 1 }
    }

    /// The first line of an order; `None` where the files have changed since.
    pub(crate) fn of(&self, key: OrderKey) -> Option<FileLine> {
        self.wanted.get(&key).cloned().flatten()
    }
}

impl BlockConsumer for FirstLines<'_> {
    fn take(&mut self, block: &FileBlock, reader: &mut BlockReader) -> ControlFlow<()> {
        if let Some(headings) = block.headings {
            self.line = 1 + headings;
        }
        reader.intern(self.interner);
        for row in &reader.rows {
            let Some((date, customer)) = reader.interned(row) else { continue };
            let Some(first @ None) = self.wanted.get_mut(&(date, customer, row.product)) else { continue };
            let before = block.bytes.get(..row.at as usize).unwrap_or_default();
            let number = self.line + memchr_iter(b'\n', before).count() as u64;
            *first = Some(FileLine { file: block.file.name.clone(), number });
            self.missing -= 1;
        }
        self.line += reader.lines;
        if self.missing == 0 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn parts_together_are_a_set(
            lines in prop::collection::vec((0_u32..4, 0_u32..60, 0_u32..130), 0..2000),
            halvings in 0_u32..4,
        ) {
            let whole = CustomerPart { number: 0, halvings };
            let mut parts: Vec<DuplicateSet> =
                (0..whole.count()).map(|number| DuplicateSet::new(130, CustomerPart { number, halvings })).collect();
            let mut plain = HashSet::new();
            for (date, customer, product) in lines {
                let looks: Vec<Insertion> = parts.iter_mut().map(|seen| seen.insert(date, customer, product)).collect();
                let watched: Vec<Insertion> = looks.into_iter().filter(|look| *look != Insertion::OtherPart).collect();
                let expected = if plain.insert((date, customer, product)) { Insertion::New } else { Insertion::Present };
                prop_assert_eq!(watched, vec![expected]);
            }
        }
    }

    #[test]
    fn an_order_takes_a_word_for_64_products_however_many_lines_it_has() {
        let mut seen = DuplicateSet::new(200, CustomerPart::default());
        for product in 0..200 {
            assert_eq!(seen.insert(0, 0, product), Insertion::New);
        }
        assert_eq!(seen.bytes(), 4 * 8 + 4);
    }
}
