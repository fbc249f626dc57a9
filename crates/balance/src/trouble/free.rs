//! Figures that nothing settles, and what would settle them.

use levamen_formula::{Figure, FigureId, Formula, Item, Pantry, StageId, Term};
use levamen_language::Problem;
use levamen_quantity::Exact;

use super::{needed, place_of, words};
use crate::balancer::Solved;
use crate::linear::{Task, Values, solve};

/// One problem for each figure that has to be stated before all others follow.
pub(super) fn open_figures(solved: &Solved<'_>, pantry: &Pantry, known: &[Term]) -> Vec<Problem> {
    let mut known = known.to_vec();
    let mut open = open_of(solved, &solved.values);
    let mut problems = Vec::new();
    while let Some((figure, id)) = best_to_state(solved, &known, &open) {
        problems.push(problem(figure, solved, pantry));
        // Any value will do to see what else follows from it.
        known.push((id, Exact::ONE));
        let Ok(values) = solve_with(solved, &known) else { break };
        open = open_of(solved, &values);
    }
    problems
}

fn solve_with(solved: &Solved<'_>, known: &[Term]) -> Result<Values, crate::linear::Contradiction> {
    solve(&Task { facts: &solved.facts, known, without: &[], more: &[] })
}

fn open_of(solved: &Solved<'_>, values: &Values) -> Vec<FigureId> {
    needed(&solved.facts).filter(|(_, id)| values.get(*id).is_none()).map(|(_, id)| id).collect()
}

/// The open figure from which most others follow; a baker's usual way of stating it first among equals.
fn best_to_state(solved: &Solved<'_>, known: &[Term], open: &[FigureId]) -> Option<(Figure, FigureId)> {
    if open.is_empty() {
        return None;
    }
    let facts = &solved.facts;
    let mut candidates: Vec<(Figure, FigureId)> = (0_u32..)
        .map(FigureId)
        .zip(facts.figures())
        .filter(|(id, _)| solved.values.get(*id).is_none() && known.iter().all(|(own, _)| own != id))
        .map(|(id, figure)| (*figure, id))
        .collect();
    candidates.sort_by_key(|(figure, id)| (rank(*figure, solved.formula), *id));
    let mut known = known.to_vec();
    let left_open = candidates.into_iter().map(|(figure, id)| {
        known.push((id, Exact::ONE));
        let left = match solve_with(solved, &known) {
            Ok(values) => open_of(solved, &values).len(),
            Err(_) => usize::MAX,
        };
        known.pop();
        (left, figure, id)
    });
    let (_, figure, id) = left_open.min_by_key(|(left, ..)| *left)?;
    Some((figure, id))
}

/// How natural it is to state a figure, the most natural first. A stage whose size the text states already is
/// not what is missing.
fn rank(figure: Figure, formula: &Formula) -> u8 {
    match figure {
        Figure::Content(id) if !size_is_stated(id, formula) => 0,
        Figure::Intake(..) => 1,
        Figure::Row(_) => 2,
        Figure::Cell(..) => 3,
        Figure::Content(_) | Figure::LeftOver(_) => 4,
        _ => 5,
    }
}

fn size_is_stated(id: StageId, formula: &Formula) -> bool {
    let own = formula.stage(id).is_some_and(|stage| stage.takes.is_some() || stage.weighs.is_some());
    let mut lines = formula.stages.iter().flat_map(|stage| &stage.lines);
    own || id == formula.final_dough()
        || lines.any(|line| line.item == Item::Stage(id) && line.amount.is_some())
}

fn problem(figure: Figure, solved: &Solved<'_>, pantry: &Pantry) -> Problem {
    let formula = solved.formula;
    let what = words(figure, formula, pantry);
    let problem = Problem::error("not-settled", format!("nothing settles {what}"))
        .at(place_of(figure, formula), "how much?");
    let stage = |id| formula.stage(id).map_or("it", |stage| stage.name.as_ref());
    match figure {
        Figure::Content(id) | Figure::OwnFlour(id) | Figure::Weight(id) => problem
            .help(format!("in the stage `{}`: `takes 20 % of the flour`, with your own figure", stage(id)))
            .help(format!("or in the final dough: `{} 40 % of its flour`, or its weight", stage(id))),
        Figure::Cell(id, ingredient) => {
            let name = pantry.get(ingredient).map_or("it", |known| known.name.as_str());
            let is_water = pantry.get(ingredient).is_some_and(levamen_formula::Ingredient::is_water);
            let problem = problem.help(format!("write its percentage or its weight in `{}`", stage(id)));
            let problem = if is_water { problem.help("or the stage's `hydration`") } else { problem };
            problem.help(format!("all that the dough has of it: `{name} 100 % of the {name}`"))
        }
        Figure::LeftOver(id) | Figure::Made(id) => problem.help(format!(
            "write weights in `{}`, or what is left over as a mass or a percentage",
            stage(id)
        )),
        Figure::Intake(..) => {
            problem.help("write how much is taken, as a percentage of a flour or as a weight")
        }
        _ => problem.help("write its percentage or its weight"),
    }
}
