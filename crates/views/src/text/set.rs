//! What is set and mixed, one thing after the other.

use levamen::DayReport;
use levamen_ferment::{Answer, FermentError};
use levamen_formula::StageKind;
use levamen_sheets::{PouredWater, SettingSheet, StageSheet};

use super::TextPage;
use super::figures::{degrees_cell, finest, gram, with_unit};
use super::naming::ripens;

/// Pre-ferments, other stages and batches in the order of the clock, each with its weight, its tub and its water.
pub(super) fn set(page: &DayReport<'_>) -> String {
    if page.settings.is_empty() {
        return String::new();
    }
    let mut out = TextPage::<3>::new(0);
    out.titles("Set and mixed", ["at", "weighs", "water"], "");
    let mut notes = Vec::new();
    for setting in &page.settings {
        let Some((name, stage)) = named(page, setting) else {
            debug_assert!(false, "something is set that no sheet has");
            continue;
        };
        let at = setting.at.map(|at| page.hours.clock.words(at)).unwrap_or_default();
        let (water, note) = water(setting.water.as_ref());
        notes.extend(note.map(|note| format!("  {name}: {note}")));
        let weight = with_unit(&stage.made, &finest(stage.made));
        out.figures(format!("  {name}"), [at, weight, water], remark(page, setting, stage));
    }
    for note in notes {
        out.text(note);
    }
    out.render()
}

/// What is set, and its sheet.
fn named<'p>(page: &'p DayReport<'_>, setting: &SettingSheet) -> Option<(String, &'p StageSheet)> {
    let (dough, stage) = page.sheets.stage(setting.id)?;
    let name = if stage.kind == StageKind::FinalDough {
        let batch = setting.batch.map(|number| format!(", batch {number}")).unwrap_or_default();
        format!("{}{batch}", dough.sheet.dough)
    } else {
        format!("{} of {}", stage.name, dough.sheet.dough)
    };
    Some((name, stage))
}

/// The mixer of a batch, the tub of a stage, and how long it ripens.
fn remark(page: &DayReport<'_>, setting: &SettingSheet, stage: &StageSheet) -> String {
    let mut words: Vec<String> = Vec::new();
    if stage.kind == StageKind::FinalDough {
        let dough = page.day.dough(setting.id.dough);
        let mixer = dough.and_then(|dough| page.bakery.mixer(dough.batches.mixer?));
        words.extend(mixer.map(|mixer| mixer.name.clone()));
    }
    if let Some((tub, count)) = setting.tubs
        && let Some(tub) = page.bakery.tub(tub)
    {
        words.push(if count == 1 { tub.name.clone() } else { format!("{count} x {}", tub.name) });
    }
    words.extend(stage.ripens.as_ref().map(ripens));
    words.join(", ")
}

/// How warm the water is poured, and what there is to say of it.
fn water(water: Option<&Result<Answer<PouredWater>, FermentError>>) -> (String, Option<String>) {
    match water {
        None => (String::new(), None),
        Some(Ok(answer)) => {
            let ice = answer
                .found
                .iced
                .map(|iced| format!("{} of the water as ice", with_unit(&iced.ice, &gram())));
            let remarks = answer.remarks.iter().map(|remark| remark.message.clone());
            let notes: Vec<String> = ice.into_iter().chain(remarks).collect();
            (degrees_cell(&answer.found.exact.at), (!notes.is_empty()).then(|| notes.join("; ")))
        }
        Some(Err(refusal)) => ("?".to_owned(), Some(refusal.message.clone())),
    }
}
