//! Problems of a book, as `check` reports them.

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
