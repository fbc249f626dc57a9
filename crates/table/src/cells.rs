//! Where the cells of a record stand in the text.
//!
//! The CSV reader says what is in a cell but not where it stands; errors need both.

use levamen_language::Span;

/// Where the cells of a record stand.
pub(crate) struct CellSpans {
    /// For each cell the place of its words, without quotes and the space around them.
    pub(crate) words: Vec<Span>,
    /// Where the last cell ends, quotes included.
    pub(crate) end: usize,
}

/// The cells of the record that begins at `start`.
pub(crate) fn spans(text: &str, start: usize) -> CellSpans {
    let bytes = text.as_bytes();
    let (mut at, mut found) = (start, Vec::new());
    loop {
        let end = cell_end(bytes, at);
        found.push(words(text, at, end));
        match bytes.get(end) {
            Some(b',') => at = end + 1,
            _ => return CellSpans { words: found, end },
        }
    }
}

/// Where a record begins, past line ends that are left of the record before, and past empty lines.
pub(crate) fn first_byte(text: &str, start: usize) -> usize {
    let rest = text.as_bytes().get(start..).unwrap_or_default();
    start + rest.iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).count()
}

/// Where the cell that begins at `start` ends: at a comma or line end outside quotes. Quotes are quotes only at the
/// beginning of a cell, and one that is doubled is a part of its words.
fn cell_end(bytes: &[u8], start: usize) -> usize {
    let mut quoted = bytes.get(start) == Some(&b'"');
    let mut at = if quoted { start + 1 } else { start };
    while let Some(byte) = bytes.get(at) {
        match byte {
            b'"' if quoted && bytes.get(at + 1) == Some(&b'"') => at += 1,
            b'"' if quoted => quoted = false,
            b',' | b'\r' | b'\n' if !quoted => break,
            _ => {}
        }
        at += 1;
    }
    at
}

/// The words of a cell.
fn words(text: &str, start: usize, end: usize) -> Span {
    let cell = text.get(start..end).unwrap_or_default();
    let inner = cell.trim();
    let inner = inner.strip_prefix('"').unwrap_or(inner);
    let inner = inner.strip_suffix('"').unwrap_or(inner).trim();
    // Where nothing is left, the place is the cell itself.
    let offset = if inner.is_empty() { 0 } else { inner.as_ptr() as usize - cell.as_ptr() as usize };
    let length = if inner.is_empty() { cell.len() } else { inner.len() };
    span(start + offset, start + offset + length)
}

/// A range of bytes. A table is far shorter than a `u32` can count: a longer one is not read.
pub(crate) fn span(start: usize, end: usize) -> Span {
    let byte = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    Span::new(byte(start), byte(end))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// The words of the first record's cells.
    fn cells(text: &str) -> Vec<&str> {
        spans(text, first_byte(text, 0)).words.into_iter().map(|span| span.of(text)).collect()
    }

    #[test]
    fn cells_are_told_by_their_words() {
        assert_eq!(cells("levain, rye flour ,120\nnext"), ["levain", "rye flour", "120"]);
        assert_eq!(cells("\r\nlevain,\"rye, whole\",120\r\n"), ["levain", "rye, whole", "120"]);
        assert_eq!(cells("a,\"say \"\"so\"\"\",1"), ["a", "say \"\"so\"\"", "1"]);
        assert_eq!(cells(",,"), ["", "", ""]);
        assert_eq!(cells("a,\"open\nto the end"), ["a", "open\nto the end"]);
    }

    proptest! {
        /// There are as many as the CSV reader finds, and without quotes they hold the same words.
        #[test]
        fn cells_are_those_of_the_reader(text in "[ab,\"\r\n ]{1,30}") {
            let mut reader =
                csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
            let mut record = csv::StringRecord::new();
            loop {
                let start = usize::try_from(reader.position().byte()).unwrap();
                if !reader.read_record(&mut record).unwrap() {
                    break;
                }
                let found = spans(&text, first_byte(&text, start)).words;
                prop_assert_eq!(found.len(), record.len());
                for (span, cell) in found.into_iter().zip(&record) {
                    if !cell.contains('"') && !cell.trim().is_empty() {
                        let words = span.of(&text).replace('"', "");
                        prop_assert_eq!(words.trim(), cell.trim());
                    }
                }
            }
        }
    }
}
