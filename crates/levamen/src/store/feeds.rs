//! What cultures are fed, so that the seeds of some days are ripe.

use levamen_bakery::Bakery;
use levamen_calendar::ZonedDays;
use levamen_culture::CultureNeed;
use levamen_formula::FormulaId;
use levamen_plan::{Day, Issue, Starts};

use crate::error::Error;
use crate::feed::seeds::{by_culture, feedings};
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
    let within = |need: &CultureNeed| (days.first()..=days.last()).contains(&need.at.date());
    let seeds = seeds.into_iter().filter(|(_, need)| within(need));
    let mut fed = FeedIssues { issues: Vec::new(), unfed: Vec::new() };
    for (culture, needs) in by_culture(seeds) {
        match feedings(workspace, bakery, days, culture, &needs) {
            Ok(feedings) => fed.issues.extend(feedings.sheet.issues(&feedings.ingredients)),
            Err(error) => {
                let name = workspace.book().entry(culture).map_or("a culture", |entry| entry.name.as_str());
                fed.unfed.push((name.to_owned(), error));
            }
        }
    }
    fed
}
