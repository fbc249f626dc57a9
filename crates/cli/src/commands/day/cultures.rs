//! What each culture is fed, so that a day's seeds are ripe when its stages are set.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Time;
use levamen_bakery::Bakery;
use levamen_balance::Item;
use levamen_culture::{Days, Hours as FeedingHours, Need, Task, plan};
use levamen_formula::FormulaId;
use levamen_plan::{Hours, Setting};
use levamen_sheets::{DaySheets, FeedingSheet};

use crate::commands::feed::kept;
use crate::failure::Failure;
use crate::shelf::Shelf;

/// A plan begins so many days before the first seed is taken: time for two feedings of most cultures.
const AHEAD: i64 = 2;

/// The feeding plans of a day's cultures, and why one of them has none.
pub struct Fed {
    pub sheets: Vec<FeedingSheet>,
    pub failures: Vec<Failure>,
}

/// Plans the feedings; without a timetable there is no hour to feed for.
pub fn fed(shelf: &Shelf, bakery: &Bakery, hours: &Hours, sheets: &DaySheets, settings: &[Setting]) -> Fed {
    let mut by_culture: BTreeMap<FormulaId, Vec<Need>> = BTreeMap::new();
    for setting in settings {
        let stage = sheets.doughs.get(setting.dough).and_then(|dough| dough.sheet.stages.get(setting.stage));
        let at = setting.at.and_then(|at| hours.clock.at(at));
        let (Some(stage), Some(at)) = (stage, at) else { continue };
        for line in stage.lines.iter().filter(|line| matches!(line.item, Item::Seed(_))) {
            let Some(culture) = line.from else { continue };
            let need = Need { at: at.clone(), mass: line.weight.as_exact(), place: None };
            by_culture.entry(culture).or_default().push(need);
        }
    }
    let mut fed = Fed { sheets: Vec::new(), failures: Vec::new() };
    for (culture, mut needs) in by_culture {
        needs.sort_by(|a, b| a.at.cmp(&b.at));
        match sheet(shelf, bakery, culture, &needs) {
            Ok(sheet) => fed.sheets.extend(sheet),
            Err(failure) => fed.failures.push(failure),
        }
    }
    fed
}

/// The plan of one culture, from two days before its first seed to its last.
fn sheet(
    shelf: &Shelf,
    bakery: &Bakery,
    culture: FormulaId,
    needs: &[Need],
) -> Result<Option<FeedingSheet>, Failure> {
    let (Some(first), Some(last)) = (needs.first(), needs.last()) else { return Ok(None) };
    let from = first.at.date().checked_sub(AHEAD.days()).unwrap_or(first.at.date());
    let count = u32::try_from((last.at.date() - from).get_days()).unwrap_or(0).saturating_add(1);
    let Some(days) = Days::new(from, count, first.at.time_zone().clone()) else { return Ok(None) };
    let kept = kept::read(shelf, bakery, culture, None)?;
    let hours = FeedingHours::suiting(&kept.keeping, needs, Time::midnight());
    let task = Task { keeping: &kept.keeping, needs, days: &days, hours: &hours, on_hand: None };
    let plan = plan(&task).map_err(|refusal| shelf.fail(vec![refusal.problem(&kept.name, &kept.keeping)]))?;
    Ok(Some(FeedingSheet::new(&kept.name, &plan, &kept.parts, &shelf.book.scales(), kept.notes)?))
}
