//! From bytes to records and their cells: RFC 4180. The bytes that separate them are found 64 at a time.
//!
//! A cell whose first byte is a quote runs to the next quote that is not doubled, over commas and line ends; in any
//! other cell a quote is a quote. A record ends with a line feed, and a carriage return before it is a part of the end.

use memchr::{memchr, memchr_iter, memrchr};

use crate::columns::{ColumnLayout, MAX_FIELDS};

/// One record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct CsvRecord {
    /// Its first byte.
    pub(crate) start: usize,
    /// The byte after its last, without the line feed.
    pub(crate) end: usize,
    /// How many cells it has.
    pub(crate) cells: usize,
    /// How many line ends stand in it, in quotes.
    pub(crate) breaks: u64,
    /// Whether its last cell begins with a quote that nothing closes.
    pub(crate) is_open: bool,
}

/// The records of some bytes, which begin with a record.
#[derive(Debug, Clone)]
pub(crate) struct CsvRecords<'b> {
    splitter: Splitter<'b>,
    /// Where the cells of the fields stand in the last record.
    cells: [(usize, usize); MAX_FIELDS],
}

/// How far the records are split.
#[derive(Debug, Clone)]
struct Splitter<'b> {
    bytes: &'b [u8],
    marks: Separators<'b>,
    at: usize,
}

impl<'b> CsvRecords<'b> {
    pub(crate) fn new(bytes: &'b [u8]) -> Self {
        Self {
            splitter: Splitter { bytes, marks: Separators::from(bytes, 0), at: 0 },
            cells: Default::default(),
        }
    }

    /// The next record; its cells are in [`Self::cell`] until the one after.
    #[inline]
    pub(crate) fn next(&mut self, layout: &ColumnLayout) -> Option<CsvRecord> {
        let Self { splitter, cells } = self;
        *cells = Default::default();
        splitter.split(|column, start, end| {
            if let Some(cell) = cells.get_mut(usize::from(layout.slot(column))) {
                *cell = (start, end);
            }
        })
    }

    /// What stands in a field of the last record, quotes included; empty where the record ends before.
    #[inline]
    pub(crate) fn cell(&self, slot: usize) -> &'b [u8] {
        let (start, end) = self.cells.get(slot).copied().unwrap_or_default();
        self.splitter.bytes.get(start..end).unwrap_or_default()
    }

    /// All cells of the next record, quotes included.
    pub(crate) fn all_cells(mut self) -> Vec<&'b [u8]> {
        let (bytes, mut cells) = (self.splitter.bytes, Vec::new());
        self.splitter.split(|_, start, end| cells.push(bytes.get(start..end).unwrap_or_default()));
        cells
    }
}

impl Splitter<'_> {
    /// Goes over the next record, and gives the number of each cell with where it begins and ends.
    #[inline]
    fn split(&mut self, mut each: impl FnMut(usize, usize, usize)) -> Option<CsvRecord> {
        let start = self.at;
        if start >= self.bytes.len() {
            return None;
        }
        let (mut column, mut from, mut breaks, mut is_open) = (0, start, 0, false);
        let end = loop {
            let Some(mark) = self.marks.next() else { break self.bytes.len() };
            match self.bytes.get(mark) {
                Some(b',') => {
                    each(column, from, mark);
                    column += 1;
                    from = mark + 1;
                }
                Some(b'"') if mark == from => {
                    let close = closing(self.bytes, mark + 1);
                    is_open = close.is_none();
                    let after = close.map_or(self.bytes.len(), |close| close + 1);
                    breaks += count(self.bytes.get(mark..after).unwrap_or_default());
                    self.marks = Separators::from(self.bytes, after);
                }
                Some(b'"') => {}
                _ => break mark,
            }
        };
        self.at = end + 1;
        let returned = self.bytes.get(from..end).is_some_and(|cell| cell.ends_with(b"\r"));
        let end = if returned { end - 1 } else { end };
        each(column, from, end);
        Some(CsvRecord { start, end, cells: column + 1, breaks, is_open })
    }
}

fn count(bytes: &[u8]) -> u64 {
    memchr_iter(b'\n', bytes).count() as u64
}

/// The quote that closes a cell whose words begin at `from`.
fn closing(bytes: &[u8], mut from: usize) -> Option<usize> {
    loop {
        let quote = from + memchr(b'"', bytes.get(from..)?)?;
        if bytes.get(quote + 1) != Some(&b'"') {
            return Some(quote);
        }
        from = quote + 2;
    }
}

/// How far bytes that begin with a record go in whole records, and whether a quote is open after that.
pub(crate) fn whole(bytes: &[u8]) -> (usize, bool) {
    let (mut at, mut whole) = (0, 0);
    loop {
        let rest = bytes.get(at..).unwrap_or_default();
        let quote = memchr(b'"', rest);
        let plain = rest.get(..quote.unwrap_or(rest.len())).unwrap_or_default();
        if let Some(end) = memrchr(b'\n', plain) {
            whole = at + end + 1;
        }
        let Some(quote) = quote.map(|quote| at + quote) else { return (whole, false) };
        let before = quote.checked_sub(1).and_then(|before| bytes.get(before));
        if !matches!(before, None | Some(b',' | b'\n')) {
            at = quote + 1;
            continue;
        }
        let Some(close) = closing(bytes, quote + 1) else { return (whole, true) };
        at = close + 1;
    }
}

/// How many bytes are compared together: one bit each.
const WIDE: usize = 64;

/// Commas, line ends and quotes of some bytes, in order.
#[derive(Debug, Clone)]
pub(crate) struct Separators<'b> {
    bytes: &'b [u8],
    /// Where the bytes of `mask` begin.
    base: usize,
    /// A bit for each mark among the 64 bytes from `base` on that was not given yet.
    mask: u64,
}

impl<'b> Separators<'b> {
    /// The marks from a byte on.
    pub(crate) fn from(bytes: &'b [u8], start: usize) -> Self {
        Self { bytes, base: start, mask: mask(bytes, start) }
    }

    /// Where the next mark stands.
    #[inline]
    pub(crate) fn next(&mut self) -> Option<usize> {
        while self.mask == 0 {
            self.base += WIDE;
            if self.base >= self.bytes.len() {
                return None;
            }
            self.mask = mask(self.bytes, self.base);
        }
        let at = self.base + self.mask.trailing_zeros() as usize;
        self.mask &= self.mask - 1;
        Some(at)
    }
}

/// The marks among the 64 bytes from `start` on.
#[inline]
fn mask(bytes: &[u8], start: usize) -> u64 {
    let rest = bytes.get(start..).unwrap_or_default();
    if let Some(chunk) = rest.first_chunk::<WIDE>() {
        return bits(chunk);
    }
    let mut chunk = [0; WIDE];
    for (to, from) in chunk.iter_mut().zip(rest) {
        *to = *from;
    }
    bits(&chunk)
}

/// A bit for each mark; the loops are plain so that the compiler makes vector instructions of them.
#[inline]
fn bits(chunk: &[u8; WIDE]) -> u64 {
    let mut is_mark = [0_u8; WIDE];
    for (to, byte) in is_mark.iter_mut().zip(chunk) {
        *to = u8::from(*byte == b',') | u8::from(*byte == b'\n') | u8::from(*byte == b'"');
    }
    let mut mask = 0;
    for (index, eight) in is_mark.as_chunks::<8>().0.iter().enumerate() {
        // Eight bytes of 0 or 1 become eight bits: the product brings the byte k to the bit 56 + k.
        let gathered = u64::from_le_bytes(*eight).wrapping_mul(0x0102_0408_1020_4080) >> 56;
        mask |= gathered << (index * 8);
    }
    mask
}

#[cfg(test)]
mod tests {
    use csv::{ReaderBuilder, Terminator};
    use proptest::prelude::*;

    use super::*;
    use crate::cell::words;

    fn all(text: &str) -> Vec<Vec<String>> {
        let mut records = CsvRecords::new(text.as_bytes());
        let mut rows = Vec::new();
        loop {
            let at = records.clone();
            if records.next(&ColumnLayout::default()).is_none() {
                return rows;
            }
            rows.push(at.all_cells().into_iter().map(|cell| words(cell).unwrap().into_owned()).collect());
        }
    }

    fn by_the_crate(text: &str) -> Vec<Vec<String>> {
        let mut builder = ReaderBuilder::new();
        builder.has_headers(false).flexible(true).terminator(Terminator::Any(b'\n'));
        let mut reader = builder.from_reader(text.as_bytes());
        let rows =
            reader.records().map(|row| row.unwrap().iter().map(|cell| cell.trim().to_owned()).collect());
        rows.collect()
    }

    proptest! {
        #[test]
        fn records_are_those_of_the_csv_crate(text in "[ab,\"\r\n ]{0,120}") {
            let ours: Vec<_> = all(&text).into_iter().filter(|row| row.iter().any(|cell| !cell.is_empty())).collect();
            let theirs: Vec<_> =
                by_the_crate(&text).into_iter().filter(|row| row.iter().any(|cell| !cell.is_empty())).collect();
            prop_assert_eq!(ours, theirs);
        }

        #[test]
        fn whole_records_end_where_records_end(text in "[a,\"\n]{0,60}") {
            let (end, is_open) = whole(text.as_bytes());
            let mut records = CsvRecords::new(text.as_bytes());
            let (mut last, mut open) = (0, false);
            while let Some(record) = records.next(&ColumnLayout::default()) {
                let after = record.end + 1;
                if after <= text.len() && !record.is_open {
                    last = after;
                }
                open = record.is_open;
            }
            prop_assert_eq!((end, is_open), (last, open));
        }
    }

    #[test]
    fn line_ends_in_quotes_are_counted() {
        let mut records = CsvRecords::new(b"a,\"b\nc\r\nd\"\nnext");
        let first = records.next(&ColumnLayout::default()).unwrap();
        assert_eq!((first.cells, first.breaks, first.is_open), (2, 2, false));
        assert!(!records.next(&ColumnLayout::default()).unwrap().is_open);
        assert!(records.next(&ColumnLayout::default()).is_none());
    }

    proptest! {
        #[test]
        fn marks_are_where_a_plain_search_finds_them(bytes in "[a,\n\"é]{0,200}", start in 0_usize..250) {
            let bytes = bytes.as_bytes();
            let mut marks = Separators::from(bytes, start);
            let found: Vec<usize> = std::iter::from_fn(|| marks.next()).collect();
            let plain = (start..bytes.len()).filter(|at| b",\n\"".contains(&bytes[*at]));
            prop_assert_eq!(found, plain.collect::<Vec<_>>());
        }
    }
}
