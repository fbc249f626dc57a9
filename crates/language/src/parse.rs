//! From a text to its tree.

use crate::fault::text as fault;
use crate::lines::lines;
use crate::outline::Outline;
use crate::source::Source;
use crate::{MAX_BYTES, Place, Problem, Span, TextId, Tree};

/// The most lines that are read of one text: a tree takes more memory than its text, and a text of empty lines
/// takes the most.
pub const MAX_LINES: usize = 1_000_000;

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
/// A fault in a line ends with the line, so one run tells every fault of a text. Reading takes one pass and
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
        Some(fault::too_long(text.len()))
    } else if count > MAX_LINES {
        Some(fault::too_many_lines(count))
    } else {
        None
    };
    if let Some(problem) = refused {
        let problem = problem.at(Place { text: id, span: Span::default() }, "");
        return Parsed { tree: Tree::default(), problems: vec![problem] };
    }
    let mut outline = Outline::new(Source { id, text }, count + 1);
    for line in lines(text) {
        outline.add(&line);
    }
    let (lines, problems) = outline.finish();
    Parsed { tree: Tree { lines }, problems: problems.finish() }
}
