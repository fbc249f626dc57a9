//! What cultures are fed, so that the seeds of some days are ripe.

use std::collections::BTreeMap;

use jiff::civil::Time;
use levamen_bakery::Bakery;
use levamen_culture::{Days, Hours, Need, Task, plan};
use levamen_formula::FormulaId;
use levamen_plan::{Day, Issue, Starts};
use levamen_sheets::FeedingSheet;

use crate::commands::feed::kept;
use crate::failure::Failure;
use crate::shelf::Shelf;

/// What feeding the cultures takes, and what of it cannot be said.
pub struct Fed {
    /// What is issued for it.
    pub issues: Vec<Issue>,
    /// Cultures without a feeding plan, each with why.
    pub failures: Vec<(String, Failure)>,
}

/// The seeds of a day by culture, each when its stage is set. Seed that is given back counts too: it has to be there.
pub fn needed(day: &Day, starts: &Starts) -> Vec<(FormulaId, Need)> {
    let mut needs = Vec::new();
    for dough in &day.doughs {
        for seeding in dough.seeds() {
            let stage = dough.balance.stages.iter().position(|stage| stage.name == seeding.stage);
            let start = stage.and_then(|stage| starts.of(seeding.dough, stage));
            let at = start.cloned();
            needs.extend(at.map(|at| (seeding.culture, Need { at, mass: seeding.mass, place: None })));
        }
    }
    needs
}

/// What each culture is fed on some days, so that it gives its seeds.
pub fn issues(shelf: &Shelf, bakery: &Bakery, days: &Days, seeds: Vec<(FormulaId, Need)>) -> Fed {
    let mut by_culture: BTreeMap<FormulaId, Vec<Need>> = BTreeMap::new();
    for (culture, need) in seeds {
        if (days.first()..=days.last()).contains(&need.at.date()) {
            by_culture.entry(culture).or_default().push(need);
        }
    }
    let mut fed = Fed { issues: Vec::new(), failures: Vec::new() };
    for (culture, mut needs) in by_culture {
        needs.sort_by(|a, b| a.at.cmp(&b.at));
        match one(shelf, bakery, days, culture, &needs) {
            Ok(issues) => fed.issues.extend(issues),
            Err(failure) => {
                let name = shelf.book.entry(culture).map(|entry| entry.name.clone()).unwrap_or_default();
                fed.failures.push((name, failure));
            }
        }
    }
    fed
}

/// What one culture is fed.
fn one(
    shelf: &Shelf,
    bakery: &Bakery,
    days: &Days,
    culture: FormulaId,
    needs: &[Need],
) -> Result<Vec<Issue>, Failure> {
    let kept = kept::read(shelf, bakery, culture, None)?;
    let hours = Hours::suiting(&kept.keeping, needs, Time::midnight());
    let task = Task { keeping: &kept.keeping, needs, days, hours: &hours, on_hand: None };
    let plan = plan(&task).map_err(|refusal| shelf.fail(vec![refusal.problem(&kept.name, &kept.keeping)]))?;
    let sheet = FeedingSheet::new(&kept.name, &plan, &kept.parts, &shelf.book.scales(), Vec::new())?;
    let pantry = shelf.book.pantry();
    let parts: Vec<_> = kept.parts.iter().map(|part| pantry.find(&part.name)).collect();
    Ok(sheet.issues(&parts))
}
