//! Every timetable of a small work, one after the other: the best one, or a proof that there is none.
//!
//! Depth first over steps, their minutes and their machines, without what windows, resources and the waiting so far
//! already exclude. What the search finds by hand is so confirmed, or bettered, or refuted.

use crate::StepId;
use crate::grid::{Minute, TimeGrid};
use crate::id_vec::{GroupId, IdVec, WayId};
use crate::partial_schedule::{PartialSchedule, StepGroup};
use crate::profile::Assignment;
use crate::windows::Windows;

/// What came of trying everything.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SearchOutcome {
    /// The best timetable under the given waiting.
    Best(IdVec<StepId, Option<Assignment>>),
    /// There is none under the given waiting.
    Nothing,
    /// There were too many to try.
    TooMany,
}

/// The most placings to try: some tenths of a second.
pub const PLACINGS: usize = 30_000;

/// The best timetable with less than some waiting, if it takes no more than so many placings to know.
pub fn search_all(
    grid: &TimeGrid,
    root: &Windows,
    groups: &IdVec<GroupId, StepGroup>,
    less_than: i64,
    placings: usize,
) -> SearchOutcome {
    let mut all = ExhaustiveSearch::new(grid, root, groups, less_than, placings);
    let is_done = all.place_next(0);
    match (is_done, all.best) {
        (true, Some(best)) => SearchOutcome::Best(best),
        (true, None) => SearchOutcome::Nothing,
        (false, _) => SearchOutcome::TooMany,
    }
}

/// Any timetable at all, if it takes no more than so many placings to know.
pub fn any(
    grid: &TimeGrid,
    root: &Windows,
    groups: &IdVec<GroupId, StepGroup>,
    placings: usize,
) -> SearchOutcome {
    let mut all = ExhaustiveSearch {
        is_any_enough: true,
        ..ExhaustiveSearch::new(grid, root, groups, i64::MAX, placings)
    };
    let is_done = all.place_next(0);
    match all.best {
        Some(best) => SearchOutcome::Best(best),
        None if is_done => SearchOutcome::Nothing,
        None => SearchOutcome::TooMany,
    }
}

struct ExhaustiveSearch<'g> {
    schedule: PartialSchedule<'g>,
    order: Vec<StepId>,
    less_than: i64,
    left: usize,
    best: Option<IdVec<StepId, Option<Assignment>>>,
    is_any_enough: bool,
}

impl<'g> ExhaustiveSearch<'g> {
    fn new(
        grid: &'g TimeGrid,
        root: &'g Windows,
        groups: &IdVec<GroupId, StepGroup>,
        less_than: i64,
        placings: usize,
    ) -> Self {
        let order: Vec<StepId> = groups.iter().flat_map(|group| group.tree.steps()).collect();
        let schedule = PartialSchedule::new(grid, root);
        Self { schedule, order, less_than, left: placings, best: None, is_any_enough: false }
    }

    /// Tries every spot of the step at a depth; `false` once that was enough or too much.
    fn place_next(&mut self, depth: usize) -> bool {
        if self.schedule.cost() >= self.less_than {
            return true;
        }
        let Some(&step) = self.order.get(depth) else {
            self.less_than = self.schedule.cost();
            self.best = Some(self.schedule.assignments.clone());
            return !self.is_any_enough;
        };
        let Some((low, high)) = self.schedule.windows(&[step]) else { return true };
        // Late is what is good for most steps, so the best is found early.
        (low[step]..=high[step]).rev().all(|start| self.try_start(step, start, depth))
    }

    fn try_start(&mut self, step: StepId, start: Minute, depth: usize) -> bool {
        self.ways(step, start).into_iter().all(|way| {
            if self.left == 0 {
                return false;
            }
            self.left -= 1;
            self.schedule.place(step, (start, way));
            let is_done = self.place_next(depth + 1);
            self.schedule.take_out(step);
            is_done
        })
    }

    /// The ways in which a step could be done; of those on machines that are alike and idle, one.
    fn ways(&self, step: StepId, start: Minute) -> Vec<WayId> {
        let grid = self.schedule.grid;
        let profile = self.schedule.profile();
        let mut ways: Vec<WayId> = Vec::new();
        for way in profile.ways_at(grid, step, start) {
            let own = &grid.steps[step].ways[way];
            let is_alike = |other: &WayId| {
                let other = &grid.steps[step].ways[*other];
                let machines = own.machine.zip(other.machine);
                own.pool == other.pool
                    && machines
                        .is_some_and(|(one, two)| grid.are_alike(one, two) && profile.is_idle(grid, two))
            };
            let is_idle = own.machine.is_some_and(|machine| profile.is_idle(grid, machine));
            if !(is_idle && ways.iter().any(is_alike)) {
                ways.push(way);
            }
        }
        ways
    }
}
