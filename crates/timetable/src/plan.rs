//! From the work to the timetable.
//!
//! There is always one, unless the work contradicts itself: what does not fit is late by as little as can be found, or left out, and
//! the limits at fault are named.

use crate::annealing::{Annealing, BestFound};
use crate::backward::ScheduleCost;
use crate::bound::WaitingBound;
use crate::conflicts::{minimal_conflict, window_conflict};
use crate::error::first_work_error;
use crate::exhaustive::{PLACINGS, SearchOutcome, search_all};
use crate::grid::TimeGrid;
use crate::id_vec::{GroupId, IdVec, faults};
use crate::neighbourhood::Neighbourhoods;
use crate::overload::overload;
use crate::partial_schedule::{PartialSchedule, StepGroup, groups};
use crate::profile::Assignment;
use crate::windows::Windows;
use crate::{JobId, Minutes, Moment, Placement, StepId, Timetable, TimetableError, Waiting, Work, verify};

/// How long to look. The same effort gives the same timetable, on any machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Rounds of annealing, each four times as long as the one before it.
    pub rounds: u32,
    /// How often, in each of them, a few jobs are taken out and placed again.
    pub neighbourhoods: usize,
    /// How often, in each of them, prices are changed for the bound.
    pub prices: usize,
}

impl Effort {
    /// Four times as long as the default. What it finds is never worse.
    pub const LONGER: Self = Self { rounds: 5, neighbourhoods: 1000, prices: 60 };
}

impl Default for Effort {
    /// About two seconds, on two cores.
    fn default() -> Self {
        Self { rounds: 4, neighbourhoods: 1000, prices: 60 }
    }
}

/// How warm the two searches begin that look side by side, in minutes of waiting: small moves want little, and batches with many loads
/// much.
const WARMEST: [i64; 2] = [20, 200];

/// The most steps of a work for which every timetable is tried.
const SMALL: usize = 24;

/// When what is done, with as little waiting as the effort finds.
///
/// What comes back has passed [`verify`]. `docs/timetable.md` has the method.
///
/// # Errors
/// [`TimetableError::WorkError`] where the work contradicts itself, and [`TimetableError::Internal`].
pub fn plan(work: &Work, effort: Effort) -> Result<Timetable, TimetableError> {
    let before = faults();
    let planned = search_and_check(work, effort);
    if faults() > before { Err(TimetableError::Internal) } else { planned }
}

fn search_and_check(work: &Work, effort: Effort) -> Result<Timetable, TimetableError> {
    if let Some(error) = first_work_error(work) {
        return Err(TimetableError::WorkError(error));
    }
    let grid = TimeGrid::new(work);
    let groups = groups(&grid, work.jobs.len());
    // Without windows in which all is in time, nothing is proven of how good a timetable is.
    let root = Windows::tightened(&grid);
    let (mut found, bound) = look(&grid, root.as_ref().ok(), &groups, effort);
    leave_out(&grid, &mut found);
    let mut timetable = timetable(work, &grid, &found, bound).ok_or(TimetableError::Internal)?;
    if !timetable.is_complete() {
        timetable.shortfall =
            Some(shortfall(work, &grid, root.as_ref().map_err(|crossed| &**crossed), &timetable));
    }
    let is_right = verify(work, &timetable).is_empty();
    debug_assert!(is_right, "{:?}", verify(work, &timetable));
    if is_right { Ok(timetable) } else { Err(TimetableError::Internal) }
}

/// The best that is found, and the bound.
fn look(
    grid: &TimeGrid,
    root: Option<&Windows>,
    groups: &IdVec<GroupId, StepGroup>,
    effort: Effort,
) -> (BestFound, i64) {
    let [mut cool, mut warm] = WARMEST.map(|warmest| Annealing::new(grid, groups, warmest));
    let mut bound = root.map(|root| WaitingBound::new(grid, root));
    let mut best = cool.best().clone();
    for _ in 0..effort.rounds.max(1) {
        // Side by side, each with what the other knew before: two cores are used and the result is always the same.
        let below = bound.as_ref().map_or(0, WaitingBound::minutes);
        let known = cool.best().cost.min(warm.best().cost);
        std::thread::scope(|scope| {
            scope.spawn(|| warm.round(below));
            if let Some(bound) = &mut bound {
                bound.raise(effort.prices, known.weighed(1));
            }
            cool.round(below);
        });
        // Each round ends with what it would end with if it were the last, so that a longer look is never worse.
        let found = if warm.best().cost < cool.best().cost { warm.best() } else { cool.best() };
        let found = match root.filter(|_| found.cost.is_complete()) {
            Some(root) => {
                Neighbourhoods::of(grid, root, groups, found).improved(effort.neighbourhoods, below)
            }
            None => found.clone(),
        };
        if found.cost < best.cost {
            best = found;
        }
    }
    let bound = bound.as_ref().map_or(0, WaitingBound::minutes);
    match root {
        None => (best, bound),
        Some(root) => prove(grid, root, groups, best, bound),
    }
}

/// Of a small work every timetable is tried: then the best is proven.
fn prove(
    grid: &TimeGrid,
    root: &Windows,
    groups: &IdVec<GroupId, StepGroup>,
    found: BestFound,
    bound: i64,
) -> (BestFound, i64) {
    let is_complete = found.cost.is_complete();
    let waiting = found.cost.waiting;
    if grid.steps.len() > SMALL || (is_complete && waiting <= bound) {
        return (found, bound);
    }
    match search_all(grid, root, groups, if is_complete { waiting } else { i64::MAX }, PLACINGS) {
        SearchOutcome::Best(assignments) => {
            let mut schedule = PartialSchedule::new(grid, root);
            schedule.assignments.clone_from(&assignments);
            let waiting = schedule.cost();
            (BestFound { assignments, cost: ScheduleCost { waiting, ..ScheduleCost::default() } }, waiting)
        }
        SearchOutcome::Nothing if is_complete => (found, waiting),
        SearchOutcome::Nothing | SearchOutcome::TooMany => (found, bound),
    }
}

/// Leaves out what needs something that is left out, and what is made for nothing else.
fn leave_out(grid: &TimeGrid, found: &mut BestFound) {
    loop {
        let is_out = |step: StepId| found.assignments[step].is_none();
        let lacks = grid.time_lags.iter().filter(|lag| is_out(lag.after) && !is_out(lag.before));
        let mut more: Vec<StepId> = lacks.map(|lag| lag.before).collect();
        let is_for_nothing = |step: &StepId| {
            let takers = grid.time_lags_of[*step].iter().map(|lag| &grid.time_lags[*lag]);
            let mut takers = takers.filter(|lag| lag.after == *step).peekable();
            let has_takers = takers.peek().is_some();
            !is_out(*step)
                && grid.steps[*step].due.is_none()
                && has_takers
                && takers.all(|lag| is_out(lag.before))
        };
        more.extend(grid.steps.ids().filter(is_for_nothing));
        if more.is_empty() {
            return;
        }
        for step in more {
            found.assignments[step] = None;
        }
    }
}

/// Which limits are at fault where something is late or left out: proofs first, as few limits as can be shown.
fn shortfall(
    work: &Work,
    grid: &TimeGrid,
    root: Result<&Windows, &(Windows, StepId)>,
    timetable: &Timetable,
) -> TimetableError {
    if let Some(error) = impossible_step(work) {
        return error;
    }
    let root = match root {
        Ok(root) => root,
        Err(crossed) => return TimetableError::Windows(window_conflict(work, grid, &crossed.0, crossed.1)),
    };
    if let Some(overload) = overload(work, grid, root) {
        return TimetableError::Overload(overload);
    }
    if grid.steps.len() <= SMALL {
        let limits = minimal_conflict(work, PLACINGS);
        if !limits.is_empty() {
            return TimetableError::Together(limits);
        }
    }
    let late = timetable.late(work).map(|(step, _)| step);
    let mut jobs: Vec<JobId> =
        timetable.left_out.iter().copied().chain(late).map(|step| grid.steps[step].job).collect();
    jobs.sort_unstable();
    jobs.dedup();
    TimetableError::NotFound(jobs)
}

/// A step that cannot be done at any time.
fn impossible_step(work: &Work) -> Option<TimetableError> {
    work.step_ids().zip(&work.steps).find_map(|(id, step)| {
        let is_taken = |on: &crate::OnMachine| {
            work.machines.iter().any(|machine| machine.class == on.class && machine.takes(&on.dough))
        };
        if !step.machine.as_ref().is_none_or(is_taken) {
            return Some(TimetableError::NoMachine(id));
        }
        let lacks = |need: &&crate::PoolNeed| {
            let pool = work.pools.get(need.pool.0);
            need.length > Minutes::ZERO && pool.is_some_and(|pool| pool.most() < need.places)
        };
        let of_any = step.either.iter().all(|need| lacks(&need)).then(|| step.either.first()).flatten();
        let short = step.needs.iter().find(lacks).or(of_any);
        short.map(|need| TimetableError::NeverSoMany(id, need.pool))
    })
}

/// What was found, in the terms of the work.
fn timetable(work: &Work, grid: &TimeGrid, found: &BestFound, bound: i64) -> Option<Timetable> {
    let placement = |(step, assignment): (StepId, &Option<Assignment>)| {
        let (start, way) = (*assignment)?;
        let way = grid.steps[step].ways.get(way)?;
        let start = Moment::clamped(work.from.signed() + start);
        let end = start + work.get(step)?.length;
        Some(Placement { step, start, end, machine: way.machine, pool: way.pool })
    };
    let placements: Vec<Placement> = found.assignments.with_ids().filter_map(placement).collect();
    let left_out =
        found.assignments.with_ids().filter(|(_, at)| at.is_none()).map(|(step, _)| step).collect();
    let waiting = Waiting::of(work, &placements)?;
    let bound = Minutes::new(u32::try_from(bound).unwrap_or(0)).min(waiting.total());
    Some(Timetable { placements, left_out, waiting, bound, shortfall: None })
}
