//! What can be wrong with a text: one function for each problem, which has its words; and the list in which the
//! problems of a text are gathered.

pub(crate) mod amount;
pub(crate) mod block;
pub(crate) mod heading;
pub(crate) mod number;
pub(crate) mod text;

use crate::name::LineText;
use crate::place::Span;
use crate::problem::Problem;
use crate::syntax_error::SyntaxError;

/// The most problems that are kept of one text. More are no help to anybody.
pub(crate) const MAX_PROBLEMS: usize = 200;

/// A list of problems that stops growing.
#[derive(Debug)]
pub(crate) struct ProblemList<'t> {
    source: LineText<'t>,
    kept: Vec<Problem>,
    left_out: usize,
}

impl<'t> ProblemList<'t> {
    /// No problems yet.
    pub(crate) const fn new(source: LineText<'t>) -> Self {
        Self { source, kept: Vec::new(), left_out: 0 }
    }

    /// Adds a problem, or only counts it where there are enough.
    pub(crate) fn push(&mut self, error: SyntaxError<'t>) {
        if self.kept.len() < MAX_PROBLEMS {
            self.kept.push(error.into_problem(self.source));
        } else {
            self.left_out += 1;
        }
    }

    /// The problems in the order of the text, and at the end how many more there are.
    pub(crate) fn finish(mut self) -> Vec<Problem> {
        let start =
            |problem: &Problem| problem.primary.as_ref().map_or(Span::default(), |label| label.place.span);
        self.kept.sort_by_key(start);
        if self.left_out > 0 {
            self.kept.push(text::more_problems(self.left_out));
        }
        self.kept
    }
}
