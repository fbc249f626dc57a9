//! What a culture is fed so that its seeds are ripe, for a day and for a store room.

use std::collections::BTreeMap;

use jiff::civil::Time;
use levamen_bakery::Bakery;
use levamen_calendar::ZonedDays;
use levamen_culture::{CultureNeed, FeedingHours, FeedingTask, plan};
use levamen_formula::{FormulaId, IngredientId};
use levamen_language::Hint;
use levamen_sheets::FeedingSheet;

use super::culture;
use crate::error::Error;
use crate::workspace::Workspace;

/// What one culture is fed, and the ingredients that it is fed with, in the order of the sheet's parts; `None` of what is
/// not in the pantry.
pub struct SeedFeedings {
    pub sheet: FeedingSheet,
    pub ingredients: Vec<Option<IngredientId>>,
}

/// Seeds by their culture, each culture's in the order of time.
pub fn by_culture(
    seeds: impl IntoIterator<Item = (FormulaId, CultureNeed)>,
) -> BTreeMap<FormulaId, Vec<CultureNeed>> {
    let mut by_culture: BTreeMap<FormulaId, Vec<CultureNeed>> = BTreeMap::new();
    for (culture, need) in seeds {
        by_culture.entry(culture).or_default().push(need);
    }
    for needs in by_culture.values_mut() {
        needs.sort_by(|a, b| a.at.cmp(&b.at));
    }
    by_culture
}

/// What a culture is fed on some days, from as much as the plan wants, at hours that suit its seeds.
///
/// # Errors
/// The culture does not say how it is kept; no plan gives its seeds.
pub fn feedings(
    workspace: &Workspace,
    bakery: &Bakery,
    days: &ZonedDays,
    culture: FormulaId,
    needs: &[CultureNeed],
) -> Result<SeedFeedings, Error> {
    let fed = culture::read(workspace, bakery, culture, None)?;
    let hours = FeedingHours::suiting(&fed.keeping, needs, Time::midnight());
    let task = FeedingTask { keeping: &fed.keeping, needs, days, hours: &hours, on_hand: None };
    let plan = plan(&task).map_err(|error| workspace.fail(vec![error.problem(&fed.name, &fed.keeping)]))?;
    let book = workspace.book();
    let ingredients = fed.parts.iter().map(|part| book.pantry().find(&part.name)).collect();
    let notes = fed.notes.into_iter().map(Hint::from).collect();
    let sheet = FeedingSheet::new(&fed.name, &plan, &fed.parts, &book.scales(), notes)?;
    Ok(SeedFeedings { sheet, ingredients })
}
