//! The first layer: lines, their indentation and their comments.

use memchr::{Memchr2, memchr2_iter};

use crate::name::across;
use crate::space::{is_blank, trim, trim_end};

/// The most bytes that are read of one text. A longer one is one problem, and nothing of it is parsed.
pub const MAX_BYTES: usize = 32 << 20;

/// The most lines that are read of one text: a tree takes more memory than its text, and a text of empty lines
/// takes the most.
pub const MAX_LINES: usize = 1_000_000;

/// A tab advances to the next multiple of this many columns.
const TAB: u32 = 8;

/// A line as it is in the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct RawLine<'t> {
    /// How far the line is indented, in columns.
    pub(crate) columns: u32,
    /// The line without its indentation, its end and the space before it.
    pub(crate) whole: &'t str,
    /// The words before the comment.
    pub(crate) body: &'t str,
    /// The comment, from its `#`.
    pub(crate) comment: Option<&'t str>,
    /// Whether the line is nothing but printable ASCII and tabs, as nearly all are.
    pub(crate) plain: bool,
}

/// The lines of a text.
#[derive(Debug)]
pub(crate) struct Lines<'t> {
    text: &'t str,
    /// Where the next line begins.
    start: usize,
    /// Line ends and the signs that begin comments, found in one pass.
    marks: Memchr2<'t>,
    /// The first byte from the line's beginning on that is not plain.
    odd: usize,
}

/// The lines of a text, which end with a line feed or with carriage return and line feed.
pub(crate) fn lines(text: &str) -> Lines<'_> {
    // Some editors begin a file with a byte order mark. It says nothing of the dough.
    let start = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let odd = find_odd(text.as_bytes(), start);
    Lines { text, start, marks: memchr2_iter(b'\n', b'#', text.as_bytes()), odd }
}

impl<'t> Iterator for Lines<'t> {
    type Item = RawLine<'t>;

    fn next(&mut self) -> Option<RawLine<'t>> {
        // The last line feed ends the last line; it begins no other.
        if self.start >= self.text.len() {
            return None;
        }
        let (mut end, mut hash) = (self.text.len(), None);
        for mark in self.marks.by_ref() {
            if self.text.as_bytes().get(mark) == Some(&b'\n') {
                end = mark;
                break;
            }
            hash = hash.or(Some(mark));
        }
        let start = self.start;
        self.start = end + 1;
        if self.odd < start {
            self.odd = find_odd(self.text.as_bytes(), start);
        }
        let slice = |from: usize, to: usize| self.text.get(from..to).unwrap_or_default();
        let comment = hash.map(|hash| trim(without_return(slice(hash, end))));
        let (columns, words) = indentation(without_return(slice(start, hash.unwrap_or(end))));
        let body = trim_end(words);
        let whole = comment.map_or(body, |comment| trim(across(self.text, words, comment)));
        Some(RawLine { columns, whole, body, comment, plain: self.odd >= end })
    }
}

/// A line without the carriage return before its end.
fn without_return(line: &str) -> &str {
    line.strip_suffix('\r').unwrap_or(line)
}

/// The first byte at or after `start` that is neither printable ASCII nor a tab nor a line feed.
fn find_odd(text: &[u8], start: usize) -> usize {
    let is_odd = |byte: &u8| !matches!(byte, b' '..=b'~' | b'\t' | b'\n');
    // In steps of a fixed size without an early end, which the compiler turns into vector instructions.
    let (steps, _) = text.get(start..).unwrap_or_default().as_chunks::<32>();
    let plain =
        steps.iter().take_while(|step| !step.iter().fold(false, |odd, byte| odd | is_odd(byte))).count();
    let from = start + plain * 32;
    let rest = text.get(from..).unwrap_or_default();
    from + rest.iter().position(is_odd).unwrap_or(rest.len())
}

/// The columns that a line is indented by, and what follows.
fn indentation(line: &str) -> (u32, &str) {
    let spaces = line.bytes().take_while(|byte| *byte == b' ').count();
    match line.as_bytes().get(spaces) {
        Some(b'!'..=b'~') | None => {
            (u32::try_from(spaces).unwrap_or(u32::MAX), line.get(spaces..).unwrap_or_default())
        }
        Some(_) => odd_indentation(line),
    }
}

/// The columns of an indentation that is not plain spaces alone, and what follows it.
fn odd_indentation(line: &str) -> (u32, &str) {
    let mut columns = 0;
    for (offset, character) in line.char_indices() {
        match character {
            '\t' => columns += TAB - columns % TAB,
            blank if is_blank(blank) => columns += 1,
            _ => return (columns, line.get(offset..).unwrap_or_default()),
        }
    }
    (columns, line.get(line.len()..).unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bodies(text: &str) -> Vec<(u32, &str)> {
        lines(text).map(|line| (line.columns, line.body)).collect()
    }

    #[test]
    fn both_line_ends_are_read_and_the_last_begins_no_line() {
        assert_eq!(bodies("a\r\nb\n"), [(0, "a"), (0, "b")]);
        assert_eq!(bodies("a\n\nb"), [(0, "a"), (0, ""), (0, "b")]);
        assert_eq!(bodies(""), []);
    }

    #[test]
    fn a_line_knows_whether_it_is_plain() {
        let text = format!("dough A\r\n{}\n24 °C\n\tplain\n\u{7}\nplain", "x".repeat(100));
        let plain: Vec<bool> = lines(&text).map(|line| line.plain).collect();
        assert_eq!(plain, [false, true, false, true, false, true]);
    }

    #[test]
    fn a_tab_goes_to_the_next_multiple_of_eight() {
        assert_eq!(bodies("\ta\n  \tb\n\t c"), [(8, "a"), (8, "b"), (9, "c")]);
    }

    #[test]
    fn a_comment_runs_from_its_hash_to_the_end() {
        let line = lines("  salt 2 %  # fine # sea ").next().unwrap();
        assert_eq!((line.body, line.comment), ("salt 2 %", Some("# fine # sea")));
        assert_eq!(line.whole, "salt 2 %  # fine # sea");
    }

    #[test]
    fn a_byte_order_mark_is_no_part_of_the_first_line() {
        assert_eq!(bodies("\u{feff}dough A"), [(0, "dough A")]);
    }
}
