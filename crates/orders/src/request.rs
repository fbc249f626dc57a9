//! What is asked of the orders, and where they come from.

use std::io::{Cursor, Read, Result};
use std::sync::Arc;

use jiff::civil::Date;
use levamen_calendar::Days;

use crate::{OrderColumns, Products};

/// The files that orders come from.
#[derive(Clone, Copy, Default)]
pub struct Files<'a> {
    /// Orders for a date: date, customer, product, quantity.
    pub orders: &'a [&'a dyn OrderSource],
    /// Orders for a day of every week: weekday, customer, product, quantity, and from and until where they do not stand
    /// for ever.
    pub standing: &'a [&'a dyn OrderSource],
    /// What takes the place of a standing order on one date: date, customer, product, quantity; 0 calls it off.
    pub exceptions: &'a [&'a dyn OrderSource],
}

/// What is asked, and what orders are read by.
#[derive(Debug, Clone, Copy)]
pub struct OrderRequest<'a> {
    /// The days whose orders are wanted. Lines for other days are read, and passed over if nothing is wrong with them.
    pub days: Days,
    /// Where this is given, orders for a day before it are errors.
    pub today: Option<Date>,
    /// What can be ordered.
    pub products: &'a Products,
    /// What the columns are called.
    pub columns: &'a OrderColumns,
    /// Whether each customer's orders are wanted apart from the totals. It takes memory for every line.
    pub by_customer: bool,
}

/// A CSV file of orders, whatever holds it.
///
/// It may be read more than once: the line that a duplicate repeats is found in a second reading, so that the
/// first need not remember every line.
pub trait OrderSource: Sync {
    /// The name that a reader knows the file by; problems use it.
    fn name(&self) -> &str;

    /// The bytes of the file from its beginning.
    ///
    /// # Errors
    /// Whatever keeps it from being read.
    fn open(&self) -> Result<Box<dyn Read + Send + '_>>;
}

/// Orders that stand in memory.
#[derive(Debug, Clone)]
pub struct SourceText {
    name: String,
    bytes: Arc<[u8]>,
}

impl SourceText {
    /// Bytes of CSV under a name.
    pub fn new(name: impl Into<String>, bytes: impl Into<Arc<[u8]>>) -> Self {
        Self { name: name.into(), bytes: bytes.into() }
    }
}

impl OrderSource for SourceText {
    fn name(&self) -> &str {
        &self.name
    }

    fn open(&self) -> Result<Box<dyn Read + Send + '_>> {
        Ok(Box::new(Cursor::new(&self.bytes)))
    }
}
