//! Doughs that take from each other and have no steady composition: the loop spelled out.

use levamen_language::{Place, Problem};

/// How many steps of a loop are pointed at.
const STEPS_SHOWN: usize = 6;

/// One dough of a loop takes from the next.
pub(crate) struct Step<'f> {
    pub taker: &'f str,
    pub source: &'f str,
    /// The line that says so.
    pub place: Place,
    /// How what is taken is known.
    pub by: &'static str,
}

/// Why a loop has no steady composition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Refusal {
    /// Nothing but pieces of each other goes into its doughs.
    NothingFresh,
    /// One piece is known by its weight and another by its flour.
    Mixed,
    /// The lines of its doughs say more than can be true at once.
    CannotHold,
}

/// A loop without a steady composition.
pub(crate) fn no_steady_composition(refusal: Refusal, steps: &[Step<'_>]) -> Problem {
    let names = names(steps);
    let alone = steps.len() == 1;
    let message = match refusal {
        Refusal::NothingFresh => format!("nothing fresh goes into {names}"),
        Refusal::Mixed if alone => format!("{names} has no exact steady composition"),
        Refusal::Mixed => format!("{names} take from each other and have no exact steady composition"),
        Refusal::CannotHold if alone => format!("no steady composition of {names} fits all its lines"),
        Refusal::CannotHold => format!("no steady composition of {names} fits all their lines"),
    };
    let mut problem = Problem::error("no-steady-composition", message);
    for (index, step) in steps.iter().take(STEPS_SHOWN).enumerate() {
        let source =
            if step.taker == step.source { "its own last batch" } else { &format!("`{}`", step.source) };
        let words = match refusal {
            Refusal::Mixed => format!("`{}` takes from {source}, {}", step.taker, step.by),
            _ => format!("`{}` takes from {source}", step.taker),
        };
        problem = if index == 0 { problem.at(step.place, words) } else { problem.and_at(step.place, words) };
    }
    if let Some(more) = steps.len().checked_sub(STEPS_SHOWN).filter(|more| *more > 0) {
        problem = problem.note(format!("{more} more lines close the circle"));
    }
    explain(problem, refusal)
}

/// Why, and how to mend it.
fn explain(problem: Problem, refusal: Refusal) -> Problem {
    let overall = "write in one of them an `overall` with every ingredient and its percentage: the circle is open there";
    match refusal {
        Refusal::NothingFresh => problem
            .note("each is only a piece of the next, so no line says what they are made of")
            .help("weigh flour and water of its own into one of them")
            .help(format!("or {overall}")),
        Refusal::Mixed => problem
            .note("a weight of dough and a weight of flour can be compared only where the hydration is known, and here it depends on itself")
            .help(overall)
            .help("or say how much is taken by weight in every one of them, such as `200 g` or `20 % of the dough`")
            .help("or by its flour in every one of them: in a stage, `takes 20 % of the flour`, and `from` without an amount"),
        Refusal::CannotHold => problem
            .note("from batch to batch the doughs come to a composition that one of the lines forbids")
            .help("take out a line that follows from the others, such as a hydration or a percentage of the whole dough")
            .help(format!("or {overall}")),
    }
}

/// The doughs of a loop: `One`, `Two` and `Three`.
fn names(steps: &[Step<'_>]) -> String {
    let quoted: Vec<String> =
        steps.iter().take(STEPS_SHOWN).map(|step| format!("`{}`", step.taker)).collect();
    match quoted.as_slice() {
        [] => "the doughs".to_owned(),
        [one] => one.clone(),
        all if steps.len() > STEPS_SHOWN => {
            format!("{} and {} more", all.join(", "), steps.len() - STEPS_SHOWN)
        }
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}
