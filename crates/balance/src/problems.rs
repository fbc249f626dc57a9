//! Why a dough has no balance, in the baker's words.

mod conflict;
#[cfg(test)]
mod sample;
mod shortage;
mod undetermined;

use levamen_formula::{Book, Equations, Formula, Item, Pantry, Stage, Term, Variable, VariableId};
use levamen_language::{Place, Problem};
use levamen_quantity::Exact;

pub(crate) use conflict::{contradiction, nothing_is_void};

use crate::linear::Values;
use crate::solved::Solved;

/// Looks for figures that nothing settles and for less than nothing of something.
pub(crate) fn check(solved: &Solved<'_>, pantry: &Pantry, known: &[Term]) -> Result<(), Vec<Problem>> {
    let open = undetermined::open_figures(solved, pantry, known);
    if !open.is_empty() {
        return Err(open);
    }
    let short = shortage::shortages(solved, pantry, known);
    if short.is_empty() { Ok(()) } else { Err(short) }
}

/// A formula without any weight.
pub(crate) fn weighs_nothing(formula: &Formula) -> Problem {
    Problem::error("weighs-nothing", format!("`{}` weighs nothing", formula.name))
        .at(formula.place, "nothing is weighed into it")
        .help("list its flour and water")
}

/// Batches built apart that stand in each other too deep.
pub(crate) fn too_deep(stage: &Stage) -> Problem {
    Problem::error(
        "apart-too-deep",
        format!("`{}` stands too deep in batches of which some is left over", stage.name),
    )
    .at(stage.place, "built apart")
    .help("let a batch be taken whole where nothing is left over of it")
}

/// A culture or dough that this one takes from and that has no balance.
pub(crate) fn source_in_trouble(book: &Book, formula: &Formula, item: Item) -> Problem {
    let line = formula.stages.iter().flat_map(|stage| &stage.lines).find(|line| line.item == item);
    let place = line.map_or(formula.place, |line| line.place);
    let entry = match item {
        Item::Seed(id, _) | Item::Piece(id) => book.entry(id),
        _ => None,
    };
    let name = entry.map_or("another dough", |entry| entry.name.as_str());
    let problem = Problem::error("source-in-trouble", format!("`{}` waits for `{name}`", formula.name))
        .at(place, format!("`{name}` has problems of its own"));
    match entry {
        Some(entry) => problem.and_at(entry.place, "mend this first"),
        None => problem,
    }
}

/// A figure in the baker's words: "the water of the levain".
pub(crate) fn words(figure: Variable, formula: &Formula, pantry: &Pantry) -> String {
    let stage = |id| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let ingredient = |id| pantry.get(id).map_or("the ingredient", |known| known.name.as_str());
    match figure {
        Variable::Gram | Variable::BatchGram => "how much is made".to_owned(),
        Variable::Flour => "the flour of the dough".to_owned(),
        Variable::Dough => "the weight of the dough".to_owned(),
        Variable::Water => "the water of the dough".to_owned(),
        Variable::Row(id) => format!("{} in the whole dough", ingredient(id)),
        Variable::Cell(in_stage, id) => format!("{} in `{}`", ingredient(id), stage(in_stage)),
        Variable::Part(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            format!(
                "`{}` in `{}`",
                line.map_or("a part".to_owned(), levamen_formula::FormulaLine::full_name),
                stage(in_stage)
            )
        }
        Variable::Intake(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            format!("`{}` in `{}`", line.map_or("what is taken", |line| &line.name), stage(in_stage))
        }
        Variable::Held(in_stage, line, id) => {
            format!("{} of {}", ingredient(id), words(Variable::Intake(in_stage, line), formula, pantry))
        }
        Variable::HeldFlour(in_stage, line) => {
            format!("the flour of {}", words(Variable::Intake(in_stage, line), formula, pantry))
        }
        Variable::OwnFlour(id) => format!("the flour weighed into `{}`", stage(id)),
        Variable::Content(id) => format!("the flour of `{}`", stage(id)),
        Variable::ContentWater(id) => format!("the water of `{}`", stage(id)),
        Variable::Weight(id) => format!("the weight of `{}`", stage(id)),
        Variable::Made(id) => format!("how much of `{}` is made", stage(id)),
        Variable::LeftOver(id) => format!("what is left over of `{}`", stage(id)),
    }
}

/// The line that a figure is about, or the heading where no line says it.
pub(crate) fn place_of(figure: Variable, formula: &Formula) -> Place {
    let stage = |id| formula.stage(id).map_or(formula.place, |stage| stage.place);
    match figure {
        Variable::Cell(in_stage, id) => {
            let lines = formula.stage(in_stage).into_iter().flat_map(|stage| &stage.lines);
            let line = lines.into_iter().find(|line| line.item == Item::Ingredient(id));
            line.map_or(stage(in_stage), |line| line.place)
        }
        Variable::Part(in_stage, line)
        | Variable::Intake(in_stage, line)
        | Variable::Held(in_stage, line, _)
        | Variable::HeldFlour(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            line.map_or(stage(in_stage), |line| line.place)
        }
        Variable::Row(id) => {
            let mut lines = formula.overall.iter().flat_map(|overall| &overall.lines);
            lines.find(|line| line.item == Item::Ingredient(id)).map_or(formula.place, |line| line.place)
        }
        Variable::OwnFlour(id)
        | Variable::Content(id)
        | Variable::ContentWater(id)
        | Variable::Weight(id)
        | Variable::Made(id)
        | Variable::LeftOver(id) => stage(id),
        Variable::Gram | Variable::BatchGram | Variable::Flour | Variable::Dough | Variable::Water => {
            formula.place
        }
    }
}

/// A share of the flour as a baker reads it: `12.5 %`, and no endless decimals.
pub(crate) fn percent(share: &Exact) -> String {
    let percent = share * &Exact::HUNDRED;
    let exact = percent.to_decimal_string();
    if exact.len() <= 8 { format!("{exact} %") } else { format!("{} %", percent.to_fixed(3)) }
}

/// Whether a figure that the dough must have is left open.
pub(crate) fn leaves_open(equations: &Equations, values: &Values) -> bool {
    needed(equations).any(|(_, id)| values.get(id).is_none())
}

/// The figures that a dough must have: what every line weighs, and what is made.
pub(crate) fn needed(equations: &Equations) -> impl Iterator<Item = (Variable, VariableId)> + '_ {
    (0_u32..).map(VariableId).zip(equations.variables()).filter_map(|(id, figure)| {
        let is_needed = matches!(
            figure,
            Variable::Cell(..)
                | Variable::Part(..)
                | Variable::Intake(..)
                | Variable::Weight(_)
                | Variable::Made(_)
                | Variable::LeftOver(_)
                | Variable::Dough
        );
        is_needed.then_some((*figure, id))
    })
}
