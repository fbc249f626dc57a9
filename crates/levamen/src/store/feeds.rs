//! What cultures are fed, so that the seeds of some days are ripe.

use std::collections::BTreeMap;

use jiff::civil::Time;
use levamen_bakery::Bakery;
use levamen_calendar::ZonedDays;
use levamen_culture::{CultureNeed, FeedingHours, FeedingTask, plan};
use levamen_formula::FormulaId;
use levamen_plan::{Day, Issue, Starts};
use levamen_sheets::FeedingSheet;

use crate::error::Error;
use crate::feed::culture;
use crate::workspace::Workspace;

/// What feeding the cultures takes, and what of it cannot be said.
pub struct FeedIssues {
    /// What is issued for it.
    pub issues: Vec<Issue>,
    /// Cultures without a feeding plan, each with why.
    pub unfed: Vec<(String, Error)>,
}

/// The seeds of a day by culture, each when its stage is set. Seed that is given back counts too: it has to be there.
pub fn needed(day: &Day, starts: &Starts) -> Vec<(FormulaId, CultureNeed)> {
    let mut needs = Vec::new();
    for dough in &day.doughs {
        for seeding in dough.seeds() {
            let at = starts.of(seeding.id).cloned();
            needs.extend(at.map(|at| (seeding.culture, CultureNeed { at, mass: seeding.mass, place: None })));
        }
    }
    needs
}

/// What each culture is fed on some days, so that it gives its seeds.
pub fn issues(
    workspace: &Workspace,
    bakery: &Bakery,
    days: &ZonedDays,
    seeds: Vec<(FormulaId, CultureNeed)>,
) -> FeedIssues {
    let mut by_culture: BTreeMap<FormulaId, Vec<CultureNeed>> = BTreeMap::new();
    for (culture, need) in seeds {
        if (days.first()..=days.last()).contains(&need.at.date()) {
            by_culture.entry(culture).or_default().push(need);
        }
    }
    let mut fed = FeedIssues { issues: Vec::new(), unfed: Vec::new() };
    for (culture, mut needs) in by_culture {
        needs.sort_by(|a, b| a.at.cmp(&b.at));
        match one(workspace, bakery, days, culture, &needs) {
            Ok(issues) => fed.issues.extend(issues),
            Err(error) => {
                let name =
                    workspace.book().entry(culture).map(|entry| entry.name.clone()).unwrap_or_default();
                fed.unfed.push((name, error));
            }
        }
    }
    fed
}

/// What one culture is fed.
fn one(
    workspace: &Workspace,
    bakery: &Bakery,
    days: &ZonedDays,
    culture: FormulaId,
    needs: &[CultureNeed],
) -> Result<Vec<Issue>, Error> {
    let fed = culture::read(workspace, bakery, culture, None)?;
    let hours = FeedingHours::suiting(&fed.keeping, needs, Time::midnight());
    let task = FeedingTask { keeping: &fed.keeping, needs, days, hours: &hours, on_hand: None };
    let plan =
        plan(&task).map_err(|refusal| workspace.fail(vec![refusal.problem(&fed.name, &fed.keeping)]))?;
    let sheet = FeedingSheet::new(&fed.name, &plan, &fed.parts, &workspace.book().scales(), Vec::new())?;
    let pantry = workspace.book().pantry();
    let parts: Vec<_> = fed.parts.iter().map(|part| pantry.find(&part.name)).collect();
    Ok(sheet.issues(&parts))
}
