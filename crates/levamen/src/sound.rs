//! What is wrong with a book: all of it, and what a plan relies on. An error there stops the plan, and one elsewhere does not.
//!
//! A plan relies on every card of the bakery, on whatever could not be read at all, since it may be one of them, and of doughs,
//! cultures and ingredients on those that are used. A mixer that lost a line would give other batches without a word.

use std::collections::BTreeSet;

use levamen_bakery::Bakery;
use levamen_balance::{Balance, unusual};
use levamen_ferment::Hazard;
use levamen_formula::{Book, BookEntry, Formula, FormulaId, IngredientId, Item};
use levamen_language::{Place, Problem, Severity};
use levamen_plan::Day;
use levamen_sheets::{DoughCaution, cautions};

use crate::error::Error;
use crate::progress::Progress;
use crate::workspace::Workspace;

/// Every problem of the book, those that only a balance shows included.
#[must_use]
pub fn check(workspace: &Workspace, progress: &dyn Progress) -> Vec<Problem> {
    let mut problems: Vec<Problem> = workspace.unread().iter().chain(workspace.problems()).cloned().collect();
    problems.extend(workspace.bakery().1.iter().cloned());
    let book = workspace.book();
    let sources = sources(book);
    progress.expect(book.entries().count() as u64);
    for (id, entry) in book.entries() {
        progress.advance(1);
        if entry.formula.is_none() {
            continue;
        }
        // What nothing takes from is looked at once, and a large book would keep it for nobody.
        let balance = workspace.with_balancer(|balancer| {
            if sources.contains(&id) {
                balancer.shared(id).cloned().map_err(<[Problem]>::to_vec)
            } else {
                balancer.unkept(id)
            }
        });
        match balance {
            Ok(balance) => {
                problems.extend(unusual(&balance, book.pantry(), entry.place));
                problems.extend(spoiling(entry, &workspace.with_cards(id, balance)));
            }
            Err(wrong) => problems.extend(wrong),
        }
    }
    problems
}

/// What some dough takes from.
fn sources(book: &Book) -> BTreeSet<FormulaId> {
    let formulas = book.entries().filter_map(|(_, entry)| entry.formula.as_ref());
    formulas.flat_map(Formula::sources).map(|(source, _)| source).collect()
}

/// A warning where food that spoils stands too long in a dough.
fn spoiling(entry: &BookEntry, balance: &Balance) -> Vec<Problem> {
    let found = cautions(balance).into_iter().filter(|caution| caution.hazard == Hazard::Spoiling);
    let problem = |caution: DoughCaution| {
        let stages = entry.formula.iter().flat_map(|formula| &formula.stages);
        let mut places = stages.filter(|stage| *stage.name == caution.name).map(|stage| stage.place);
        let message = format!("food that spoils stands too long in `{}`", entry.name);
        let place: Place = places.next().unwrap_or(entry.place);
        Problem::warning("stands-too-long", message)
            .at(place, "here it has stood too long, or nothing says how long")
            .help(caution.words())
    };
    found.map(problem).collect()
}

impl Workspace {
    /// What the bakery has and keeps to, for a plan: nothing is missing that a plan relies on.
    ///
    /// # Errors
    /// What is wrong with its cards, with lines that belong to nothing, and files that could not be read.
    pub fn plan_bakery(&self) -> Result<&Bakery, Error> {
        bakery(self)
    }
}

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
            open.extend(formula.into_iter().flat_map(Formula::sources).map(|(source, _)| source));
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
