//! What a plan relies on: an error in it stops the plan, and one elsewhere does not.
//!
//! A plan relies on every card of the bakery, on whatever could not be read at all, since it may be one of them, and of doughs,
//! cultures and ingredients on those that are used. A mixer that lost a line would give other batches without a word.

use std::collections::BTreeSet;

use levamen_bakery::Bakery;
use levamen_formula::{FormulaId, IngredientId, Item};
use levamen_language::{Place, Problem, Severity};
use levamen_plan::Day;

use crate::error::Error;
use crate::workspace::Workspace;

/// The bakery of a book, for a plan.
///
/// # Errors
/// What is wrong with its cards, with lines that belong to nothing, and files that could not be read.
pub fn bakery(workspace: &Workspace) -> Result<&Bakery, Error> {
    let (bakery, of_cards) = workspace.bakery();
    let mut problems = of_cards.clone();
    let of_formulas = places(workspace.book().entries().flat_map(|(_, entry)| &entry.problems));
    problems.extend(workspace.unread().iter().cloned());
    let of_cards = errors(workspace).filter(|problem| {
        let at = place(problem);
        !at.is_some_and(|at| of_formulas.contains(&at)) && ingredient(workspace, problem).is_none()
    });
    problems.extend(of_cards.cloned());
    if problems.is_empty() { Ok(bakery) } else { Err(workspace.fail(problems)) }
}

/// Looks at the doughs, cultures and ingredients that a day uses.
///
/// # Errors
/// What is wrong with them.
pub fn day(workspace: &Workspace, day: &Day) -> Result<(), Error> {
    let formulas = with_sources(workspace, day);
    let entries = formulas.iter().filter_map(|id| workspace.book().entry(*id));
    let of_formulas = places(entries.clone().flat_map(|entry| &entry.problems));
    let mut used: BTreeSet<IngredientId> = day.toppings.iter().map(|(id, ..)| *id).collect();
    for formula in entries.filter_map(|entry| entry.formula.as_ref()) {
        let lines = formula.stages.iter().flat_map(|stage| &stage.lines);
        let lines = lines.chain(formula.overall.iter().flat_map(|overall| &overall.lines));
        used.extend(lines.filter_map(|line| match line.item {
            Item::Ingredient(id) => Some(id),
            _ => None,
        }));
    }
    let problems = errors(workspace).filter(|problem| {
        let of_formula = place(problem).is_some_and(|at| of_formulas.contains(&at));
        let named = ingredient(workspace, problem).and_then(|name| workspace.book().pantry().find(&name));
        of_formula || named.is_some_and(|id| used.contains(&id))
    });
    let problems: Vec<Problem> = problems.cloned().collect();
    if problems.is_empty() { Ok(()) } else { Err(workspace.fail(problems)) }
}

/// The doughs of a day, and all that they take from.
fn with_sources(workspace: &Workspace, day: &Day) -> BTreeSet<FormulaId> {
    let mut known = BTreeSet::new();
    let mut open: Vec<FormulaId> = day.doughs.iter().map(|dough| dough.need.dough).collect();
    while let Some(id) = open.pop() {
        if known.insert(id) {
            let formula = workspace.book().entry(id).and_then(|entry| entry.formula.as_ref());
            open.extend(
                formula.into_iter().flat_map(levamen_formula::Formula::sources).map(|(source, _)| source),
            );
        }
    }
    known
}

fn errors(workspace: &Workspace) -> impl Iterator<Item = &Problem> {
    workspace.problems().iter().filter(|problem| problem.severity == Severity::Error)
}

fn place(problem: &Problem) -> Option<Place> {
    problem.primary.as_ref().map(|label| label.place)
}

fn places<'p>(problems: impl Iterator<Item = &'p Problem>) -> BTreeSet<Place> {
    problems.filter_map(place).collect()
}

/// The name of the ingredient under whose heading a problem stands.
fn ingredient(workspace: &Workspace, problem: &Problem) -> Option<String> {
    let at = place(problem)?;
    let (_, text) = workspace.texts().text(at.text)?;
    let end =
        text.get(at.span.start as usize..)?.find('\n').map_or(text.len(), |end| at.span.start as usize + end);
    let at_margin = |line: &&str| line.starts_with(|first: char| !first.is_whitespace() && first != '#');
    let heading = text.get(..end)?.lines().rev().find(at_margin)?;
    let name = heading.strip_prefix("ingredient ")?;
    Some(name.split('#').next().unwrap_or_default().trim().to_owned())
}
