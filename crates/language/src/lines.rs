//! The first layer: lines, their indentation and their comments.

use memchr::{Memchr, memchr, memchr_iter};

use crate::words::{is_blank, trim};

/// A tab advances to the next multiple of this many columns.
const TAB: u32 = 8;

/// A line as it stands in the text.
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
}

/// The lines of a text.
#[derive(Debug)]
pub(crate) struct Lines<'t> {
    text: &'t str,
    start: usize,
    ends: Memchr<'t>,
    done: bool,
}

/// The lines of a text, which end with a line feed or with carriage return and line feed.
pub(crate) fn lines(text: &str) -> Lines<'_> {
    // Some editors begin a file with a byte order mark. It says nothing of the dough.
    let start = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    Lines { text, start, ends: memchr_iter(b'\n', text.as_bytes()), done: false }
}

impl<'t> Iterator for Lines<'t> {
    type Item = RawLine<'t>;

    fn next(&mut self) -> Option<RawLine<'t>> {
        if self.done {
            return None;
        }
        let end = self.ends.next();
        let line = self.text.get(self.start..end.unwrap_or(self.text.len())).unwrap_or_default();
        if let Some(end) = end {
            self.start = end + 1;
        } else {
            self.done = true;
            // The last line feed ends the last line; it begins no other.
            if line.is_empty() {
                return None;
            }
        }
        Some(split(line.strip_suffix('\r').unwrap_or(line)))
    }
}

/// Parts a line into indentation, words and comment.
fn split(line: &str) -> RawLine<'_> {
    let mut columns = 0;
    let mut start = line.len();
    for (offset, character) in line.char_indices() {
        match character {
            '\t' => columns += TAB - columns % TAB,
            blank if is_blank(blank) => columns += 1,
            _ => {
                start = offset;
                break;
            }
        }
    }
    let whole = trim(line.get(start..).unwrap_or_default());
    match memchr(b'#', whole.as_bytes()).and_then(|hash| whole.split_at_checked(hash)) {
        Some((body, comment)) => RawLine { columns, whole, body: trim(body), comment: Some(comment) },
        None => RawLine { columns, whole, body: whole, comment: None },
    }
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
    fn a_tab_goes_to_the_next_multiple_of_eight() {
        assert_eq!(bodies("\ta\n  \tb\n\t c"), [(8, "a"), (8, "b"), (9, "c")]);
    }

    #[test]
    fn a_comment_runs_from_its_hash_to_the_end() {
        let line = split("  salt 2 %  # fine # sea ");
        assert_eq!((line.body, line.comment), ("salt 2 %", Some("# fine # sea")));
        assert_eq!(line.whole, "salt 2 %  # fine # sea");
    }

    #[test]
    fn a_byte_order_mark_is_no_part_of_the_first_line() {
        assert_eq!(bodies("\u{feff}dough A"), [(0, "dough A")]);
    }
}
