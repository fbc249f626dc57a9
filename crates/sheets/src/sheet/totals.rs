//! What is weighed in all, and what rounding changed most.

use levamen_balance::BalancedItem;
use levamen_quantity::Mass;

use super::{LineSheet, LineSource, RoundingChange, SheetRow, StageSheet};
use crate::rounding_error::RoundingError;

/// What is weighed of each thing in all stages together, in the order in which it first comes up.
pub fn fetch(stages: &[StageSheet]) -> Result<Vec<SheetRow>, RoundingError> {
    let mut all: Vec<SheetRow> = Vec::new();
    for line in stages.iter().flat_map(|stage| &stage.lines) {
        if matches!(line.item, BalancedItem::Stage(_)) {
            continue;
        }
        match all.iter_mut().find(|fetch| is_same(fetch, line)) {
            Some(fetch) => {
                fetch.weight = fetch.weight.try_add(line.weight)?;
                fetch.exact = &fetch.exact + &line.exact;
                fetch.division = fetch.division.iter().chain(&line.division).min().cloned();
            }
            None => all.push(SheetRow {
                name: line.name.clone(),
                item: line.item,
                weight: line.weight,
                division: line.division.clone(),
                exact: line.exact.clone(),
            }),
        }
    }
    Ok(all)
}

/// An ingredient is the same under any spelling; a seed or a piece of dough is what it is called.
fn is_same(fetch: &SheetRow, line: &LineSheet) -> bool {
    match (fetch.item, line.item) {
        (BalancedItem::Ingredient { id: known, .. }, BalancedItem::Ingredient { id, .. }) => known == id,
        (BalancedItem::Seed(_), BalancedItem::Seed(_)) | (BalancedItem::Piece, BalancedItem::Piece) => {
            fetch.name == line.name
        }
        _ => false,
    }
}

/// The weighed line that rounding changed most; the first of equals.
pub fn largest_change(stages: &[StageSheet], flour: &Mass) -> Option<RoundingChange> {
    let mut largest: Option<RoundingChange> = None;
    for stage in stages {
        for line in stage.lines.iter().filter(|line| matches!(line.source, LineSource::Weighed(_))) {
            let by = &line.weight.as_exact() - &line.exact;
            // Of a batch without flour nothing is weighed, and nothing changes.
            let Some(of_all_flour) = Mass::from_grams(by.grams().abs()).share_of(flour) else { continue };
            let least = largest.as_ref().map(|change| change.of_all_flour.clone()).unwrap_or_default();
            if of_all_flour > least {
                largest = Some(RoundingChange {
                    stage: stage.name.clone(),
                    line: line.name.clone(),
                    by,
                    of_all_flour,
                });
            }
        }
    }
    largest
}
