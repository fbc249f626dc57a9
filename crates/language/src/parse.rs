//! From the bytes of a file to a text, and from a text to its tree.

use crate::lines::{MAX_BYTES, MAX_LINES, lines};
use crate::name::LineText;
use crate::outline::Outline;
use crate::problems::text as text_problems;
use crate::{Place, Problem, Span, TextId, Tree};

/// A text's tree and everything that is wrong with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Parsed<'t> {
    /// The tree. A line that could not be read is [`crate::Statement::Unread`] in it.
    pub tree: Tree<'t>,
    /// What is wrong, in the order of the text: all of it, up to 200 problems.
    pub problems: Vec<Problem>,
}

/// Reads a text.
///
/// An error in a line ends with the line, so one run reports every error of a text. Reading takes one pass and
/// never fails: a text of any bytes has a tree.
///
/// ```
/// use levamen_language::{TextId, parse};
///
/// let parsed = parse(TextId(0), "dough Tin loaf\n\noverall\n  flour 100 %\n  water 1,5 %\n");
/// assert_eq!(parsed.problems[0].code, "decimal-comma");
/// assert_eq!(parsed.tree.lines.len(), 5);
/// ```
#[must_use]
pub fn parse(id: TextId, text: &str) -> Parsed<'_> {
    let count = memchr::memchr_iter(b'\n', text.as_bytes()).count();
    let refused = if text.len() > MAX_BYTES {
        Some(text_problems::too_long(text.len()))
    } else if count > MAX_LINES {
        Some(text_problems::too_many_lines(count))
    } else {
        None
    };
    if let Some(problem) = refused {
        let problem = problem.at(Place { text: id, span: Span::default() }, "");
        return Parsed { tree: Tree::default(), problems: vec![problem] };
    }
    let mut outline = Outline::new(LineText { id, text }, count + 1);
    for line in lines(text) {
        outline.add(&line);
    }
    let (lines, problems) = outline.finish();
    Parsed { tree: Tree { lines }, problems: problems.finish() }
}

/// The text that some bytes are.
///
/// Nothing is taken away: a byte order mark stays, and [`crate::parse`] passes over it.
///
/// # Errors
/// A [`Problem`] where the bytes are more than [`MAX_BYTES`] or not UTF-8; it names the line and the byte in
/// the line.
pub fn decode(id: TextId, bytes: &[u8]) -> Result<&str, Problem> {
    if bytes.len() > MAX_BYTES {
        return Err(text_problems::too_long(bytes.len()).at(Place { text: id, span: Span::default() }, ""));
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let line = memchr::memchr_iter(b'\n', before).count() + 1;
        let start = memchr::memrchr(b'\n', before).map_or(0, |end| end + 1);
        let mut problem = text_problems::not_utf8(line, before.len() - start + 1);
        // The bytes cannot be shown, so the place says only which text it is.
        problem.primary =
            Some(crate::Label { place: Place { text: id, span: Span::default() }, text: String::new() });
        problem
    })
}
