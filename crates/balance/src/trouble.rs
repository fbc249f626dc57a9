//! Why a dough has no balance, in the baker's words.

mod conflict;
mod free;
#[cfg(test)]
mod sample;
mod shortage;

use levamen_formula::{Book, Facts, Figure, FigureId, Formula, Item, Pantry, Stage, Term};
use levamen_language::{Place, Problem};
use levamen_quantity::Exact;

pub(crate) use conflict::{contradiction, nothing_is_void};

use crate::linear::Values;
use crate::solved::Solved;

/// Looks for figures that nothing settles and for less than nothing of something.
pub(crate) fn check(solved: &Solved<'_>, pantry: &Pantry, known: &[Term]) -> Result<(), Vec<Problem>> {
    let open = free::open_figures(solved, pantry, known);
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
pub(crate) fn words(figure: Figure, formula: &Formula, pantry: &Pantry) -> String {
    let stage = |id| formula.stage(id).map_or("the stage", |stage| stage.name.as_ref());
    let ingredient = |id| pantry.get(id).map_or("the ingredient", |known| known.name.as_str());
    match figure {
        Figure::Gram | Figure::BatchGram => "how much is made".to_owned(),
        Figure::Flour => "the flour of the dough".to_owned(),
        Figure::Dough => "the weight of the dough".to_owned(),
        Figure::Water => "the water of the dough".to_owned(),
        Figure::Row(id) => format!("{} in the whole dough", ingredient(id)),
        Figure::Cell(in_stage, id) => format!("{} in `{}`", ingredient(id), stage(in_stage)),
        Figure::Part(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            format!(
                "`{}` in `{}`",
                line.map_or("a part".to_owned(), levamen_formula::Line::full_name),
                stage(in_stage)
            )
        }
        Figure::Intake(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            format!("`{}` in `{}`", line.map_or("what is taken", |line| &line.name), stage(in_stage))
        }
        Figure::Held(in_stage, line, id) => {
            format!("{} of {}", ingredient(id), words(Figure::Intake(in_stage, line), formula, pantry))
        }
        Figure::HeldFlour(in_stage, line) => {
            format!("the flour of {}", words(Figure::Intake(in_stage, line), formula, pantry))
        }
        Figure::OwnFlour(id) => format!("the flour weighed into `{}`", stage(id)),
        Figure::Content(id) => format!("the flour of `{}`", stage(id)),
        Figure::ContentWater(id) => format!("the water of `{}`", stage(id)),
        Figure::Weight(id) => format!("the weight of `{}`", stage(id)),
        Figure::Made(id) => format!("how much of `{}` is made", stage(id)),
        Figure::LeftOver(id) => format!("what is left over of `{}`", stage(id)),
    }
}

/// The line that a figure is about, or the heading where no line says it.
pub(crate) fn place_of(figure: Figure, formula: &Formula) -> Place {
    let stage = |id| formula.stage(id).map_or(formula.place, |stage| stage.place);
    match figure {
        Figure::Cell(in_stage, id) => {
            let lines = formula.stage(in_stage).into_iter().flat_map(|stage| &stage.lines);
            let line = lines.into_iter().find(|line| line.item == Item::Ingredient(id));
            line.map_or(stage(in_stage), |line| line.place)
        }
        Figure::Part(in_stage, line)
        | Figure::Intake(in_stage, line)
        | Figure::Held(in_stage, line, _)
        | Figure::HeldFlour(in_stage, line) => {
            let line = formula.stage(in_stage).and_then(|stage| stage.lines.get(line as usize));
            line.map_or(stage(in_stage), |line| line.place)
        }
        Figure::Row(id) => {
            let mut lines = formula.overall.iter().flat_map(|overall| &overall.lines);
            lines.find(|line| line.item == Item::Ingredient(id)).map_or(formula.place, |line| line.place)
        }
        Figure::OwnFlour(id)
        | Figure::Content(id)
        | Figure::ContentWater(id)
        | Figure::Weight(id)
        | Figure::Made(id)
        | Figure::LeftOver(id) => stage(id),
        Figure::Gram | Figure::BatchGram | Figure::Flour | Figure::Dough | Figure::Water => formula.place,
    }
}

/// A share of the flour as a baker reads it: `12.5 %`, and no endless decimals.
pub(crate) fn percent(share: &Exact) -> String {
    let percent = share * &Exact::HUNDRED;
    let exact = percent.to_decimal_string();
    if exact.len() <= 8 { format!("{exact} %") } else { format!("{} %", percent.to_fixed(3)) }
}

/// Whether a figure that the dough must have is left open.
pub(crate) fn leaves_open(facts: &Facts, values: &Values) -> bool {
    needed(facts).any(|(_, id)| values.get(id).is_none())
}

/// The figures that a dough must have: what every line weighs, and what is made.
pub(crate) fn needed(facts: &Facts) -> impl Iterator<Item = (Figure, FigureId)> + '_ {
    (0_u32..).map(FigureId).zip(facts.figures()).filter_map(|(id, figure)| {
        let is_needed = matches!(
            figure,
            Figure::Cell(..)
                | Figure::Part(..)
                | Figure::Intake(..)
                | Figure::Weight(_)
                | Figure::Made(_)
                | Figure::LeftOver(_)
                | Figure::Dough
        );
        is_needed.then_some((*figure, id))
    })
}
