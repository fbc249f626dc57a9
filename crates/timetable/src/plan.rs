//! From the work to the timetable, or to why there is none.

use crate::bound::WaitingBound;
use crate::conflicts::{minimal_conflict, window_conflict};
use crate::error::first_work_error;
use crate::exhaustive::{PLACINGS, SearchOutcome, search_all};
use crate::grid::TimeGrid;
use crate::id_vec::{GroupId, IdVec, faults};
use crate::overload::overload;
use crate::partial_schedule::{PartialSchedule, StepGroup, groups};
use crate::search::{BestFound, Search};
use crate::windows::Windows;
use crate::{JobId, Minutes, Moment, Placement, StepId, Timetable, TimetableError, Waiting, Work, verify};

/// How long to look. The same effort gives the same timetable, on any machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Rounds of taking a few jobs out and placing them again.
    pub rounds: usize,
    /// Rounds of prices for the bound.
    pub prices: usize,
}

impl Default for Effort {
    /// Under a second for forty doughs.
    fn default() -> Self {
        Self { rounds: 4000, prices: 240 }
    }
}

/// In how many slices search and bound take turns, so that either can end the other early.
const SLICES: usize = 8;

/// The most steps of a work for which every timetable is tried.
const SMALL: usize = 24;

/// When what is done, with as little waiting as the effort finds.
///
/// What comes back has passed [`verify`]. `docs/timetable.md` has the method.
///
/// # Errors
/// Why there is no timetable, or that none was found.
pub fn plan(work: &Work, effort: Effort) -> Result<Timetable, TimetableError> {
    let before = faults();
    let planned = search_and_check(work, effort);
    if faults() > before { Err(TimetableError::Internal) } else { planned }
}

fn search_and_check(work: &Work, effort: Effort) -> Result<Timetable, TimetableError> {
    if let Some(error) = plain_trouble(work) {
        return Err(error);
    }
    let grid = TimeGrid::new(work);
    let root = Windows::tightened(&grid);
    let root =
        root.map_err(|crossed| TimetableError::Windows(window_conflict(work, &grid, &crossed.0, crossed.1)))?;
    let groups = groups(&grid, work.jobs.len());
    let (found, bound) = look(work, &grid, &root, &groups, effort)?;
    let timetable = timetable(work, &found, bound).ok_or_else(|| not_found(&grid, &groups, &found))?;
    let is_right = verify(work, &timetable).is_empty();
    if is_right { Ok(timetable) } else { Err(not_found(&grid, &groups, &found)) }
}

/// Errors that are found before any time is considered.
fn plain_trouble(work: &Work) -> Option<TimetableError> {
    if let Some(work_error) = first_work_error(work) {
        return Some(TimetableError::WorkError(work_error));
    }
    work.step_ids().zip(&work.steps).find_map(|(id, step)| {
        let is_taken = |on: &crate::OnMachine| {
            work.machines.iter().any(|machine| machine.class == on.class && machine.takes(&on.dough))
        };
        if !step.machine.as_ref().is_none_or(is_taken) {
            return Some(TimetableError::NoMachine(id));
        }
        let needs = step.needs.iter().filter(|need| need.length > Minutes::ZERO);
        let mut short =
            needs.filter(|need| work.pools.get(need.pool.0).is_some_and(|p| p.most() < need.places));
        short.next().map(|need| TimetableError::NeverSoMany(id, need.pool))
    })
}

/// The best that is found, and the bound; where nothing is found, why.
fn look(
    work: &Work,
    grid: &TimeGrid,
    root: &Windows,
    groups: &IdVec<GroupId, StepGroup>,
    effort: Effort,
) -> Result<(BestFound, i64), TimetableError> {
    let mut search = Search::new(grid, root, groups);
    let mut bound = WaitingBound::new(grid, root);
    for slice in 0..SLICES {
        // Side by side, each with what the other knew before: two cores are used and the result is always the same.
        let (below, above) = (bound.minutes(), search.known());
        std::thread::scope(|scope| {
            scope.spawn(|| bound.raise(effort.prices / SLICES, above));
            search.improve(effort.rounds / SLICES, below);
        });
        let is_lost = slice == 0 && !search.best().unplaced.is_empty();
        if let Some(overload) = is_lost.then(|| overload(work, grid, root)).flatten() {
            return Err(TimetableError::Overload(overload));
        }
    }
    let (found, bound) = (search.best().clone(), bound.minutes());
    let is_found = found.unplaced.is_empty();
    if is_found && found.cost <= bound {
        return Ok((found, bound));
    }
    if grid.steps.len() > SMALL {
        return Ok((found, bound));
    }
    let less_than = if is_found { found.cost } else { i64::MAX };
    match search_all(grid, root, groups, less_than, PLACINGS) {
        SearchOutcome::Best(assignments) => {
            let mut schedule = PartialSchedule::new(grid, root);
            schedule.assignments.clone_from(&assignments);
            let cost = schedule.cost();
            Ok((BestFound { assignments, unplaced: Vec::new(), cost }, cost))
        }
        SearchOutcome::Nothing if is_found => Ok((found.clone(), found.cost)),
        SearchOutcome::Nothing => Err(TimetableError::Together(minimal_conflict(work, PLACINGS))),
        SearchOutcome::TooMany => Ok((found, bound)),
    }
}

/// The jobs for which no place was found.
fn not_found(grid: &TimeGrid, groups: &IdVec<GroupId, StepGroup>, found: &BestFound) -> TimetableError {
    let steps = found.unplaced.iter().flat_map(|&group| &groups[group].steps);
    let mut jobs: Vec<JobId> = steps.map(|&step| grid.steps[step].job).collect();
    jobs.sort_unstable();
    jobs.dedup();
    TimetableError::NotFound(jobs)
}

/// What was found, in the terms of the work; `None` if some step has no place.
fn timetable(work: &Work, found: &BestFound, bound: i64) -> Option<Timetable> {
    let placement = |(step, assignment): (StepId, &Option<crate::profile::Assignment>)| {
        let (start, machine) = (*assignment)?;
        let start = Moment::clamped(work.from.signed() + start);
        let end = start + work.get(step)?.length;
        Some(Placement { step, start, end, machine })
    };
    let placements: Vec<Placement> = found.assignments.with_ids().map(placement).collect::<Option<_>>()?;
    let waiting = Waiting::of(work, &placements)?;
    let bound = Minutes::new(u32::try_from(bound).unwrap_or(0));
    Some(Timetable { placements, waiting, bound })
}
