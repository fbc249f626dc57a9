//! Every problem of a book.

use levamen_balance::{Balance, BalanceSource, unusual};
use levamen_ferment::Hazard;
use levamen_formula::BookEntry;
use levamen_language::{Place, Problem};
use levamen_sheets::{DoughCaution, cautions};

use crate::progress::Progress;
use crate::workspace::Workspace;

/// Every problem of the book, those that only a balance shows included.
#[must_use]
pub fn check(workspace: &Workspace, progress: &dyn Progress) -> Vec<Problem> {
    let mut problems: Vec<Problem> = workspace.unread().iter().chain(workspace.problems()).cloned().collect();
    let (bakery, wrong) = workspace.bakery();
    problems.extend(wrong.iter().cloned());
    let book = workspace.book();
    progress.expect(book.entries().count() as u64);
    for (id, entry) in book.entries() {
        progress.advance(1);
        if entry.formula.is_some() {
            match BalanceSource::balance(workspace, id) {
                Ok(balance) => {
                    problems.extend(unusual(&balance, book.pantry(), entry.place));
                    problems.extend(match bakery.mix_to_oven(id) {
                        None => spoiling(entry, &balance),
                        standing_time => {
                            spoiling(entry, &Balance { standing_time, ..Balance::clone(&balance) })
                        }
                    });
                }
                Err(wrong) => problems.extend(wrong),
            }
        }
    }
    problems
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
