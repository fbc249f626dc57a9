//! The totals of orders that stand in files, and what is ordered twice.

use std::ops::ControlFlow;

use memchr::memchr_iter;

use crate::block::FileBlock;
use crate::duplicates::{CustomerPart, DuplicateSet, Insertion};
use crate::error::{LineError, LineErrorKind, LineErrors, MAX_REPORTED, OrderName, excerpt};
use crate::interner::{Interner, OrderKey};
use crate::reader::{BlockConsumer, BlockReader, OrderRow};
use crate::request::OrderRequest;
use crate::totals::Totals;
use crate::{PieceSum, ProductId};

/// Adds up orders, block by block.
pub(crate) struct Tally<'r> {
    pub(crate) request: &'r OrderRequest<'r>,
    pub(crate) interner: Interner,
    pub(crate) totals: Totals,
    duplicates: DuplicateSet,
    part: CustomerPart,
    /// Most bytes that `duplicates` may take in the first reading.
    max_bytes: usize,
    /// Whether this is the first reading: further ones only look for what is ordered twice.
    is_first: bool,
    /// Whether the orders are more than can be watched in one reading.
    pub(crate) is_full: bool,
    pub(crate) errors: LineErrors,
    /// What the reported duplicates repeat.
    pub(crate) repeated: Vec<OrderKey>,
    /// The number of the block's first line in its file.
    line: u64,
}

impl<'r> Tally<'r> {
    /// A tally that watches one part of all orders, and takes up to `max_bytes` for it.
    pub(crate) fn new(request: &'r OrderRequest<'r>, part: CustomerPart, max_bytes: usize) -> Self {
        Self {
            request,
            interner: Interner::default(),
            totals: Totals::new(request.products.len(), request.by_customer),
            duplicates: DuplicateSet::new(request.products.len(), part),
            part,
            max_bytes,
            is_first: true,
            is_full: false,
            errors: LineErrors::default(),
            repeated: Vec::new(),
            line: 1,
        }
    }

    /// Another reading of the same files, which watches another part.
    pub(crate) fn watch(&mut self, part: CustomerPart) {
        self.duplicates = DuplicateSet::new(self.request.products.len(), part);
        self.is_first = false;
    }

    fn add_duplicate(&mut self, block: &FileBlock, row: &OrderRow, line: u64, key: OrderKey) {
        self.errors.count += 1;
        if self.repeated.len() >= MAX_REPORTED {
            return;
        }
        let (date, customer, product) = key;
        let day = self.interner.dates().get(date as usize).map(ToString::to_string).unwrap_or_default();
        let product = self.request.products.name(ProductId::new(product));
        let what = OrderName {
            day,
            customer: excerpt(self.interner.customer_name(customer).as_bytes()),
            product: product.to_owned(),
        };
        let written = block.bytes.get(row.at as usize..).unwrap_or_default();
        let end = memchr::memchr(b'\n', written).unwrap_or(written.len());
        let row = excerpt(written.get(..end).unwrap_or_default());
        let (file, order, kind) =
            (block.file.name.clone(), block.file.order, LineErrorKind::Duplicate { what, first: None });
        self.repeated.push(key);
        self.errors.reported.push(LineError { file, line, order, row, kind });
    }

    /// What the reader found wrong, with the lines of the file.
    fn take_errors(&mut self, reader: &mut BlockReader) {
        let found = std::mem::take(&mut reader.errors);
        let reported = found.reported.len();
        for mut error in found.reported {
            error.line += self.line;
            self.errors.add(error);
        }
        self.errors.count += found.count - reported as u64;
    }
}

impl BlockConsumer for Tally<'_> {
    fn take(&mut self, block: &FileBlock, reader: &mut BlockReader) -> ControlFlow<()> {
        if let Some(headings) = block.headings {
            self.line = 1 + headings;
        }
        if self.is_first {
            self.take_errors(reader);
        }
        reader.intern(&mut self.interner);
        let (mut at, mut line) = (0, self.line);
        for row in &reader.rows {
            let Some((date, customer)) = reader.interned(row) else { continue };
            let (key, pieces) = ((date, customer, row.product), PieceSum::from(row.pieces));
            match self.duplicates.insert(date, customer, row.product) {
                Insertion::Present => {
                    let between = block.bytes.get(at..row.at as usize).unwrap_or_default();
                    line += memchr_iter(b'\n', between).count() as u64;
                    at = row.at as usize;
                    self.add_duplicate(block, row, line, key);
                    if !self.is_first {
                        self.totals.take_back(key, pieces);
                    }
                }
                Insertion::New | Insertion::OtherPart if self.is_first => self.totals.add(key, pieces),
                Insertion::New | Insertion::OtherPart => {}
            }
        }
        self.line += reader.lines;
        if let Some(error) = block.error.clone().filter(|_| self.is_first) {
            let (file, order) = (block.file.name.clone(), block.file.order);
            self.errors.add(LineError { file, line: self.line, order, row: String::new(), kind: error });
        }
        self.is_full = self.is_first && self.duplicates.bytes() > self.max_bytes && !self.part.is_least();
        if self.is_full { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }
}
