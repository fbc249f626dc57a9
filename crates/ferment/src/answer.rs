//! What a model cannot answer, and what it answers with a warning.

use levamen_language::{Hint, Problem};

/// Why a question has no answer, in the baker's words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FermentError {
    /// A stable name for this kind of error, such as `too-hot-for-yeast`.
    pub code: &'static str,
    /// What is wrong: one line that can stand alone.
    pub message: String,
    /// Why.
    pub notes: Vec<String>,
    /// How to mend it.
    pub help: Vec<Hint>,
}

/// Something to look at again beside an answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// A stable name for this kind of remark, such as `cold-culture`.
    pub code: &'static str,
    /// What to look at, and why.
    pub message: String,
}

/// An answer, and what to look at again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer<T> {
    /// What was asked for.
    pub found: T,
    /// What to look at again.
    pub remarks: Vec<Remark>,
}

impl FermentError {
    /// An error of a kind.
    pub(crate) fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, message: message.into(), notes: Vec::new(), help: Vec::new() }
    }

    /// What cannot happen, and is a mistake of this program where it does.
    pub(crate) fn internal(what: &str) -> Self {
        debug_assert!(false, "{what}");
        let Problem { code, message, notes, help, .. } = Problem::internal(what);
        Self { code, message, notes, help }
    }

    /// Says why.
    pub(crate) fn note(mut self, text: impl Into<String>) -> Self {
        self.notes.push(text.into());
        self
    }

    /// Says how to mend it.
    pub(crate) fn help(mut self, text: impl Into<Hint>) -> Self {
        self.help.push(text.into());
        self
    }
}

impl Remark {
    pub(crate) fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, message: message.into() }
    }
}
