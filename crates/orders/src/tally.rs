//! The totals of orders that stand in files, and what is ordered twice.

use std::ops::ControlFlow;

use memchr::memchr_iter;

use crate::block::Block;
use crate::in_order::Taker;
use crate::mistake::{MAX_TOLD, Mistake, Mistakes, excerpt};
use crate::reader::{Reader, Row};
use crate::register::Register;
use crate::request::Request;
use crate::seen::{Look, Part, Seen};
use crate::totals::{Key, Totals};
use crate::wrong::{What, Wrong};
use crate::{Pieces, ProductId};

/// Adds up orders, block by block.
pub(crate) struct Tally<'r> {
    pub(crate) request: &'r Request<'r>,
    pub(crate) register: Register,
    pub(crate) totals: Totals,
    seen: Seen,
    part: Part,
    /// Most bytes that `seen` may take in the first reading.
    room: usize,
    /// Whether this is the first reading: further ones only look for what is ordered twice.
    is_first: bool,
    /// Whether the orders are more than can be watched in one reading.
    pub(crate) is_full: bool,
    pub(crate) mistakes: Mistakes,
    /// What the told duplicates repeat.
    pub(crate) repeated: Vec<Key>,
    /// The number of the block's first line in its file.
    line: u64,
}

impl<'r> Tally<'r> {
    /// A tally that watches one part of all orders, and takes up to `room` bytes for it.
    pub(crate) fn new(request: &'r Request<'r>, part: Part, room: usize) -> Self {
        Self {
            request,
            register: Register::default(),
            totals: Totals::new(request.products.len(), request.by_customer),
            seen: Seen::new(request.products.len(), part),
            part,
            room,
            is_first: true,
            is_full: false,
            mistakes: Mistakes::default(),
            repeated: Vec::new(),
            line: 1,
        }
    }

    /// Another reading of the same files, which watches another part.
    pub(crate) fn watch(&mut self, part: Part) {
        self.seen = Seen::new(self.request.products.len(), part);
        self.is_first = false;
    }

    fn again(&mut self, block: &Block, row: &Row, line: u64, key: Key) {
        self.mistakes.count += 1;
        if self.repeated.len() >= MAX_TOLD {
            return;
        }
        let (date, customer, product) = key;
        let day = self.register.dates().get(date as usize).map(ToString::to_string).unwrap_or_default();
        let product = self.request.products.name(ProductId::of_number(product));
        let what = What {
            day,
            customer: excerpt(self.register.customer_name(customer).as_bytes()),
            product: product.to_owned(),
        };
        let written = block.bytes.get(row.at as usize..).unwrap_or_default();
        let end = memchr::memchr(b'\n', written).unwrap_or(written.len());
        let row = excerpt(written.get(..end).unwrap_or_default());
        let (file, order, wrong) =
            (block.file.name.clone(), block.file.order, Wrong::Again { what, first: None });
        self.repeated.push(key);
        self.mistakes.told.push(Mistake { file, line, order, row, wrong });
    }

    /// What the reader found wrong, with the lines of the file.
    fn take_mistakes(&mut self, reader: &mut Reader) {
        let found = std::mem::take(&mut reader.mistakes);
        let told = found.told.len();
        for mut mistake in found.told {
            mistake.line += self.line;
            self.mistakes.add(mistake);
        }
        self.mistakes.count += found.count - told as u64;
    }
}

impl Taker for Tally<'_> {
    fn take(&mut self, block: &Block, reader: &mut Reader) -> ControlFlow<()> {
        if let Some(headings) = block.headings {
            self.line = 1 + headings;
        }
        if self.is_first {
            self.take_mistakes(reader);
        }
        reader.register(&mut self.register);
        let (mut at, mut line) = (0, self.line);
        for row in &reader.rows {
            let Some((date, customer)) = reader.registered(row) else { continue };
            let (key, pieces) = ((date, customer, row.product), Pieces::from(row.pieces));
            match self.seen.look(date, customer, row.product) {
                Look::Again => {
                    let between = block.bytes.get(at..row.at as usize).unwrap_or_default();
                    line += memchr_iter(b'\n', between).count() as u64;
                    at = row.at as usize;
                    self.again(block, row, line, key);
                    if !self.is_first {
                        self.totals.take_back(key, pieces);
                    }
                }
                Look::New | Look::NotWatched if self.is_first => self.totals.add(key, pieces),
                Look::New | Look::NotWatched => {}
            }
        }
        self.line += reader.lines;
        if let Some(fault) = block.fault.clone().filter(|_| self.is_first) {
            let (file, order) = (block.file.name.clone(), block.file.order);
            self.mistakes.add(Mistake { file, line: self.line, order, row: String::new(), wrong: fault });
        }
        self.is_full = self.is_first && self.seen.bytes() > self.room && !self.part.is_least();
        if self.is_full { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }
}
