//! A pick list for each scale: what is weighed on it over the day, thing by thing.

use std::collections::BTreeMap;

use levamen_balance::BalancedItem;
use levamen_quantity::Mass;

use crate::text::Page;
use crate::text::weights::in_columns;
use levamen::DayReport;
use levamen_sheets::{LineSheet, Source};

/// What is weighed of one thing on one scale.
struct Pick {
    name: String,
    weight: Mass,
    weighings: u64,
}

/// Each scale with what is weighed on it, in how many weighings.
pub(super) fn picks(page: &DayReport<'_>) -> String {
    let mut scales: BTreeMap<(Mass, String), Vec<Pick>> = BTreeMap::new();
    let doughs = page.sheets.doughs.iter();
    let lines = doughs.flat_map(|dough| {
        dough
            .sheet
            .stages
            .iter()
            .flat_map(move |stage| stage.lines.iter().map(move |line| (dough.sheet.dough.as_str(), line)))
    });
    for (dough, line) in lines {
        let Source::Weighed(on) = &line.source else { continue };
        let slot = (on.scale.capacity.clone(), on.scale.name.clone());
        add(scales.entry(slot).or_default(), dough, line);
    }
    let mut out = Page::<2>::new(0);
    for ((_, scale), picks) in &scales {
        out.text(format!("On the {scale}"));
        for Pick { name, weight, weighings } in picks {
            let often = if *weighings == 1 { String::new() } else { format!(", {weighings} weighings") };
            out.figures("  [ ]", in_columns(weight, &super::finest(weight)), format!("{name}{often}"));
        }
    }
    out.render()
}

/// An ingredient or a seed is one row; what comes out of a dough's own tubs is that dough's.
fn add(picks: &mut Vec<Pick>, dough: &str, line: &LineSheet) {
    let name = match line.item {
        BalancedItem::Stage(_) => format!("{} of {dough}", line.name),
        // A dough's own piece is called `this dough`, which here would say nothing.
        BalancedItem::Piece if line.from.is_none() => format!("{dough}, a piece of its last batch"),
        BalancedItem::Ingredient { .. } | BalancedItem::Seed(_) | BalancedItem::Piece => line.name.clone(),
    };
    match picks.iter_mut().find(|pick| pick.name == name) {
        Some(pick) => {
            pick.weight = &pick.weight + &line.weight;
            pick.weighings += 1;
        }
        None => picks.push(Pick { name, weight: line.weight.clone(), weighings: 1 }),
    }
}
