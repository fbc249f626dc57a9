//! Less than nothing of something: which, by how much, and the largest share that would fit.

use levamen_formula::{
    EquationOrigin, Equations, Formula, IngredientId, Item, Pantry, StageId, Term, Variable, VariableId,
};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use super::needed;
use crate::figure_text::{in_words, percent, place_of};
use crate::linear::{System, Values, solve};
use crate::solved::Solved;

/// One problem for each figure below zero.
pub(super) fn shortages(solved: &Solved<'_>, pantry: &Pantry, known: &[Term]) -> Vec<Problem> {
    let below = needed(&solved.equations).filter_map(|(figure, id)| {
        let value = solved.values.get(id)?;
        value.is_negative().then(|| (figure, id, value.abs()))
    });
    let below: Vec<(Variable, VariableId, Exact)> = below.collect();
    let lines = below.iter().filter(|(figure, ..)| !matches!(figure, Variable::Weight(_) | Variable::Dough));
    let mut problems: Vec<Problem> = lines
        .map(|(figure, id, missing)| match figure {
            Variable::Cell(stage, ingredient) => {
                short_cell(solved, pantry, known, (*stage, *ingredient, *id), missing)
            }
            Variable::LeftOver(stage) => overdrawn(solved, *stage, missing),
            _ => less_than_nothing(*figure, solved, pantry, missing),
        })
        .collect();
    if problems.is_empty() {
        problems.extend(
            below.iter().map(|(figure, _, missing)| less_than_nothing(*figure, solved, pantry, missing)),
        );
    }
    problems
}

/// The stages hold more of an ingredient than the dough has.
fn short_cell(
    solved: &Solved<'_>,
    pantry: &Pantry,
    known: &[Term],
    (stage, ingredient, id): (StageId, IngredientId, VariableId),
    missing: &Exact,
) -> Problem {
    let formula = solved.formula;
    let has = solved.equations.id(Variable::Row(ingredient)).and_then(|row| solved.values.get(row));
    if stage != formula.final_dough() || formula.overall.is_none() {
        return less_than_nothing(Variable::Cell(stage, ingredient), solved, pantry, missing);
    }
    let name = pantry.get(ingredient).map_or("it", |known| known.name.as_str());
    // An ingredient that has no row is not in the dough at all.
    let has = has.cloned().unwrap_or_default();
    let taken = &has + missing;
    let mut problem = Problem::error(
        "more-than-there-is",
        format!("the stages hold more {name} than the dough: {} of {}", percent(&taken), percent(&has)),
    )
    .at(place_of(Variable::Row(ingredient), formula), format!("{} too little", percent(missing)))
    .note("percentages are of the flour of the whole dough");
    for (inner, made) in formula.stages() {
        let line = made.lines.iter().find(|line| line.item == Item::Ingredient(ingredient));
        if let (Some(line), true) = (line, inner != stage && solved.equations.is_within(inner)) {
            problem = problem.and_at(line.place, format!("in `{}`", made.name));
        }
    }
    for help in largest_shares(solved, known, id) {
        problem = problem.help(help);
    }
    problem.help(format!("or give the dough more {name}"))
}

/// For each stage whose share of the flour is stated: the largest share with which the figure comes to zero
/// instead of less. The stated share is released and the figure pinned to zero; the balance gives the bound.
fn largest_shares(solved: &Solved<'_>, known: &[Term], short: VariableId) -> Vec<String> {
    let (equations, formula) = (&solved.equations, solved.formula);
    let mut bounds = Vec::new();
    for (id, stage) in formula.stages() {
        let (Some(takes), Some(content)) = (&stage.takes, equations.id(Variable::Content(id))) else {
            continue;
        };
        let released = position_of(equations, takes.place);
        let pinned = vec![(short, Exact::ONE)];
        let system = System { equations, known, without: &released, more: &[pinned] };
        let Ok(values) = solve(&system) else { continue };
        if let Some(share) =
            values.get(content).filter(|share| share.is_positive() && fits(equations, &values))
        {
            bounds.push(format!("`{}` can take at most {} of the flour", stage.name, floor_percent(share)));
        }
    }
    bounds
}

/// A bound must not be rounded up.
fn floor_percent(share: &Exact) -> String {
    Share::from_fraction(share.clone()).to_percent_at_most()
}

fn fits(equations: &Equations, values: &Values) -> bool {
    needed(equations).all(|(_, id)| values.get(id).is_some_and(|value| !value.is_negative()))
}

/// The equations that are stated at a place.
fn position_of(equations: &Equations, place: levamen_language::Place) -> Vec<usize> {
    let stated = equations
        .all()
        .iter()
        .enumerate()
        .filter(|(_, equation)| equation.origin == EquationOrigin::Stated(place));
    stated.map(|(index, _)| index).collect()
}

/// More is taken of a batch than is made of it.
fn overdrawn(solved: &Solved<'_>, stage: StageId, missing: &Exact) -> Problem {
    let formula: &Formula = solved.formula;
    let name = formula.stage(stage).map_or("the stage", |stage| stage.name.as_ref());
    let gram = solved.equations.id(Variable::Gram).and_then(|id| solved.values.get(id));
    let short = match gram.and_then(|gram| missing.checked_div(gram)) {
        Some(grams) => format!("{} g", grams.to_fixed(1)),
        None => percent(missing),
    };
    let mut problem = Problem::error("more-than-there-is", format!("more `{name}` is taken than is made"))
        .at(place_of(Variable::Made(stage), formula), format!("{short} too little"));
    for line in formula.stages.iter().flat_map(|stage| &stage.lines) {
        if line.item == Item::Stage(stage) {
            problem = problem.and_at(line.place, "taken here");
        }
    }
    problem.help("make more of it, or take less")
}

fn less_than_nothing(figure: Variable, solved: &Solved<'_>, pantry: &Pantry, missing: &Exact) -> Problem {
    let what = in_words(figure, solved.formula, pantry);
    Problem::error("less-than-nothing", format!("the lines make {what} less than nothing"))
        .at(place_of(figure, solved.formula), format!("short by {} of the flour", percent(missing)))
        .help("one of the percentages around it is too large")
}
