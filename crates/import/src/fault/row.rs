//! Faults of one row and its cells.

use levamen_language::{Problem, nearest};
use levamen_quantity::MassUnit;

use super::listed;
use crate::name::Wrong;
use crate::table::{Cell, Row};

/// A problem of a cell; the message says in which line.
fn of(cell: &Cell, code: &'static str, message: impl AsRef<str>, label: impl Into<String>) -> Problem {
    Problem::error(code, format!("line {}: {}", cell.line, message.as_ref())).at(cell.place, label)
}

pub(crate) fn broken_cell(cell: &Cell) -> Problem {
    of(cell, "broken-cell", "a cell runs on over the end of its line", "in quotes that are not closed?")
        .help("close the quotes, or write the cell on one line")
}

/// A row with more cells than the table has columns: `cell` is the first too many.
pub(crate) fn extra_cell(cell: &Cell, cells: &[Cell], columns: usize) -> Problem {
    let message = format!("the row has {} cells, and the table {columns} columns", cells.len());
    let problem = of(cell, "extra-cell", message, "one cell too many");
    let digits = |cell: &&Cell| cell.words.bytes().all(|byte| byte.is_ascii_digit());
    let before = columns.checked_sub(1).and_then(|last| cells.get(last));
    match before.filter(|before| digits(before) && digits(&cell)) {
        // `120,5` is two cells.
        Some(before) => problem
            .note("a comma parts two cells, also in a number")
            .help(format!("write {}.{} if the comma is a decimal comma", before.words, cell.words)),
        None => problem
            .note("a comma parts two cells, also in a name")
            .help("put a cell with a comma in quotes: \"butter, salted\""),
    }
}

pub(crate) fn missing_ingredient(cell: &Cell) -> Problem {
    of(cell, "missing-ingredient", "nothing says what is weighed", "no ingredient")
        .help("write what it is in the column `ingredient`, or leave the row out")
}

pub(crate) fn missing_weight(cell: &Cell, ingredient: &Cell) -> Problem {
    of(cell, "missing-amount", format!("`{}` has no weight", ingredient.words), "how much?")
        .help("write the weight in its column, or leave the row out")
}

pub(crate) fn with_unit(cell: &Cell, unit: MassUnit) -> Problem {
    let message = format!("`{}` is more than a number", cell.words);
    of(cell, "unit-in-cell", message, "the number alone")
        .note(format!("all weights of the table are in {}", unit.symbol()))
        .help("write the number alone; the unit of the whole table is said once: `--unit kg`")
}

pub(crate) fn not_a_number(cell: &Cell) -> Problem {
    of(cell, "not-a-number", format!("`{}` is not a number", cell.words), "a weight is wanted")
        .help("write digits, such as 75 or 2.5")
}

/// What the language says of a number, told of a cell.
pub(crate) fn number(cell: &Cell, said: Problem) -> Problem {
    let label = match said.code {
        "decimal-comma" => "not a point".to_owned(),
        _ => said.primary.map(|label| label.text).unwrap_or_default(),
    };
    let spaced = cell.words.contains(' ');
    let help = match said.code {
        "zero" => vec!["leave the row out".to_owned()],
        "range" => vec!["write one number".to_owned()],
        // The words of the language would speak of a unit that the cell does not have.
        "thousands-mark" if spaced => vec![format!("write {}", cell.words.replace(' ', ""))],
        _ => said.help,
    };
    let message = match said.code {
        "thousands-mark" if spaced => format!("`{}` can be read in two ways", cell.words),
        _ => said.message,
    };
    Problem { notes: said.notes, help, ..of(cell, said.code, message, label) }
}

pub(crate) fn name(cell: &Cell, wrong: Wrong) -> Problem {
    let (why, help) = reason(wrong);
    let problem = of(cell, "bad-name", format!("a dough text cannot hold the name `{}`", cell.words), why);
    help.into_iter().fold(problem, Problem::help)
}

/// Why a text cannot hold a name, and how to mend it.
pub(super) fn reason(wrong: Wrong) -> (String, Vec<String>) {
    match wrong {
        Wrong::Empty => ("it has no words".to_owned(), Vec::new()),
        Wrong::Comma => ("a comma ends a name".to_owned(), vec!["write it without a comma".to_owned()]),
        Wrong::NumberSign => ("a # begins a comment".to_owned(), vec!["write it without #".to_owned()]),
        Wrong::FirstWord(first) => {
            let why = format!("`{first}` says something else there");
            // Many a table calls them stage 1 and stage 2.
            if first.eq_ignore_ascii_case("stage") {
                return (
                    why,
                    vec!["say in all its rows what the stage is, such as `first levain`".to_owned()],
                );
            }
            (why, vec![format!("put another word first, or leave `{first}` out")])
        }
        Wrong::NumberAtEnd => (
            "its number and the weight after it can be read as one".to_owned(),
            vec!["put the number before a word, such as `type 550 flour` or `first levain`".to_owned()],
        ),
        Wrong::Amount => (
            "an amount ends a name".to_owned(),
            vec!["write it without a number and unit, and without `rest` at its end".to_owned()],
        ),
        Wrong::Said(message, help) => (message, help),
    }
}

pub(crate) fn twice(first: &Row, second: &Row) -> Problem {
    let (name, line) = (&second.ingredient.words, first.ingredient.line);
    let message = format!("`{name}` is weighed twice into the same stage, first in line {line}");
    of(&second.ingredient, "twice", message, "again")
        .and_at(first.ingredient.place, "here first")
        .help("add the two up in one row, or leave out the row that is wrong")
}

/// A name that nobody has explained; `near` are the names that it may be meant for.
pub(crate) fn unknown_ingredient<'n>(
    cell: &Cell,
    near: impl IntoIterator<Item = &'n str>,
    reads_like_seed: bool,
) -> Problem {
    let name = &cell.words;
    let problem = of(
        cell,
        "unknown-ingredient",
        format!("`{name}` is neither in the pantry nor a stage of this recipe"),
        "nobody has said what this is made of",
    );
    if reads_like_seed {
        return problem
            .note("it reads like a seed, but what feeds it is not known: no stage with flour and water of its own takes it")
            .help("add the rows of the stage that it is fed in")
            .help(format!("or say in the book what it holds: `ingredient {name}` and under it `holds 50 % water`"));
    }
    let near = nearest(name, near);
    let problem = if near.is_empty() {
        problem
    } else {
        problem.help(format!("did you mean {}?", listed(&near, "or")))
    };
    problem.help(format!(
        "{}say in the book what it is made of: `ingredient {name}` and under it `flour`, or `holds 80 % water` and the like",
        if near.is_empty() { "" } else { "or " }
    ))
}

pub(crate) fn named_as_the_dough(cell: &Cell) -> Problem {
    of(
        cell,
        "named-twice",
        format!("the dough and its culture are both called `{}`", cell.words),
        "a culture",
    )
    .help("give the dough another name: `--name \"Country loaf\"`")
}
