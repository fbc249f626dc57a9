//! Every problem of a book.

use std::collections::BTreeSet;

use levamen_balance::{Balance, unusual};
use levamen_ferment::Hazard;
use levamen_formula::{Book, BookEntry, Formula, FormulaId};
use levamen_language::{Place, Problem};
use levamen_sheets::{DoughCaution, cautions};

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
        let balance = workspace.with_balancer(|balancer| match sources.contains(&id) {
            true => balancer.shared(id).cloned().map_err(<[Problem]>::to_vec),
            false => balancer.unkept(id),
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
