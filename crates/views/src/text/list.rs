//! The doughs of a book, a line each.

use levamen_balance::{Balance, BalancedStage};
use levamen_formula::StageKind;

use super::Page;
use super::words::percent_cell;
use levamen::ListedDough;

const TITLES: [&str; 3] = ["hydration %", "effective %", "pre-fermented %"];

/// The doughs of a book with their hydration, pre-fermented flour and what is made ahead; a dough with problems has no
/// figures. The effective hydration is shown where it is another, and its column where it is for any of them.
#[must_use]
pub fn list(entries: &[ListedDough]) -> String {
    if entries.iter().filter_map(|entry| entry.balance.as_ref()).any(|balance| effective(balance).is_some()) {
        table(entries, TITLES, |balance| {
            let [hydration, prefermented] = cells(balance);
            [hydration, effective(balance).unwrap_or_default(), prefermented]
        })
    } else {
        let [hydration, _, prefermented] = TITLES;
        table(entries, [hydration, prefermented], cells)
    }
}

fn table<const N: usize>(
    entries: &[ListedDough],
    titles: [&'static str; N],
    cells: impl Fn(&Balance) -> [String; N],
) -> String {
    let mut page = Page::new(24);
    page.titles("dough", titles, "made ahead");
    for entry in entries {
        match &entry.balance {
            Some(balance) => page.figures(&entry.dough, cells(balance), made_ahead(balance)),
            None => page.figures(&entry.dough, [const { String::new() }; N], "has problems: see `check`"),
        }
    }
    page.render()
}

fn cells(balance: &Balance) -> [String; 2] {
    [percent_cell(&balance.hydration), percent_cell(&balance.prefermented_flour)]
}

/// The effective hydration, where it reads otherwise than the hydration.
fn effective(balance: &Balance) -> Option<String> {
    Some(percent_cell(&balance.effective_hydration)).filter(|cell| *cell != percent_cell(&balance.hydration))
}

fn made_ahead(balance: &Balance) -> String {
    let ahead = balance.stages.iter().filter(|stage| stage.kind != StageKind::FinalDough);
    ahead.map(|BalancedStage { name, .. }| name.as_str()).collect::<Vec<_>>().join(", ")
}
