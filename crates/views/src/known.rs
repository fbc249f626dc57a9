//! Names of what a report refers to. A report holds what it refers to, so that each has one; were one missing, a test stops there and
//! a reader sees that something is missing, not an empty place.

use levamen_formula::{Book, FormulaId};
use levamen_timetable::{Step, Work};

/// What stands for a name that a report should have.
const MISSING: &str = "(no name)";

/// The name of a dough or a culture.
pub fn entry_name(book: &Book, id: FormulaId) -> &str {
    let entry = book.entry(id);
    debug_assert!(entry.is_some(), "a dough that the book has not");
    entry.map_or(MISSING, |entry| &entry.name)
}

/// The job of a step.
pub fn job_name<'w>(work: &'w Work, step: &Step) -> &'w str {
    let name = work.job_name(step.job);
    debug_assert!(name.is_some(), "a step of a job that the work has not");
    name.unwrap_or(MISSING)
}
