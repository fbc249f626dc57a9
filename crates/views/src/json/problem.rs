//! Problems of a book, as `check` reports them.

use levamen_language::{Label, Problem, Severity, Texts, in_order_of_texts};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One thing that is wrong with a book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ProblemJson {
    /// A stable name for this kind of problem, such as "decimal-comma".
    pub code: String,
    /// "error" or "warning".
    pub severity: String,
    /// One line in the baker's words that can stand alone.
    pub message: String,
    /// The file at fault; null where the problem is with the book as a whole.
    pub file: Option<String>,
    /// The line, counted from 1.
    pub line: Option<u32>,
    /// The column of the first character at fault, counted from 1.
    pub column: Option<u32>,
    /// The line of the last character at fault.
    pub end_line: Option<u32>,
    /// The column after the last character at fault.
    pub end_column: Option<u32>,
    /// A few words beside the place; may be empty.
    pub label: String,
    /// Other places that play a part.
    pub related: Vec<ProblemPlaceJson>,
    /// Why, where the message does not say it all.
    pub notes: Vec<String>,
    /// How to mend it.
    pub help: Vec<String>,
}

/// Another place that plays a part in a problem.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "ProblemPlace")]
pub struct ProblemPlaceJson {
    /// The file.
    pub file: String,
    /// The line, counted from 1.
    pub line: u32,
    /// The column of the first character, counted from 1.
    pub column: u32,
    /// The line of the last character.
    pub end_line: u32,
    /// The column after the last character.
    pub end_column: u32,
    /// A few words beside the place; may be empty.
    pub label: String,
}

/// Problems, in the order of the texts.
#[must_use]
pub fn problems(texts: &Texts, problems: &[Problem]) -> Vec<ProblemJson> {
    in_order_of_texts(problems).into_iter().map(|problem| to_json(texts, problem)).collect()
}

fn to_json(texts: &Texts, problem: &Problem) -> ProblemJson {
    let place = |label: &Label| {
        let (name, _) = texts.text(label.place.text)?;
        let (line, column) = texts.line_and_column(label.place.text, label.place.span.start)?;
        let (end_line, end_column) = texts.line_and_column(label.place.text, label.place.span.end)?;
        let (file, label) = (name.to_owned(), label.text.clone());
        Some(ProblemPlaceJson { file, line, column, end_line, end_column, label })
    };
    let at = problem.primary.as_ref().and_then(place);
    let severity = match problem.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    };
    ProblemJson {
        code: problem.code.to_owned(),
        severity: severity.to_owned(),
        message: problem.message.clone(),
        file: at.as_ref().map(|at| at.file.clone()),
        line: at.as_ref().map(|at| at.line),
        column: at.as_ref().map(|at| at.column),
        end_line: at.as_ref().map(|at| at.end_line),
        end_column: at.as_ref().map(|at| at.end_column),
        label: at.map(|at| at.label).unwrap_or_default(),
        related: problem.secondary.iter().filter_map(place).collect(),
        notes: problem.notes.clone(),
        help: problem.help.iter().map(ToString::to_string).collect(),
    }
}
