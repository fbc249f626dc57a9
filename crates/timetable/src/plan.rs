//! From the work to the timetable, or to why there is none.

use crate::board::{Board, Unit};
use crate::bound::Bound;
use crate::exhaust::{PLACINGS, Tried, exhaust};
use crate::grid::Grid;
use crate::mistake;
use crate::search::{Found, Search};
use crate::trouble::clash::clash;
use crate::trouble::overload::overload;
use crate::trouble::together::together;
use crate::units::units;
use crate::windows::Windows;
use crate::{Entry, JobId, MachineId, Minutes, Moment, StepId, Timetable, Trouble, Waiting, Work, verify};

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
/// What comes back has passed [`verify`]. `docs/timetable.md` tells the method.
///
/// # Errors
/// Why there is no timetable, or that none was found.
pub fn plan(work: &Work, effort: Effort) -> Result<Timetable, Trouble> {
    if let Some(trouble) = plain_trouble(work) {
        return Err(trouble);
    }
    let grid = Grid::new(work);
    let root = Windows::tightened(&grid);
    let root = root.map_err(|(windows, step)| Trouble::Windows(clash(work, &grid, &windows, step)))?;
    let units = units(&grid, work.jobs.len());
    let (found, bound) = look(work, &grid, &root, &units, effort)?;
    let timetable = timetable(work, &found, bound).ok_or_else(|| not_found(&grid, &units, &found))?;
    let is_right = verify(work, &timetable).is_empty();
    if is_right { Ok(timetable) } else { Err(not_found(&grid, &units, &found)) }
}

/// Trouble that is seen before any time is looked at.
fn plain_trouble(work: &Work) -> Option<Trouble> {
    if let Some(mistake) = mistake::first(work) {
        return Some(Trouble::Mistake(mistake));
    }
    work.step_ids().zip(&work.steps).find_map(|(id, step)| {
        let is_taken = |on: &crate::OnMachine| {
            work.machines.iter().any(|machine| machine.class == on.class && machine.takes(&on.dough))
        };
        if !step.machine.as_ref().is_none_or(is_taken) {
            return Some(Trouble::NoMachine(id));
        }
        let needs = step.needs.iter().filter(|need| need.length > Minutes::ZERO);
        let mut short =
            needs.filter(|need| work.pools.get(need.pool.0).is_some_and(|p| p.most() < need.places));
        short.next().map(|need| Trouble::NeverSoMany(id, need.pool))
    })
}

/// The best that is found, and the bound; where nothing is found, why.
fn look(
    work: &Work,
    grid: &Grid,
    root: &Windows,
    units: &[Unit],
    effort: Effort,
) -> Result<(Found, i64), Trouble> {
    let mut search = Search::new(grid, root, units);
    let mut bound = Bound::new(grid, root);
    for slice in 0..SLICES {
        // Side by side, each with what the other knew before: two cores are used and the result is always the same.
        let (below, above) = (bound.minutes(), search.known());
        std::thread::scope(|scope| {
            scope.spawn(|| bound.raise(effort.prices / SLICES, above));
            search.improve(effort.rounds / SLICES, below);
        });
        let is_lost = slice == 0 && !search.best().unplaced.is_empty();
        if let Some(overload) = is_lost.then(|| overload(work, grid, root)).flatten() {
            return Err(Trouble::Overload(overload));
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
    match exhaust(grid, root, units, less_than, PLACINGS) {
        Tried::Best(spots) => {
            let mut board = Board::new(grid, root);
            board.spots.clone_from(&spots);
            let cost = board.cost();
            Ok((Found { spots, unplaced: Vec::new(), cost }, cost))
        }
        Tried::Nothing if is_found => Ok((found.clone(), found.cost)),
        Tried::Nothing => Err(Trouble::Together(together(work, PLACINGS))),
        Tried::TooMany => Ok((found, bound)),
    }
}

/// The jobs for which no place was found.
fn not_found(grid: &Grid, units: &[Unit], found: &Found) -> Trouble {
    let steps = found.unplaced.iter().flat_map(|&unit| &units[unit].steps);
    let mut jobs: Vec<JobId> = steps.map(|&step| JobId(grid.steps[step].job)).collect();
    jobs.sort_unstable();
    jobs.dedup();
    Trouble::NotFound(jobs)
}

/// What was found, in the terms of the work; `None` if some step has no place.
fn timetable(work: &Work, found: &Found, bound: i64) -> Option<Timetable> {
    let entry = |(index, spot): (usize, &Option<crate::profile::Spot>)| {
        let (start, machine) = (*spot)?;
        let start = Moment::clamped(work.from.signed() + start);
        let end = start + work.steps.get(index)?.length;
        Some(Entry { step: StepId(index), start, end, machine: machine.map(MachineId) })
    };
    let entries: Vec<Entry> = found.spots.iter().enumerate().map(entry).collect::<Option<_>>()?;
    let waiting = Waiting::of(work, &entries)?;
    let bound = Minutes::new(u32::try_from(bound).unwrap_or(0));
    Some(Timetable { entries, waiting, bound })
}
