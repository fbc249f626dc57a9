//! Files in blocks of whole records, so that a file is never in memory at once and several can read at a time.

use std::io::Read;
use std::sync::Arc;

use crate::columns::{Columns, Form, Layout};
use crate::record::{self, Records};
use crate::shape;
use crate::source::Source;
use crate::wrong::Wrong;

/// How many bytes are read at a time.
pub(crate) const BLOCK: usize = 128 << 10;

/// The longest record. What is longer is a quote that nobody closed, or no CSV.
pub(crate) const MAX_RECORD: usize = 1 << 20;

/// Whole records of one file.
#[derive(Debug, Clone, Default)]
pub(crate) struct Block {
    pub(crate) bytes: Vec<u8>,
    pub(crate) file: File,
    /// Its place among all blocks.
    pub(crate) sequence: u64,
    /// Where it is the first of its file: how many lines its headings have.
    pub(crate) headings: Option<u64>,
    /// Why nothing more of the file follows, where it should.
    pub(crate) fault: Option<Wrong>,
}

/// The file that a block is of.
#[derive(Debug, Clone, Default)]
pub(crate) struct File {
    pub(crate) name: Arc<str>,
    /// Its place among the files.
    pub(crate) order: u32,
    pub(crate) layout: Arc<Layout>,
}

/// The blocks of some files, one after the other.
pub(crate) struct Blocks<'s> {
    sources: std::slice::Iter<'s, &'s dyn Source>,
    columns: &'s Columns,
    form: Form,
    /// Bytes that are read at a time.
    size: usize,
    reader: Option<Box<dyn Read + Send + 's>>,
    file: File,
    /// The beginning of a record whose end is in the next block.
    carry: Vec<u8>,
    /// How many blocks there were.
    count: u64,
    /// How many files were opened.
    opened: u32,
}

impl<'s> Blocks<'s> {
    /// Files are numbered from `first` on.
    pub(crate) fn new(
        sources: &'s [&'s dyn Source],
        columns: &'s Columns,
        form: Form,
        size: usize,
        first: u32,
    ) -> Self {
        let (file, carry) = (File::default(), Vec::new());
        let sources = sources.iter();
        Self { sources, columns, form, size, reader: None, file, carry, count: 0, opened: first }
    }

    /// Puts the next block into `block`; false where there is none.
    pub(crate) fn next(&mut self, block: &mut Block) -> bool {
        loop {
            block.bytes.clear();
            (block.headings, block.fault) = (None, None);
            if self.reader.is_none() {
                let Some(source) = self.sources.next() else { return false };
                self.open(*source, block);
            }
            self.fill(block);
            if block.headings.is_some() {
                self.read_headings(block);
            }
            if block.headings.is_none() && block.bytes.is_empty() && block.fault.is_none() {
                continue;
            }
            if block.fault.is_some() {
                self.reader = None;
            }
            (block.file, block.sequence) = (self.file.clone(), self.count);
            self.count += 1;
            return true;
        }
    }

    fn open(&mut self, source: &'s dyn Source, block: &mut Block) {
        self.file = File { name: source.name().into(), order: self.opened, layout: Arc::default() };
        self.opened += 1;
        self.carry.clear();
        block.headings = Some(0);
        match source.open() {
            Ok(reader) => self.reader = Some(reader),
            Err(error) => block.fault = Some(Wrong::Unreadable(error.to_string())),
        }
    }

    /// Reads on until there is a whole record, or the file ends.
    fn fill(&mut self, block: &mut Block) {
        let Some(reader) = &mut self.reader else { return };
        block.bytes.append(&mut self.carry);
        loop {
            let before = block.bytes.len();
            let read = reader.by_ref().take(self.size as u64).read_to_end(&mut block.bytes);
            if before == 0 && block.headings.is_some() && block.bytes.starts_with(b"\xef\xbb\xbf") {
                block.bytes.drain(..3);
            }
            if let Err(error) = read {
                block.fault = Some(Wrong::Unreadable(error.to_string()));
                block.bytes.truncate(record::whole(&block.bytes).0);
                return;
            }
            if read.is_ok_and(|count| count < self.size) {
                self.reader = None;
                return;
            }
            let (end, is_open) = record::whole(&block.bytes);
            if end > 0 {
                self.carry.extend_from_slice(block.bytes.get(end..).unwrap_or_default());
                block.bytes.truncate(end);
                return;
            }
            if block.bytes.len() >= MAX_RECORD {
                block.bytes.clear();
                block.fault = Some(if is_open { Wrong::OpenQuote } else { Wrong::TooLong });
                return;
            }
        }
    }

    /// Takes the headings off the first block of a file, with the empty lines before them.
    fn read_headings(&mut self, block: &mut Block) {
        let mut before = 0;
        loop {
            let (end, lines) = blank_lines(&block.bytes);
            block.bytes.drain(..end);
            before += lines;
            if !block.bytes.is_empty() || block.fault.is_some() || self.reader.is_none() {
                break;
            }
            self.fill(block);
        }
        block.headings = Some(before);
        if block.bytes.is_empty() {
            block.fault.get_or_insert(Wrong::Empty);
            return;
        }
        let mut records = Records::new(&block.bytes);
        let Some(headings) = records.next(&Layout::default()) else { return };
        let read = if headings.is_open {
            Err(Wrong::OpenQuote)
        } else {
            Layout::read(&block.bytes, self.columns, self.form)
        };
        match read {
            Ok(layout) => {
                self.file.layout = Arc::new(layout);
                block.headings = Some(before + 1 + headings.breaks);
                let after = records.next(&Layout::default()).map_or(block.bytes.len(), |next| next.start);
                block.bytes.drain(..after);
            }
            Err(wrong) => {
                block.fault = Some(wrong);
                block.bytes.clear();
            }
        }
    }
}

/// Where the empty lines at the beginning of some bytes end, and how many lines they are.
fn blank_lines(bytes: &[u8]) -> (usize, u64) {
    let (mut end, mut lines) = (0, 0);
    let mut records = Records::new(bytes);
    while let Some(record) = records.next(&Layout::default()) {
        end = record.start;
        if record.is_open || !shape::is_blank(bytes.get(record.start..record.end).unwrap_or_default()) {
            return (end, lines);
        }
        lines += 1 + record.breaks;
        end = bytes.len();
    }
    (end, lines)
}
