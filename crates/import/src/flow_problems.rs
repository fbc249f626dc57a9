//! Faults in how stages go into each other.

use levamen_language::Problem;
use levamen_quantity::{Mass, MassUnit};

use crate::problems::listed;
use crate::recipe::{FINAL_DOUGH, RecipeStage};
use crate::table::RecipeRow;

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
