//! From a block to the orders in it: what one worker does.

use jiff::civil::Date;

use crate::block::Block;
use crate::columns::Field;
use crate::field;
use crate::met::Met;
use crate::mistake::{Mistake, Mistakes, excerpt};
use crate::pieces;
use crate::record::{Record, Records};
use crate::register::Register;
use crate::request::Request;
use crate::shape::{self, Shape};
use crate::wrong::Wrong;

/// One line of orders. Date and customer are numbers of the [`Reader`] that read it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Row {
    pub(crate) date: u32,
    pub(crate) customer: u32,
    pub(crate) product: u32,
    pub(crate) pieces: u32,
    /// Where it begins in the block.
    pub(crate) at: u32,
}

/// The number of a date that is not asked for.
const PASSED_OVER: u32 = u32::MAX;

/// Reads blocks. Each worker has its own, so that none waits for another.
pub(crate) struct Reader<'r> {
    request: &'r Request<'r>,
    known_dates: Met,
    known_customers: Met,
    known_products: Met,
    dates: Vec<Date>,
    customers: Vec<Box<str>>,
    /// For each date and customer, its number in the register.
    registered: (Vec<u32>, Vec<u32>),
    /// The orders of the block.
    pub(crate) rows: Vec<Row>,
    /// What is wrong in the block; lines are counted from 0 at its beginning.
    pub(crate) mistakes: Mistakes,
    /// How many lines the block has.
    pub(crate) lines: u64,
}

impl<'r> Reader<'r> {
    pub(crate) fn new(request: &'r Request<'r>) -> Self {
        Self {
            request,
            known_dates: Met::default(),
            known_customers: Met::default(),
            known_products: Met::default(),
            dates: Vec::new(),
            customers: Vec::new(),
            registered: (Vec::new(), Vec::new()),
            rows: Vec::new(),
            mistakes: Mistakes::default(),
            lines: 0,
        }
    }

    /// Reads the orders of a block.
    pub(crate) fn read(&mut self, block: &Block) {
        self.rows.clear();
        self.mistakes = Mistakes::default();
        let layout = &*block.file.layout;
        let (least, width) = (layout.least(), layout.width());
        let mut records = Records::new(&block.bytes);
        let mut line = 0;
        while let Some(record) = records.next(layout) {
            let has_cells = record.cells >= least && record.cells <= width && !record.is_open;
            if !has_cells || !self.add_known(&records, record) {
                self.add(block, &records, record, line);
            }
            line += 1 + record.breaks;
        }
        self.lines = line;
    }

    /// Adds a row of cells that were met before and a plain number; false where it is not one.
    #[inline]
    fn add_known(&mut self, records: &Records, record: Record) -> bool {
        let Some(date) = self.known_dates.get(records.cell(0)) else { return false };
        let Some(customer) = self.known_customers.get(records.cell(1)) else { return false };
        let Some(product) = self.known_products.get(records.cell(2)) else { return false };
        let Some(pieces) = pieces::plain(records.cell(3)).filter(|pieces| *pieces > 0) else { return false };
        let row = Row { date, customer, product, pieces, at: start(record) };
        if row.date != PASSED_OVER {
            self.rows.push(row);
        }
        true
    }

    /// Adds any row, or what is wrong with it.
    #[cold]
    fn add(&mut self, block: &Block, records: &Records, record: Record, line: u64) {
        match shape::of(&block.bytes, record, &block.file.layout) {
            Shape::Blank => return,
            Shape::Wrong(wrong) => return self.mistake(block, record, line, wrong),
            Shape::Fine => {}
        }
        let date = self.date(records.cell(0));
        let customer = self.customer(records.cell(1));
        let product = self.product(records.cell(2));
        let pieces = field::pieces(records.cell(3), self.request.columns);
        match (date, customer, product, pieces) {
            (Ok(date), Ok(customer), Ok(product), Ok(pieces)) => {
                if date != PASSED_OVER {
                    self.rows.push(Row { date, customer, product, pieces, at: start(record) });
                }
            }
            (date, customer, product, pieces) => {
                for wrong in [date.err(), customer.err(), product.err(), pieces.err()].into_iter().flatten() {
                    self.mistake(block, record, line, wrong);
                }
            }
        }
    }

    fn mistake(&mut self, block: &Block, record: Record, line: u64, wrong: Wrong) {
        let row = excerpt(block.bytes.get(record.start..record.end).unwrap_or_default());
        let (file, order) = (block.file.name.clone(), block.file.order);
        self.mistakes.add(Mistake { file, line, order, row, wrong });
    }

    fn date(&mut self, cell: &[u8]) -> Result<u32, Wrong> {
        if let Some(known) = self.known_dates.get(cell) {
            return Ok(known);
        }
        let date = field::date(cell, Field::Date, self.request.columns)?;
        if let Some(today) = self.request.today.filter(|today| date < *today) {
            return Err(Wrong::Past { date, today });
        }
        let mut number = PASSED_OVER;
        if self.request.days.has(date) {
            number = next_number(&self.dates);
            self.dates.push(date);
        }
        self.known_dates.insert(cell, number);
        Ok(number)
    }

    fn customer(&mut self, cell: &[u8]) -> Result<u32, Wrong> {
        if let Some(known) = self.known_customers.get(cell) {
            return Ok(known);
        }
        let name = field::seen_name(cell, Field::Customer, self.request.columns)?;
        let number = next_number(&self.customers);
        self.customers.push(name.into());
        self.known_customers.insert(cell, number);
        Ok(number)
    }

    fn product(&mut self, cell: &[u8]) -> Result<u32, Wrong> {
        if let Some(known) = self.known_products.get(cell) {
            return Ok(known);
        }
        let number = field::product(cell, self.request)?.number();
        self.known_products.insert(cell, number);
        Ok(number)
    }

    /// Gives the dates and customers that are new in this block their numbers in the register.
    pub(crate) fn register(&mut self, register: &mut Register) {
        let (dates, customers) = &mut self.registered;
        dates.extend(self.dates.iter().skip(dates.len()).map(|date| register.date(*date)));
        customers.extend(self.customers.iter().skip(customers.len()).map(|name| register.customer(name)));
    }

    /// The numbers of a row's date and customer in the register.
    #[inline]
    pub(crate) fn registered(&self, row: &Row) -> Option<(u32, u32)> {
        let (dates, customers) = &self.registered;
        Some((*dates.get(row.date as usize)?, *customers.get(row.customer as usize)?))
    }
}

fn next_number<T>(list: &[T]) -> u32 {
    // Numbers stay under `PASSED_OVER`: that many names would take hundreds of gigabytes.
    u32::try_from(list.len()).unwrap_or(PASSED_OVER - 1)
}

fn start(record: Record) -> u32 {
    // A block is some megabytes at most.
    u32::try_from(record.start).unwrap_or(u32::MAX)
}
