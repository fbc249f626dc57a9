//! A pick list for each scale: what is weighed on it over the day, thing by thing.

use std::collections::BTreeMap;

use levamen_balance::BalancedItem;
use levamen_quantity::Mass;

use super::DoughSheet;
use crate::rounding_error::RoundingError;
use crate::sheet::{LineSheet, LineSource};
use crate::weight::Weight;

/// What is weighed on one scale.
#[derive(Debug, Clone, PartialEq)]
pub struct ScalePicks {
    /// The scale's name.
    pub scale: String,
    /// Each thing, in the order in which it first comes up.
    pub picks: Vec<Pick>,
}

/// What is weighed of one thing on one scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Pick {
    /// What it is. An ingredient or a seed is one row; what comes out of a dough's own tubs is that dough's.
    pub name: String,
    /// How much in all.
    pub weight: Weight,
    /// In how many weighings.
    pub weighings: u64,
}

/// Each scale with what is weighed on it, the smallest first.
pub(super) fn picks(doughs: &[DoughSheet]) -> Result<Vec<ScalePicks>, RoundingError> {
    let mut scales: BTreeMap<(&Mass, &str), Vec<Pick>> = BTreeMap::new();
    for dough in doughs {
        for line in dough.sheet.stages.iter().flat_map(|stage| &stage.lines) {
            let LineSource::Weighed(on) = &line.source else { continue };
            let picks = scales.entry((&on.scale.capacity, &on.scale.name)).or_default();
            add(picks, &dough.sheet.dough, line)?;
        }
    }
    let scales = scales.into_iter().map(|((_, scale), picks)| ScalePicks { scale: scale.to_owned(), picks });
    Ok(scales.collect())
}

fn add(picks: &mut Vec<Pick>, dough: &str, line: &LineSheet) -> Result<(), RoundingError> {
    let name = match line.item {
        BalancedItem::Stage(_) => format!("{} of {dough}", line.name),
        // A dough's own piece is called `this dough`, which here would say nothing.
        BalancedItem::Piece if line.from.is_none() => format!("{dough}, a piece of its last batch"),
        BalancedItem::Ingredient { .. } | BalancedItem::Seed(_) | BalancedItem::Piece => line.name.clone(),
    };
    match picks.iter_mut().find(|pick| pick.name == name) {
        Some(pick) => {
            pick.weight = pick.weight.try_add(line.weight)?;
            pick.weighings += 1;
        }
        None => picks.push(Pick { name, weight: line.weight, weighings: 1 }),
    }
    Ok(())
}
