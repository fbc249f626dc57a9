//! Faults of a whole table: its first line, and how much of it there is.

use levamen_language::{Place, Problem};
use levamen_quantity::MassUnit;

use crate::name::Wrong;
use crate::table::{Cell, MAX_ROWS};

const FORM: &str = "the first line names the columns: `stage,ingredient,grams`";

pub(crate) fn no_rows(header: Option<Place>) -> Problem {
    let problem = Problem::error("no-rows", "the table has no rows");
    let problem = match header {
        Some(place) => problem.at(place, "nothing stands under this"),
        None => problem,
    };
    problem.help(FORM).help("a line for each thing that is weighed comes under it: `poolish,water,300`")
}

pub(crate) fn separator(header: Place, mark: char) -> Problem {
    let mark = if mark == '\t' { "a tab".to_owned() } else { format!("`{mark}`") };
    Problem::error("separator", format!("line 1: the cells are parted by {mark}, not by commas"))
        .at(header, "one cell in all")
        .help("save the table as CSV with commas between its cells and points in its numbers")
}

pub(crate) fn missing_column(header: Place, column: &str) -> Problem {
    Problem::error("missing-column", format!("line 1: no column is called `{column}`"))
        .at(header, "the names of the columns are read from here")
        .help(FORM)
        .help("they may stand in any order, and other columns beside them")
}

pub(crate) fn column_twice(first: &Cell, second: &Cell) -> Problem {
    let message = format!("line 1: `{}` and `{}` say the same twice", first.words, second.words);
    Problem::error("column-twice", message)
        .at(second.place, "which of the two?")
        .and_at(first.place, "the first")
        .help("leave one of the columns out, or give it another name")
}

pub(crate) fn other_unit(cell: &Cell, own: MassUnit, unit: MassUnit) -> Problem {
    let (own, unit) = (own.symbol(), unit.symbol());
    Problem::error(
        "other-unit",
        format!("line 1: the column is in {own}, and the weights are to be read in {unit}"),
    )
    .at(cell.place, format!("not {unit}"))
    .help(format!("say that they are in {own}: `--unit {own}`"))
}

pub(crate) fn too_many_rows(row: Place) -> Problem {
    Problem::error("too-many-rows", format!("the table has more than {MAX_ROWS} rows"))
        .at(row, "not read from here on")
        .help("is this the table that was meant? a table is one recipe")
}

pub(crate) fn more_problems() -> Problem {
    Problem::error("more-problems", "there are more problems than are shown").help("mend these first")
}

pub(crate) fn no_flour() -> Problem {
    Problem::error("no-flour", "nothing in the table is flour")
        .note("baker's percentages are of the flour")
        .help("a flour that the book names its own way counts if the book says so: `ingredient` and its name, and under it `flour`")
}

/// The dough's own name, which does not stand in the table.
pub(crate) fn dough_name(wrong: Wrong) -> Problem {
    let (why, help) = super::row::reason(wrong);
    let problem = Problem::error("bad-name", format!("the dough cannot be called so: {why}"));
    help.into_iter().fold(problem, Problem::help).help("give it another name: `--name \"Country loaf\"`")
}
