//! What each culture gives, and by when it has to be ripe.

use levamen_balance::BalancedItem;
use levamen_formula::FormulaId;
use levamen_quantity::{Exact, Mass};

use crate::text::Page;
use crate::text::weights::in_columns;
use levamen::DayReport;

/// For each culture its seeds in the order of the clock, as they are weighed, and their sum.
pub(super) fn seeds(page: &DayReport<'_>) -> String {
    let seeds = seedings(page);
    let mut cultures: Vec<FormulaId> = Vec::new();
    for (culture, ..) in &seeds {
        if !cultures.contains(culture) {
            cultures.push(*culture);
        }
    }
    let mut out = Page::<2>::new(0);
    for culture in cultures {
        let name = page.book.entry(culture).map_or("culture", |entry| entry.name.as_str());
        out.text(format!("Ripe {name}"));
        let own: Vec<_> = seeds.iter().filter(|(known, ..)| *known == culture).collect();
        for (_, when, what, weight) in &own {
            out.figures(format!("  {when}"), in_columns(weight, &super::finest(weight)), what.as_str());
        }
        let sum = Mass::from_grams(own.iter().map(|(.., weight)| weight.grams()).sum::<Exact>());
        out.figures(
            "  in all",
            in_columns(&sum, &super::finest(&sum)),
            "beside what is kept for its next feeding",
        );
    }
    out.render()
}

/// Each seed: its culture, when, what for, and how much.
fn seedings(page: &DayReport<'_>) -> Vec<(FormulaId, String, String, Mass)> {
    let mut seeds = Vec::new();
    for setting in &page.settings {
        let Some(dough) = page.sheets.doughs.get(setting.dough) else { continue };
        let Some(stage) = dough.sheet.stages.get(setting.stage) else { continue };
        let when = setting.at.map_or_else(|| "-".to_owned(), |at| page.hours.clock.words(at));
        for line in stage.lines.iter().filter(|line| matches!(line.item, BalancedItem::Seed(_))) {
            let Some(culture) = line.from else { continue };
            seeds.push((
                culture,
                when.clone(),
                format!("{} of {}", stage.name, dough.sheet.dough),
                line.weight.clone(),
            ));
        }
    }
    seeds
}
