//! What can be wrong with a table of a recipe: one function for each problem, which holds its words.

use levamen_language::{AskedField, Hint, Place, Problem, nearest};
use levamen_quantity::{Mass, MassUnit};

use crate::name::NameError;
use crate::recipe::{FINAL_DOUGH, MAX_ROWS, RecipeCell, RecipeRow, RecipeStage};

/// The most problems that are reported of one table; more are no help to anybody.
pub(crate) const MAX_PROBLEMS: usize = 200;

/// Names in a row: `a`, `b` and `c`, each in back quotes; of many only the first.
pub(crate) fn listed(names: &[&str], joint: &str) -> String {
    const MOST: usize = 5;
    let mut quoted: Vec<String> = names.iter().take(MOST).map(|name| format!("`{name}`")).collect();
    if names.len() > MOST {
        quoted.push(format!("{} more", names.len() - MOST));
    }
    levamen_language::listed(quoted, joint)
}

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

pub(crate) fn column_twice(first: &RecipeCell, second: &RecipeCell) -> Problem {
    let message = format!("line 1: `{}` and `{}` say the same twice", first.words, second.words);
    Problem::error("column-twice", message)
        .at(second.place, "which of the two?")
        .and_at(first.place, "the first")
        .help("leave one of the columns out, or give it another name")
}

pub(crate) fn other_unit(cell: &RecipeCell, own: MassUnit, unit: MassUnit) -> Problem {
    let (own, unit) = (own.symbol(), unit.symbol());
    Problem::error(
        "other-unit",
        format!("line 1: the column is in {own}, and the weights are to be read in {unit}"),
    )
    .at(cell.place, format!("not {unit}"))
    .help(Hint::of_field(format!("say that they are in {own}: `"), AskedField::Unit, format!(" {own}`")))
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
pub(crate) fn dough_name(wrong: NameError) -> Problem {
    let (why, help) = name_problem(wrong);
    let problem = Problem::error("bad-name", format!("the dough cannot be called so: {why}"));
    help.into_iter().fold(problem, Problem::help).help(Hint::of_field(
        "give it another name: `",
        AskedField::Name,
        " \"Country loaf\"`",
    ))
}

/// A problem of a cell; the message says in which line.
fn of(cell: &RecipeCell, code: &'static str, message: impl AsRef<str>, label: impl Into<String>) -> Problem {
    Problem::error(code, format!("line {}: {}", cell.line, message.as_ref())).at(cell.place, label)
}

pub(crate) fn broken_cell(cell: &RecipeCell) -> Problem {
    of(cell, "broken-cell", "a cell runs on over the end of its line", "in quotes that are not closed?")
        .help("close the quotes, or write the cell on one line")
}

/// A row with more cells than the table has columns: `cell` is the first too many.
pub(crate) fn extra_cell(cell: &RecipeCell, cells: &[RecipeCell], columns: usize) -> Problem {
    let message = format!("the row has {} cells, and the table {columns} columns", cells.len());
    let problem = of(cell, "extra-cell", message, "one cell too many");
    let digits = |cell: &&RecipeCell| cell.words.bytes().all(|byte| byte.is_ascii_digit());
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

pub(crate) fn missing_ingredient(cell: &RecipeCell) -> Problem {
    of(cell, "missing-ingredient", "nothing says what is weighed", "no ingredient")
        .help("write what it is in the column `ingredient`, or leave the row out")
}

pub(crate) fn missing_weight(cell: &RecipeCell, ingredient: &RecipeCell) -> Problem {
    of(cell, "missing-amount", format!("`{}` has no weight", ingredient.words), "how much?")
        .help("write the weight in its column, or leave the row out")
}

pub(crate) fn with_unit(cell: &RecipeCell, unit: MassUnit) -> Problem {
    let message = format!("`{}` is more than a number", cell.words);
    of(cell, "unit-in-cell", message, "the number alone")
        .note(format!("all weights of the table are in {}", unit.symbol()))
        .help(Hint::of_field(
            "write the number alone; the unit of the whole table is said once: `",
            AskedField::Unit,
            " kg`",
        ))
}

pub(crate) fn not_a_number(cell: &RecipeCell) -> Problem {
    of(cell, "not-a-number", format!("`{}` is not a number", cell.words), "a weight is wanted")
        .help("write digits, such as 75 or 2.5")
}

/// What the language says of a number, as a problem of a cell.
pub(crate) fn number(cell: &RecipeCell, said: Problem) -> Problem {
    let label = match said.code {
        "decimal-comma" => "not a point".to_owned(),
        _ => said.primary.map(|label| label.text).unwrap_or_default(),
    };
    let spaced = cell.words.contains(' ');
    let help = match said.code {
        "zero" => vec!["leave the row out".into()],
        "range" => vec!["write one number".into()],
        // The words of the language would speak of a unit that the cell does not have.
        "thousands-mark" if spaced => vec![format!("write {}", cell.words.replace(' ', "")).into()],
        _ => said.help,
    };
    let message = match said.code {
        "thousands-mark" if spaced => format!("`{}` can be read in two ways", cell.words),
        _ => said.message,
    };
    Problem { notes: said.notes, help, ..of(cell, said.code, message, label) }
}

pub(crate) fn name(cell: &RecipeCell, wrong: NameError) -> Problem {
    let (why, help) = name_problem(wrong);
    let problem = of(cell, "bad-name", format!("a dough text cannot hold the name `{}`", cell.words), why);
    help.into_iter().fold(problem, Problem::help)
}

/// Why a text cannot hold a name, and how to mend it.
fn name_problem(wrong: NameError) -> (String, Vec<Hint>) {
    match wrong {
        NameError::Empty => ("it has no words".to_owned(), Vec::new()),
        NameError::Comma => ("a comma ends a name".to_owned(), vec!["write it without a comma".into()]),
        NameError::NumberSign => ("a # begins a comment".to_owned(), vec!["write it without #".into()]),
        NameError::FirstWord(first) => {
            let why = format!("`{first}` says something else there");
            // Many a table calls them stage 1 and stage 2.
            if first.eq_ignore_ascii_case("stage") {
                return (why, vec!["say in all its rows what the stage is, such as `first levain`".into()]);
            }
            (why, vec![format!("put another word first, or leave `{first}` out").into()])
        }
        NameError::NumberAtEnd => (
            "its number and the weight after it can be read as one".to_owned(),
            vec!["put the number before a word, such as `type 550 flour` or `first levain`".into()],
        ),
        NameError::Amount => (
            "an amount ends a name".to_owned(),
            vec!["write it without a number and unit, and without `rest` at its end".into()],
        ),
        NameError::Said(message, help) => (message, help),
    }
}

/// A name that nobody has explained; `near` are the names that it may be meant for.
pub(crate) fn unknown_ingredient<'n>(
    cell: &RecipeCell,
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

pub(crate) fn named_as_the_dough(cell: &RecipeCell) -> Problem {
    of(
        cell,
        "named-twice",
        format!("the dough and its culture are both called `{}`", cell.words),
        "a culture",
    )
    .help(Hint::of_field("give the dough another name: `", AskedField::Name, " \"Country loaf\"`"))
}

/// A circle of stages, each with the row that takes the next one.
pub(crate) fn feeds_itself(circle: &[(&RecipeStage<'_>, &RecipeRow)]) -> Problem {
    let names: Vec<&str> = circle.iter().map(|(stage, _)| stage.name).collect();
    let message = match names.as_slice() {
        [one] => format!("the stage `{one}` takes in itself"),
        several => format!("the stages {} take in each other", listed(several, "and")),
    };
    let Some(((stage, row), more)) = circle.split_last() else {
        return Problem::error("feeds-itself", message);
    };
    let mut problem = Problem::error("feeds-itself", format!("line {}: {message}", row.ingredient.line))
        .at(row.ingredient.place, "this closes the circle");
    for (_, row) in more.iter().take(3) {
        problem = problem.and_at(row.ingredient.place, "taken in here");
    }
    problem
        .help(format!("if it is the seed of `{}`, give it a name of its own: `mother culture`", stage.name))
        .help("if it is an ingredient, give the stage another name")
}

/// Several stages that no other takes.
pub(crate) fn several_final_doughs(stages: &[&RecipeStage<'_>]) -> Problem {
    let names: Vec<&str> = stages.iter().map(|stage| stage.name).collect();
    let line = stages.first().map_or(0, |stage| stage.first.stage.line);
    let message = format!("line {line}: {} go into no other stage", listed(&names, "and"));
    let mut problem = Problem::error("several-final-doughs", message)
        .note("the stage that no other takes is the final dough, so there is one");
    for stage in stages.iter().take(5) {
        let (place, words) = (stage.first.stage.place, "goes nowhere");
        problem =
            if problem.primary.is_none() { problem.at(place, words) } else { problem.and_at(place, words) };
    }
    let name = names.into_iter().find(|name| *name != FINAL_DOUGH).unwrap_or_default();
    problem
        .help(format!("add a row that takes it, with its name as the ingredient: `final dough,{name},500`"))
}

/// A stage called final dough that is not the last.
pub(crate) fn final_dough_taken(stage: &RecipeStage<'_>, row: &RecipeRow) -> Problem {
    let message = format!("line {}: `{}` goes into another stage", row.ingredient.line, stage.name);
    Problem::error("final-dough-taken", message)
        .at(row.ingredient.place, "taken in here")
        .and_at(stage.first.stage.place, "so this is not the last stage")
        .help("give the stage another name in all its rows: `base dough`")
}

/// More of a stage is taken than its rows add up to.
pub(crate) fn more_taken_than_made(
    stage: &RecipeStage<'_>,
    rows: &[&RecipeRow],
    (taken, made): (&Mass, &Mass),
    unit: MassUnit,
) -> Problem {
    let shown = |mass: &Mass| format!("{} {}", mass.in_unit(unit).to_decimal_string(), unit.symbol());
    let line = rows.last().map_or(0, |row| row.figure.line);
    let message = format!(
        "line {line}: {} of `{}` is taken, and its rows make {}",
        shown(taken),
        stage.name,
        shown(made)
    );
    let mut problem = Problem::error("more-taken-than-made", message);
    for row in rows.iter().rev().take(4) {
        problem = if problem.primary.is_none() {
            problem.at(row.figure.place, format!("{} too much", shown(&(taken - made))))
        } else {
            problem.and_at(row.figure.place, "also taken here")
        };
    }
    problem
        .and_at(stage.first.stage.place, format!("the first row of `{}`", stage.name))
        .help("correct the weight that is taken or one that goes in; is a row missing?")
}
