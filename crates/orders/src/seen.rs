//! Which product of which order was seen, in memory that grows with orders and not with their lines.
//!
//! An order is a customer on a date. It has one bit for each product of the book, so a second line for the same product
//! is found at once, and exactly. Where the orders are more than fit, only a part of the customers is watched in one
//! reading; the others are left to further readings.

/// The most bytes that are used before customers are parted among several readings.
pub(crate) const MAX_BYTES: usize = 32 << 20;

/// 256 readings.
const MOST_HALVINGS: u32 = 8;

/// One of two, four, eight, … parts of all customers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Part {
    pub(crate) number: u32,
    /// How often the whole was halved.
    pub(crate) halvings: u32,
}

impl Part {
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

/// What is known of a product of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Look {
    /// Not seen before.
    New,
    /// Seen before.
    Again,
    /// Of a customer that another reading watches.
    NotWatched,
}

/// The products of the orders that were seen.
#[derive(Debug, Clone)]
pub(crate) struct Seen {
    part: Part,
    /// For each date, for each customer of the part: 1 + the number of the order, or 0.
    orders: Vec<Vec<u32>>,
    /// A bit for each product, order after order.
    bits: Vec<u64>,
    /// Words of `bits` for an order.
    stride: usize,
    /// How many bytes are used.
    bytes: usize,
}

impl Seen {
    pub(crate) fn new(products: usize, part: Part) -> Self {
        Self { part, orders: Vec::new(), bits: Vec::new(), stride: products.div_ceil(64), bytes: 0 }
    }

    /// How many bytes are used.
    pub(crate) fn bytes(&self) -> usize {
        self.bytes
    }

    /// Looks whether a product of an order was seen, and remembers it.
    #[inline]
    pub(crate) fn look(&mut self, date: u32, customer: u32, product: u32) -> Look {
        let Some(place) = self.part.place(customer) else { return Look::NotWatched };
        let order = self.orders.get(date as usize).and_then(|day| day.get(place)).copied().unwrap_or(0);
        let order = if order == 0 { self.begin(date as usize, place) } else { order };
        let at = (order as usize - 1) * self.stride + product as usize / 64;
        let Some(bits) = self.bits.get_mut(at) else { return Look::New };
        let bit = 1 << (product % 64);
        let is_seen = *bits & bit != 0;
        *bits |= bit;
        if is_seen { Look::Again } else { Look::New }
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
            let whole = Part { number: 0, halvings };
            let mut parts: Vec<Seen> =
                (0..whole.count()).map(|number| Seen::new(130, Part { number, halvings })).collect();
            let mut plain = HashSet::new();
            for (date, customer, product) in lines {
                let looks: Vec<Look> = parts.iter_mut().map(|seen| seen.look(date, customer, product)).collect();
                let watched: Vec<Look> = looks.into_iter().filter(|look| *look != Look::NotWatched).collect();
                let expected = if plain.insert((date, customer, product)) { Look::New } else { Look::Again };
                prop_assert_eq!(watched, vec![expected]);
            }
        }
    }

    #[test]
    fn an_order_takes_a_word_for_64_products_however_many_lines_it_has() {
        let mut seen = Seen::new(200, Part::default());
        for product in 0..200 {
            assert_eq!(seen.look(0, 0, product), Look::New);
        }
        assert_eq!(seen.bytes(), 4 * 8 + 4);
    }
}
