//! The lines that duplicates repeat, found in a second reading.

use std::ops::ControlFlow;

use memchr::memchr_iter;
use rustc_hash::FxHashMap;

use crate::block::Block;
use crate::in_order::Taker;
use crate::reader::Reader;
use crate::register::Register;
use crate::totals::Key;
use crate::wrong::Line;

/// Looks for the first line of some orders.
pub(crate) struct Firsts<'t> {
    register: &'t mut Register,
    wanted: FxHashMap<Key, Option<Line>>,
    missing: usize,
    line: u64,
}

impl<'t> Firsts<'t> {
    /// Keys are numbers of the register.
    pub(crate) fn new(register: &'t mut Register, keys: &[Key]) -> Self {
        let wanted: FxHashMap<Key, Option<Line>> = keys.iter().map(|key| (*key, None)).collect();
        let missing = wanted.len();
        Self { register, wanted, missing, line: 1 }
    }

    /// The first line of an order; `None` where the files have changed since.
    pub(crate) fn of(&self, key: Key) -> Option<Line> {
        self.wanted.get(&key).cloned().flatten()
    }
}

impl Taker for Firsts<'_> {
    fn take(&mut self, block: &Block, reader: &mut Reader) -> ControlFlow<()> {
        if let Some(headings) = block.headings {
            self.line = 1 + headings;
        }
        reader.register(self.register);
        for row in &reader.rows {
            let Some((date, customer)) = reader.registered(row) else { continue };
            let Some(first @ None) = self.wanted.get_mut(&(date, customer, row.product)) else { continue };
            let before = block.bytes.get(..row.at as usize).unwrap_or_default();
            let number = self.line + memchr_iter(b'\n', before).count() as u64;
            *first = Some(Line { file: block.file.name.clone(), number });
            self.missing -= 1;
        }
        self.line += reader.lines;
        if self.missing == 0 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    }
}
