//! Files in blocks of whole records, so that a file is never in memory at once and several can read at a time.
//!
//! Files that are short, line by line: standing orders and exceptions.

use std::io::Read;
use std::sync::Arc;

use crate::columns::{ColumnLayout, FileForm, OrderColumns};
use crate::error::{FileLine, LineError, LineErrorKind, LineErrors, excerpt};
use crate::record;
use crate::record::CsvRecords;
use crate::request::OrderSource;
use crate::shape::{RecordShape, is_blank, layout_of, shape_of};

/// How many bytes are read at a time.
pub(crate) const BLOCK: usize = 128 << 10;

/// The longest record. What is longer is a quote that nobody closed, or no CSV.
pub(crate) const MAX_RECORD: usize = 1 << 20;

/// Whole records of one file.
#[derive(Debug, Clone, Default)]
pub(crate) struct FileBlock {
    pub(crate) bytes: Vec<u8>,
    pub(crate) file: OrderFile,
    /// Its place among all blocks.
    pub(crate) sequence: u64,
    /// Where it is the first of its file: how many lines its headings have.
    pub(crate) headings: Option<u64>,
    /// Why nothing more of the file follows, where it should.
    pub(crate) error: Option<LineErrorKind>,
}

/// The file that a block is of.
#[derive(Debug, Clone, Default)]
pub(crate) struct OrderFile {
    pub(crate) name: Arc<str>,
    /// Its place among the files.
    pub(crate) order: u32,
    pub(crate) layout: Arc<ColumnLayout>,
}

/// The blocks of some files, one after the other.
pub(crate) struct FileBlocks<'s> {
    sources: std::slice::Iter<'s, &'s dyn OrderSource>,
    columns: &'s OrderColumns,
    form: FileForm,
    /// Bytes that are read at a time.
    size: usize,
    reader: Option<Box<dyn Read + Send + 's>>,
    file: OrderFile,
    /// The beginning of a record whose end is in the next block.
    carry: Vec<u8>,
    /// How many blocks there were.
    count: u64,
    /// How many files were opened.
    opened: u32,
}

impl<'s> FileBlocks<'s> {
    /// Files are numbered from `first` on.
    pub(crate) fn new(
        sources: &'s [&'s dyn OrderSource],
        columns: &'s OrderColumns,
        form: FileForm,
        size: usize,
        first: u32,
    ) -> Self {
        let (file, carry) = (OrderFile::default(), Vec::new());
        let sources = sources.iter();
        Self { sources, columns, form, size, reader: None, file, carry, count: 0, opened: first }
    }

    /// Puts the next block into `block`; false where there is none.
    pub(crate) fn next(&mut self, block: &mut FileBlock) -> bool {
        loop {
            block.bytes.clear();
            (block.headings, block.error) = (None, None);
            if self.reader.is_none() {
                let Some(source) = self.sources.next() else { return false };
                self.open(*source, block);
            }
            self.fill(block);
            if block.headings.is_some() {
                self.read_headings(block);
            }
            if block.headings.is_none() && block.bytes.is_empty() && block.error.is_none() {
                continue;
            }
            if block.error.is_some() {
                self.reader = None;
            }
            (block.file, block.sequence) = (self.file.clone(), self.count);
            self.count += 1;
            return true;
        }
    }

    fn open(&mut self, source: &'s dyn OrderSource, block: &mut FileBlock) {
        self.file = OrderFile { name: source.name().into(), order: self.opened, layout: Arc::default() };
        self.opened += 1;
        self.carry.clear();
        block.headings = Some(0);
        match source.open() {
            Ok(reader) => self.reader = Some(reader),
            Err(reason) => block.error = Some(LineErrorKind::Unreadable(reason.to_string())),
        }
    }

    /// Reads on until there is a whole record, or the file ends.
    fn fill(&mut self, block: &mut FileBlock) {
        let Some(reader) = &mut self.reader else { return };
        block.bytes.append(&mut self.carry);
        loop {
            let before = block.bytes.len();
            let read = reader.by_ref().take(self.size as u64).read_to_end(&mut block.bytes);
            if before == 0 && block.headings.is_some() && block.bytes.starts_with(b"\xef\xbb\xbf") {
                block.bytes.drain(..3);
            }
            if let Err(error) = read {
                block.error = Some(LineErrorKind::Unreadable(error.to_string()));
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
                block.error = Some(if is_open { LineErrorKind::OpenQuote } else { LineErrorKind::TooLong });
                return;
            }
        }
    }

    /// Takes the headings off the first block of a file, with the empty lines before them.
    fn read_headings(&mut self, block: &mut FileBlock) {
        let mut before = 0;
        loop {
            let (end, lines) = blank_lines(&block.bytes);
            block.bytes.drain(..end);
            before += lines;
            if !block.bytes.is_empty() || block.error.is_some() || self.reader.is_none() {
                break;
            }
            self.fill(block);
        }
        block.headings = Some(before);
        if block.bytes.is_empty() {
            block.error.get_or_insert(LineErrorKind::Empty);
            return;
        }
        let mut records = CsvRecords::new(&block.bytes);
        let Some(headings) = records.next(&ColumnLayout::default()) else { return };
        let read = if headings.is_open {
            Err(LineErrorKind::OpenQuote)
        } else {
            layout_of(&block.bytes, self.columns, self.form)
        };
        match read {
            Ok(layout) => {
                self.file.layout = Arc::new(layout);
                block.headings = Some(before + 1 + headings.breaks);
                let after =
                    records.next(&ColumnLayout::default()).map_or(block.bytes.len(), |next| next.start);
                block.bytes.drain(..after);
            }
            Err(kind) => {
                block.error = Some(kind);
                block.bytes.clear();
            }
        }
    }
}

/// Where the empty lines at the beginning of some bytes end, and how many lines they are.
fn blank_lines(bytes: &[u8]) -> (usize, u64) {
    let (mut end, mut lines) = (0, 0);
    let mut records = CsvRecords::new(bytes);
    while let Some(record) = records.next(&ColumnLayout::default()) {
        end = record.start;
        if record.is_open || !is_blank(bytes.get(record.start..record.end).unwrap_or_default()) {
            return (end, lines);
        }
        lines += 1 + record.breaks;
        end = bytes.len();
    }
    (end, lines)
}

/// Goes over the lines of some files; `each` gets the cells of a line with its place, and says what is wrong with it.
pub(crate) fn each_line(
    mut blocks: FileBlocks,
    errors: &mut LineErrors,
    mut each: impl FnMut(&CsvRecords, FileLine) -> Vec<LineErrorKind>,
) {
    let (mut block, mut number) = (FileBlock::default(), 1);
    while blocks.next(&mut block) {
        if let Some(headings) = block.headings {
            number = 1 + headings;
        }
        let (file, order) = (block.file.name.clone(), block.file.order);
        let mut records = CsvRecords::new(&block.bytes);
        while let Some(record) = records.next(&block.file.layout) {
            let kind = match shape_of(&block.bytes, record, &block.file.layout) {
                RecordShape::Blank => Vec::new(),
                RecordShape::Invalid(kind) => vec![kind],
                RecordShape::Sound => each(&records, FileLine { file: file.clone(), number }),
            };
            for kind in kind {
                let row = excerpt(block.bytes.get(record.start..record.end).unwrap_or_default());
                errors.add(LineError { file: file.clone(), line: number, order, row, kind });
            }
            number += 1 + record.breaks;
        }
        if let Some(kind) = block.error.take() {
            errors.add(LineError { file, line: number, order, row: String::new(), kind });
        }
    }
}
