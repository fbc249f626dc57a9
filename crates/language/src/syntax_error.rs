//! What is wrong with a line. It points at a slice of the text, and becomes a [`Problem`] with places when its line is
//! done.

use crate::hint::Hint;
use crate::name::LineText;
use crate::problem::Problem;
use crate::words::listed_quoted;

/// One thing that is wrong with a line. Boxed, so that a line that is right pays nothing for it.
#[derive(Debug)]
pub(crate) struct SyntaxError<'t>(Box<Details<'t>>);

#[derive(Debug)]
struct Details<'t> {
    problem: Problem,
    at: &'t str,
    label: String,
    also: Vec<(&'t str, String)>,
}

impl<'t> SyntaxError<'t> {
    /// An error with a stable code, a message that stands alone, and the words at fault.
    pub(crate) fn new(code: &'static str, at: &'t str, message: impl Into<String>) -> Self {
        let problem = Problem::error(code, message);
        Self(Box::new(Details { problem, at, label: String::new(), also: Vec::new() }))
    }

    /// Whether this is the error of that code.
    pub(crate) fn is(&self, code: &str) -> bool {
        self.0.problem.code == code
    }

    /// Whether it says already how to mend it.
    pub(crate) fn is_helped(&self) -> bool {
        !self.0.problem.help.is_empty()
    }

    /// The words at fault.
    pub(crate) const fn words(&self) -> &'t str {
        self.0.at
    }

    /// A few words beside the caret.
    pub(crate) fn label(mut self, text: impl Into<String>) -> Self {
        self.0.label = text.into();
        self
    }

    /// Another place that plays a part.
    pub(crate) fn also(mut self, at: &'t str, text: impl Into<String>) -> Self {
        self.0.also.push((at, text.into()));
        self
    }

    /// Why.
    pub(crate) fn note(mut self, text: impl Into<String>) -> Self {
        self.0.problem.notes.push(text.into());
        self
    }

    /// How to mend it.
    pub(crate) fn help(mut self, text: impl Into<Hint>) -> Self {
        self.0.problem.help.push(text.into());
        self
    }

    /// A better way to mend it than what was said.
    pub(crate) fn instead(mut self, text: impl Into<Hint>) -> Self {
        self.0.problem.help = vec![text.into()];
        self
    }

    /// Suggests the nearest of some words, where one is near.
    pub(crate) fn nearest<'c>(self, word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Self {
        let near = crate::nearest(word, candidates);
        if near.is_empty() {
            self
        } else {
            self.help(format!("did you mean {}?", listed_quoted(&near, "or")))
        }
    }

    /// The error with places in its text.
    pub(crate) fn into_problem(self, source: LineText<'t>) -> Problem {
        let Details { problem, at, label, also } = *self.0;
        let problem = problem.at(source.place(at), label);
        also.into_iter().fold(problem, |problem, (at, text)| problem.and_at(source.place(at), text))
    }
}

/// The words of a text at error as a message quotes them: on one line, and not too long.
pub(crate) fn quoted(text: &str) -> String {
    const MOST: usize = 60;
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if words.chars().count() <= MOST {
        return words;
    }
    words.chars().take(MOST).chain(['…']).collect()
}
