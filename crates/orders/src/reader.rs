//! From blocks to the orders in them: what one worker does, and how several share the blocks and hand them over in the order of the
//! files.

use std::num::NonZeroUsize;
use std::ops::ControlFlow;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;

use jiff::civil::Date;

use crate::block::{FileBlock, FileBlocks};
use crate::cell_cache::CellCache;
use crate::columns::OrderField;
use crate::error::{LineError, LineErrorKind, LineErrors, excerpt};
use crate::interner::Interner;
use crate::record::{CsvRecord, CsvRecords};
use crate::request::OrderRequest;
use crate::shape::{RecordShape, shape_of};
use crate::{cell, pieces};

/// One line of orders. Date and customer are numbers of the [`BlockReader`] that read it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct OrderRow {
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
pub(crate) struct BlockReader<'r> {
    request: &'r OrderRequest<'r>,
    known_dates: CellCache,
    known_customers: CellCache,
    known_products: CellCache,
    dates: Vec<Date>,
    customers: Vec<Box<str>>,
    /// For each date and customer, its number in the register.
    interned: (Vec<u32>, Vec<u32>),
    /// The orders of the block.
    pub(crate) rows: Vec<OrderRow>,
    /// What is wrong in the block; lines are counted from 0 at its beginning.
    pub(crate) errors: LineErrors,
    /// How many lines the block has.
    pub(crate) lines: u64,
}

impl<'r> BlockReader<'r> {
    pub(crate) fn new(request: &'r OrderRequest<'r>) -> Self {
        Self {
            request,
            known_dates: CellCache::default(),
            known_customers: CellCache::default(),
            known_products: CellCache::default(),
            dates: Vec::new(),
            customers: Vec::new(),
            interned: (Vec::new(), Vec::new()),
            rows: Vec::new(),
            errors: LineErrors::default(),
            lines: 0,
        }
    }

    /// Reads the orders of a block.
    pub(crate) fn read(&mut self, block: &FileBlock) {
        self.rows.clear();
        self.errors = LineErrors::default();
        let layout = &*block.file.layout;
        let (least, width) = (layout.least(), layout.width());
        let mut records = CsvRecords::new(&block.bytes);
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
    fn add_known(&mut self, records: &CsvRecords, record: CsvRecord) -> bool {
        let Some(date) = self.known_dates.get(records.cell(0)) else { return false };
        let Some(customer) = self.known_customers.get(records.cell(1)) else { return false };
        let Some(product) = self.known_products.get(records.cell(2)) else { return false };
        let Some(pieces) = pieces::plain(records.cell(3)).filter(|pieces| *pieces > 0) else { return false };
        let row = OrderRow { date, customer, product, pieces, at: start(record) };
        if row.date != PASSED_OVER {
            self.rows.push(row);
        }
        true
    }

    /// Adds any row, or what is wrong with it.
    #[cold]
    fn add(&mut self, block: &FileBlock, records: &CsvRecords, record: CsvRecord, line: u64) {
        match shape_of(&block.bytes, record, &block.file.layout) {
            RecordShape::Blank => return,
            RecordShape::Invalid(kind) => return self.error(block, record, line, kind),
            RecordShape::Sound => {}
        }
        let date = self.date(records.cell(0));
        let customer = self.customer(records.cell(1));
        let product = self.product(records.cell(2));
        let pieces = cell::pieces(records.cell(3), self.request.columns);
        match (date, customer, product, pieces) {
            (Ok(date), Ok(customer), Ok(product), Ok(pieces)) => {
                if date != PASSED_OVER {
                    self.rows.push(OrderRow { date, customer, product, pieces, at: start(record) });
                }
            }
            (date, customer, product, pieces) => {
                for kind in [date.err(), customer.err(), product.err(), pieces.err()].into_iter().flatten() {
                    self.error(block, record, line, kind);
                }
            }
        }
    }

    fn error(&mut self, block: &FileBlock, record: CsvRecord, line: u64, kind: LineErrorKind) {
        let row = excerpt(block.bytes.get(record.start..record.end).unwrap_or_default());
        let (file, order) = (block.file.name.clone(), block.file.order);
        self.errors.add(LineError { file, line, order, row, kind });
    }

    fn date(&mut self, cell: &[u8]) -> Result<u32, LineErrorKind> {
        if let Some(known) = self.known_dates.get(cell) {
            return Ok(known);
        }
        let date = cell::date(cell, OrderField::Date, self.request.columns)?;
        if let Some(today) = self.request.today.filter(|today| date < *today) {
            return Err(LineErrorKind::Past { date, today });
        }
        let mut number = PASSED_OVER;
        if self.request.days.has(date) {
            number = next_number(&self.dates);
            self.dates.push(date);
        }
        self.known_dates.insert(cell, number);
        Ok(number)
    }

    fn customer(&mut self, cell: &[u8]) -> Result<u32, LineErrorKind> {
        if let Some(known) = self.known_customers.get(cell) {
            return Ok(known);
        }
        let name = cell::seen_name(cell, OrderField::Customer, self.request.columns)?;
        let number = next_number(&self.customers);
        self.customers.push(name.into());
        self.known_customers.insert(cell, number);
        Ok(number)
    }

    fn product(&mut self, cell: &[u8]) -> Result<u32, LineErrorKind> {
        if let Some(known) = self.known_products.get(cell) {
            return Ok(known);
        }
        let number = cell::product(cell, self.request)?.number();
        self.known_products.insert(cell, number);
        Ok(number)
    }

    /// Gives the dates and customers that are new in this block their numbers in the register.
    pub(crate) fn intern(&mut self, interner: &mut Interner) {
        let (dates, customers) = &mut self.interned;
        dates.extend(self.dates.iter().skip(dates.len()).map(|date| interner.date(*date)));
        customers.extend(self.customers.iter().skip(customers.len()).map(|name| interner.customer(name)));
    }

    /// The numbers of a row's date and customer in the register.
    #[inline]
    pub(crate) fn interned(&self, row: &OrderRow) -> Option<(u32, u32)> {
        let (dates, customers) = &self.interned;
        Some((*dates.get(row.date as usize)?, *customers.get(row.customer as usize)?))
    }
}

fn next_number<T>(list: &[T]) -> u32 {
    // Numbers stay under `PASSED_OVER`: that many names would take hundreds of gigabytes.
    u32::try_from(list.len()).unwrap_or(PASSED_OVER - 1)
}

fn start(record: CsvRecord) -> u32 {
    // A block is some megabytes at most.
    u32::try_from(record.start).unwrap_or(u32::MAX)
}

/// More workers than this wait for each other more than they read.
const MOST_WORKERS: usize = 4;

/// What takes the orders of one block after the other.
pub(crate) trait BlockConsumer: Send {
    /// Takes a block that a reader has read; no block follows where it breaks.
    fn take(&mut self, block: &FileBlock, reader: &mut BlockReader) -> ControlFlow<()>;
}

/// Whose turn it is to hand over a block.
struct ConsumerTurn<'t, T> {
    consumer: &'t mut T,
    next: u64,
    is_over: bool,
}

/// How many workers this machine has work for.
pub(crate) fn worker_count() -> usize {
    thread::available_parallelism().map_or(1, NonZeroUsize::get).min(MOST_WORKERS)
}

/// Reads all blocks, and gives them to `consumer` in their order, whoever read them.
pub(crate) fn read_blocks<T: BlockConsumer>(
    blocks: FileBlocks,
    request: &OrderRequest,
    workers: usize,
    consumer: &mut T,
) {
    let blocks = Mutex::new(blocks);
    let turn = Mutex::new(ConsumerTurn { consumer, next: 0, is_over: false });
    let moved = Condvar::new();
    let work = || {
        let (mut reader, mut block) = (BlockReader::new(request), FileBlock::default());
        while lock(&blocks).next(&mut block) {
            reader.read(&block);
            let mut turn = lock(&turn);
            while turn.next != block.sequence && !turn.is_over {
                turn = moved.wait(turn).unwrap_or_else(PoisonError::into_inner);
            }
            if !turn.is_over {
                turn.is_over = turn.consumer.take(&block, &mut reader).is_break();
                turn.next += 1;
                moved.notify_all();
            }
            if turn.is_over {
                return;
            }
        }
    };
    thread::scope(|scope| {
        for _ in 1..workers {
            // Where no thread can be had, the others do the work.
            let _ = thread::Builder::new().spawn_scoped(scope, work);
        }
        work();
    });
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
