//! What is wrong with a text, where, and how to mend it: the one form in which every crate reports.
//!
//! A problem is data. Nothing below the command line prints one, and only one file there draws it.

use crate::hint::Hint;
use crate::place::Place;

/// How bad a problem is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The dough cannot be made from this.
    Error,
    /// The dough can be made, but look again.
    Warning,
}

/// A place and what to say of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub place: Place,
    /// A few words beside the caret; may be empty.
    pub text: String,
}

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// A stable name for this kind of problem, such as `decimal-comma`.
    pub code: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// One line in the baker's words that can stand alone.
    pub message: String,
    /// The words at fault; `None` where the problem is with a whole file or with what is missing.
    pub primary: Option<Label>,
    /// Other places that play a part.
    pub secondary: Vec<Label>,
    /// Why, where the message does not say it all.
    pub notes: Vec<String>,
    /// How to mend it.
    pub help: Vec<Hint>,
}

impl Problem {
    /// An internal error: something that cannot happen did, and no answer is better than a wrong one. It is a fault of
    /// the program and never of the text.
    #[must_use]
    pub fn internal(what: &str) -> Self {
        Self::error("internal", format!("a fault of the program and not of the text: {what}"))
            .help("report it together with the file: no other words would mend it")
    }

    /// An error with the words at fault.
    #[must_use]
    pub fn error(code: &'static str, message: impl Into<String>) -> Self {
        Self {
            code,
            severity: Severity::Error,
            message: message.into(),
            primary: None,
            secondary: Vec::new(),
            notes: Vec::new(),
            help: Vec::new(),
        }
    }

    /// A warning with the words that deserve another look.
    #[must_use]
    pub fn warning(code: &'static str, message: impl Into<String>) -> Self {
        Self { severity: Severity::Warning, ..Self::error(code, message) }
    }

    /// Puts the caret, with a few words beside it.
    #[must_use]
    pub fn at(mut self, place: Place, text: impl Into<String>) -> Self {
        self.primary = Some(Label { place, text: text.into() });
        self
    }

    /// Points at another place that plays a part.
    #[must_use]
    pub fn and_at(mut self, place: Place, text: impl Into<String>) -> Self {
        self.secondary.push(Label { place, text: text.into() });
        self
    }

    /// Says why.
    #[must_use]
    pub fn note(mut self, text: impl Into<String>) -> Self {
        self.notes.push(text.into());
        self
    }

    /// Says how to mend it.
    #[must_use]
    pub fn help(mut self, text: impl Into<Hint>) -> Self {
        self.help.push(text.into());
        self
    }
}

/// Problems by text and place; those without a place first.
#[must_use]
pub fn in_order_of_texts(problems: &[Problem]) -> Vec<&Problem> {
    let mut ordered: Vec<&Problem> = problems.iter().collect();
    ordered.sort_by_key(|problem| problem.primary.as_ref().map(|label| label.place));
    ordered
}
