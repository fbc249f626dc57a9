//! What each culture is fed, so that a day's seeds are ripe when its stages are set.

use std::collections::BTreeMap;

use jiff::ToSpan;
use jiff::civil::Time;
use levamen_bakery::Bakery;
use levamen_balance::BalancedItem;
use levamen_calendar::ZonedDays;
use levamen_culture::{CultureNeed, FeedingHours, FeedingTask, plan};
use levamen_formula::FormulaId;
use levamen_language::Hint;
use levamen_plan::{Hours, Setting};
use levamen_sheets::{DaySheets, FeedingSheet};

use crate::error::Error;
use crate::feed::culture;
use crate::workspace::Workspace;

/// A plan begins so many days before the first seed is taken: time for two feedings of most cultures.
const AHEAD: i64 = 2;

/// The feeding plans of a day's cultures, and why one of them has none.
pub struct DayFeedings {
    pub sheets: Vec<FeedingSheet>,
    pub unfed: Vec<Error>,
}

/// Plans the feedings; without a timetable there is no hour to feed for.
pub fn fed(
    workspace: &Workspace,
    bakery: &Bakery,
    hours: &Hours,
    sheets: &DaySheets,
    settings: &[Setting],
) -> DayFeedings {
    let mut by_culture: BTreeMap<FormulaId, Vec<CultureNeed>> = BTreeMap::new();
    for setting in settings {
        let stage = sheets.stage(setting.id).map(|(_, stage)| stage);
        let at = setting.at.and_then(|at| hours.clock.at(at));
        let (Some(stage), Some(at)) = (stage, at) else { continue };
        for line in stage.lines.iter().filter(|line| matches!(line.item, BalancedItem::Seed(_))) {
            let Some(culture) = line.from else { continue };
            let need = CultureNeed { at: at.clone(), mass: line.weight.as_exact(), place: None };
            by_culture.entry(culture).or_default().push(need);
        }
    }
    let mut fed = DayFeedings { sheets: Vec::new(), unfed: Vec::new() };
    for (culture, mut needs) in by_culture {
        needs.sort_by(|a, b| a.at.cmp(&b.at));
        match sheet(workspace, bakery, culture, &needs) {
            Ok(sheet) => fed.sheets.extend(sheet),
            Err(error) => fed.unfed.push(error),
        }
    }
    fed
}

/// The plan of one culture, from two days before its first seed to its last.
fn sheet(
    workspace: &Workspace,
    bakery: &Bakery,
    culture: FormulaId,
    needs: &[CultureNeed],
) -> Result<Option<FeedingSheet>, Error> {
    let (Some(first), Some(last)) = (needs.first(), needs.last()) else { return Ok(None) };
    let from = first.at.date().checked_sub(AHEAD.days()).unwrap_or(first.at.date());
    let count = u32::try_from((last.at.date() - from).get_days()).unwrap_or(0).saturating_add(1);
    let Some(days) = ZonedDays::new(from, count, first.at.time_zone().clone()) else { return Ok(None) };
    let fed = culture::read(workspace, bakery, culture, None)?;
    let hours = FeedingHours::suiting(&fed.keeping, needs, Time::midnight());
    let task = FeedingTask { keeping: &fed.keeping, needs, days: &days, hours: &hours, on_hand: None };
    let plan =
        plan(&task).map_err(|refusal| workspace.fail(vec![refusal.problem(&fed.name, &fed.keeping)]))?;
    let notes = fed.notes.into_iter().map(Hint::from).collect();
    Ok(Some(FeedingSheet::new(&fed.name, &plan, &fed.parts, &workspace.book().scales(), notes)?))
}
