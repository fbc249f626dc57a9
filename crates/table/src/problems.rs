//! What can be wrong with a table as such: one function for each problem, which holds its words, but for those that the table's
//! form says.

use levamen_language::{Place, Problem};

use crate::row::TableRow;

/// What a table is for, in the words of its problems.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TableForm {
    /// That it holds nothing: `the table says nothing of what is needed`.
    pub empty: &'static str,
    /// Which columns it has.
    pub columns: &'static str,
    /// What a row looks like.
    pub row: &'static str,
    /// The most rows that are read.
    pub most_rows: usize,
    /// What to think of where there are more.
    pub too_many: &'static str,
}

pub(crate) fn no_rows(form: &TableForm, header: Option<Place>) -> Problem {
    let problem = Problem::error("no-rows", form.empty);
    let problem = match header {
        Some(place) => problem.at(place, "nothing stands under this"),
        None => problem,
    };
    problem.help(form.columns).help(form.row)
}

pub(crate) fn separator(header: Place, mark: char) -> Problem {
    let mark = if mark == '\t' { "a tab".to_owned() } else { format!("`{mark}`") };
    Problem::error("separator", format!("line 1: {mark} parts the cells, and not a comma"))
        .at(header, "read as one cell")
        .help("save the table as CSV with commas between its cells and points in its numbers")
}

pub(crate) fn missing_column(form: &TableForm, header: Place, column: &str) -> Problem {
    Problem::error("missing-column", format!("line 1: there is no column `{column}`"))
        .at(header, "the names of the columns")
        .help(form.columns)
}

pub(crate) fn column_twice(second: Place, column: &str) -> Problem {
    Problem::error("column-twice", format!("line 1: there are two columns `{column}`"))
        .at(second, "the second")
        .help("leave one of them out, or give it another name")
}

pub(crate) fn too_many_rows(form: &TableForm, row: Place) -> Problem {
    Problem::error("too-many-rows", format!("the table has more than {} rows", form.most_rows))
        .at(row, "not read from here on")
        .help(form.too_many)
}

pub(crate) fn extra_cell(row: &TableRow<'_>, width: usize) -> Problem {
    let message = format!("line {}: the row has {} cells under {width} columns", row.line(), row.len());
    Problem::error("extra-cell", message)
        .at(row.place(), "more cells than columns")
        .note("a comma parts two cells, also in a number")
        .help("write a decimal point: 640.5; put a name with a comma in quotes")
}
