//! Every timetable of a small work, one after the other: the best one, or a proof that there is none.
//!
//! Depth first over steps, their minutes and their machines, without what windows, resources and the waiting so far
//! already exclude. What the search finds by hand is so confirmed, or bettered, or refuted.

use crate::board::{Board, Unit};
use crate::grid::{Grid, Minute};
use crate::profile::Spot;
use crate::windows::Windows;

/// What came of trying everything.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Tried {
    /// The best timetable under the given waiting.
    Best(Vec<Option<Spot>>),
    /// There is none under the given waiting.
    Nothing,
    /// There were too many to try.
    TooMany,
}

/// The most placings to try: some tenths of a second.
pub const PLACINGS: usize = 30_000;

/// The best timetable with less than some waiting, if it takes no more than so many placings to know.
pub fn exhaust(grid: &Grid, root: &Windows, units: &[Unit], less_than: i64, placings: usize) -> Tried {
    let mut all = All::new(grid, root, units, less_than, placings);
    let is_done = all.place_next(0);
    match (is_done, all.best) {
        (true, Some(best)) => Tried::Best(best),
        (true, None) => Tried::Nothing,
        (false, _) => Tried::TooMany,
    }
}

/// Any timetable at all, if it takes no more than so many placings to know.
pub fn any(grid: &Grid, root: &Windows, units: &[Unit], placings: usize) -> Tried {
    let mut all = All { is_any_enough: true, ..All::new(grid, root, units, i64::MAX, placings) };
    let is_done = all.place_next(0);
    match all.best {
        Some(best) => Tried::Best(best),
        None if is_done => Tried::Nothing,
        None => Tried::TooMany,
    }
}

struct All<'g> {
    board: Board<'g>,
    order: Vec<usize>,
    less_than: i64,
    left: usize,
    best: Option<Vec<Option<Spot>>>,
    is_any_enough: bool,
}

impl<'g> All<'g> {
    fn new(grid: &'g Grid, root: &'g Windows, units: &[Unit], less_than: i64, placings: usize) -> Self {
        let order: Vec<usize> = units.iter().flat_map(|unit| unit.tree.steps()).collect();
        let board = Board::new(grid, root);
        Self { board, order, less_than, left: placings, best: None, is_any_enough: false }
    }

    /// Tries every spot of the step at a depth; `false` once that was enough or too much.
    fn place_next(&mut self, depth: usize) -> bool {
        if self.board.cost() >= self.less_than {
            return true;
        }
        let Some(&step) = self.order.get(depth) else {
            self.less_than = self.board.cost();
            self.best = Some(self.board.spots.clone());
            return !self.is_any_enough;
        };
        let Some((low, high)) = self.board.windows(&[step]) else { return true };
        // Late is what is good for most steps, so the best is found early.
        (low[step]..=high[step]).rev().all(|start| self.try_start(step, start, depth))
    }

    fn try_start(&mut self, step: usize, start: Minute, depth: usize) -> bool {
        self.machines(step, start).into_iter().all(|machine| {
            if self.left == 0 {
                return false;
            }
            self.left -= 1;
            self.board.place(step, (start, machine));
            let is_done = self.place_next(depth + 1);
            self.board.take_out(step);
            is_done
        })
    }

    /// The machines that a step could be on; of those that are alike and idle, one.
    fn machines(&self, step: usize, start: Minute) -> Vec<Option<usize>> {
        let grid = self.board.grid;
        let profile = self.board.profile();
        if profile.closed_pool(grid, step, start).is_some() {
            return Vec::new();
        }
        let wanted = &grid.steps[step];
        let Some(fleet) = wanted.fleet else { return vec![None] };
        let mut machines: Vec<usize> = Vec::new();
        for &machine in &grid.fleets[fleet].machines {
            let is_alike = |other: &usize| grid.are_alike(machine, *other) && profile.is_idle(*other);
            let is_second = profile.is_idle(machine) && machines.iter().any(is_alike);
            if !is_second && profile.is_machine_free(machine, wanted, start) {
                machines.push(machine);
            }
        }
        machines.into_iter().map(Some).collect()
    }
}
