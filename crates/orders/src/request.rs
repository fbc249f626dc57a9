//! What is asked of the orders.

use jiff::civil::Date;

use crate::{Columns, Products, Source};

/// Some days in a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Days {
    first: Date,
    last: Date,
}

impl Days {
    /// The days from `first` to `last`, both included; `None` where the last is before the first.
    #[must_use]
    pub fn new(first: Date, last: Date) -> Option<Self> {
        (first <= last).then_some(Self { first, last })
    }

    /// One day.
    #[must_use]
    pub fn one(day: Date) -> Self {
        Self { first: day, last: day }
    }

    /// Whether a day is among them.
    #[must_use]
    pub fn has(self, day: Date) -> bool {
        self.first <= day && day <= self.last
    }

    /// The days in order.
    pub fn iter(self) -> impl Iterator<Item = Date> {
        let next = |day: &Date| day.tomorrow().ok();
        std::iter::successors(Some(self.first), next).take_while(move |day| *day <= self.last)
    }
}

/// The files that orders come from.
#[derive(Clone, Copy, Default)]
pub struct Files<'a> {
    /// Orders for a date: date, customer, product, quantity.
    pub orders: &'a [&'a dyn Source],
    /// Orders for a day of every week: weekday, customer, product, quantity, and from and until where they do not stand
    /// for ever.
    pub standing: &'a [&'a dyn Source],
    /// What takes the place of a standing order on one date: date, customer, product, quantity; 0 calls it off.
    pub exceptions: &'a [&'a dyn Source],
}

/// What is asked, and what orders are read by.
#[derive(Debug, Clone, Copy)]
pub struct Request<'a> {
    /// The days whose orders are wanted. Lines for other days are read, and passed over if nothing is wrong with them.
    pub days: Days,
    /// Where this is given, orders for a day before it are mistakes.
    pub today: Option<Date>,
    /// What can be ordered.
    pub products: &'a Products,
    /// What the columns are called.
    pub columns: &'a Columns,
    /// Whether each customer's orders are wanted apart from the totals. It takes memory for every line.
    pub by_customer: bool,
}
