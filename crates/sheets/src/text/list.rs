//! The doughs of a book, a line each.

use levamen_balance::{Balance, Stage};
use levamen_formula::StageKind;

use super::Page;
use super::words::percent_cell;
use crate::Entry;

const TITLES: [&str; 2] = ["hydration %", "pre-fermented %"];

/// The doughs of a book with their hydration, pre-fermented flour and what is made ahead; a dough with problems has no
/// figures.
#[must_use]
pub fn list(entries: &[Entry<'_>]) -> String {
    let mut page = Page::new(24);
    page.titles("dough", TITLES, "made ahead");
    for entry in entries {
        match entry.balance {
            Some(balance) => page.figures(entry.dough, cells(balance), made_ahead(balance)),
            None => page.figures(entry.dough, [String::new(), String::new()], "has problems: see `check`"),
        }
    }
    page.render()
}

fn cells(balance: &Balance) -> [String; 2] {
    [percent_cell(&balance.hydration), percent_cell(&balance.prefermented_flour)]
}

fn made_ahead(balance: &Balance) -> String {
    let ahead = balance.stages.iter().filter(|stage| stage.kind != StageKind::FinalDough);
    ahead.map(|Stage { name, .. }| name.as_str()).collect::<Vec<_>>().join(", ")
}
