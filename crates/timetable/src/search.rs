//! A timetable with little waiting: placed backwards from what is due, then improved piece by piece.
//!
//! First all units go on the board, those due last first. What finds no place pushes out what is in its way. Then, over
//! and over, a few units that are near to each other are taken out and placed again in another order, and the result
//! is kept unless it is worse by more than a little (large neighbourhood search, after P. Shaw, "Using constraint
//! programming and local search methods to solve vehicle routing problems", 1998, from memory). The number of rounds
//! is fixed and lots are drawn by a fixed rule, so the same work gets the same timetable.

use crate::board::{Board, Unit};
use crate::chance::Chance;
use crate::grid::{Grid, Minute};
use crate::profile::Spot;
use crate::windows::Windows;

/// The best that a search has found.
#[derive(Debug, Clone)]
pub struct Found {
    pub spots: Vec<Option<Spot>>,
    /// Units that found no place.
    pub unplaced: Vec<usize>,
    /// Minutes of waiting.
    pub cost: i64,
}

/// A search over one board.
pub struct Search<'g> {
    board: Board<'g>,
    units: &'g [Unit],
    /// The latest start that each unit could have by itself, by which units are near.
    anchors: Vec<Minute>,
    chance: Chance,
    unplaced: Vec<usize>,
    best: Found,
}

impl<'g> Search<'g> {
    /// All units placed as well as they go, one after the other.
    pub fn new(grid: &'g Grid, root: &'g Windows, units: &'g [Unit]) -> Self {
        let latest = |unit: &Unit| unit.steps.iter().map(|&step| root.high[step]).max().unwrap_or(0);
        let anchors: Vec<Minute> = units.iter().map(latest).collect();
        let mut order: Vec<usize> = (0..units.len()).collect();
        order.sort_by_key(|&unit| (-anchors[unit], unit));
        let mut board = Board::new(grid, root);
        let unplaced: Vec<usize> = order.into_iter().filter(|&unit| !board.insert(&units[unit])).collect();
        let best = Found { spots: board.spots.clone(), unplaced: unplaced.clone(), cost: board.cost() };
        Self { board, units, anchors, chance: Chance::new(0), unplaced, best }
    }

    /// Tries that many rounds of taking out and placing again; stops early when the waiting is down to a bound.
    pub fn improve(&mut self, rounds: usize, bound: i64) {
        for round in 0..rounds {
            if self.best.unplaced.is_empty() && self.best.cost <= bound {
                return;
            }
            // How much worse a result may be and be kept: from a fiftieth of the waiting down to nothing.
            let left = i64::try_from((rounds - round) * 1000 / rounds).unwrap_or(0);
            let leeway = self.best.cost * left / 50_000;
            self.round(leeway);
        }
    }

    /// The best so far.
    pub const fn best(&self) -> &Found {
        &self.best
    }

    /// The least waiting of the timetables so far; none so far, so much that any bound is below it.
    pub fn known(&self) -> i64 {
        if self.best.unplaced.is_empty() {
            self.best.cost
        } else {
            2 * self.best.cost + self.board.grid.minutes
        }
    }

    fn round(&mut self, leeway: i64) {
        let mut moved = self.neighbours();
        let before = (self.board.spots.clone(), self.unplaced.clone());
        let cost_before = self.board.cost();
        for &unit in &moved {
            self.board.remove(&self.units[unit]);
        }
        self.chance.shuffle(&mut moved);
        if self.chance.below(3) == 0 {
            moved.sort_by_key(|&unit| -self.anchors[unit]);
        }
        // What had no place goes first.
        moved.sort_by_key(|unit| !before.1.contains(unit));
        let mut unplaced: Vec<usize> =
            before.1.iter().copied().filter(|unit| !moved.contains(unit)).collect();
        unplaced.extend(moved.iter().copied().filter(|&unit| !self.board.insert(&self.units[unit])));
        let cost = self.board.cost();
        let is_kept = match unplaced.len().cmp(&before.1.len()) {
            std::cmp::Ordering::Less => true,
            std::cmp::Ordering::Equal => {
                !unplaced.is_empty() || cost <= cost_before.max(self.best.cost + leeway)
            }
            std::cmp::Ordering::Greater => false,
        };
        if !is_kept {
            self.restore(&moved, &before.0);
            return;
        }
        self.unplaced = unplaced;
        if (self.unplaced.len(), cost) < (self.best.unplaced.len(), self.best.cost) {
            let (spots, unplaced) = (self.board.spots.clone(), self.unplaced.clone());
            self.best = Found { spots, unplaced, cost };
        }
    }

    /// The units of one round: what has no place, and some that are near in time or hang on each other.
    fn neighbours(&mut self) -> Vec<usize> {
        let count = self.units.len();
        let centre = match self.unplaced.len() {
            0 => self.chance.below(count),
            several => self.unplaced[self.chance.below(several)],
        };
        let at = self.starts(centre);
        let mut near: Vec<usize> = (0..count).filter(|&unit| unit != centre).collect();
        let kind = self.chance.below(4);
        if kind == 0 {
            self.chance.shuffle(&mut near);
        } else {
            let apart = |unit: &usize| (self.starts(*unit) - at).abs();
            near.sort_by_key(|unit| (kind == 1 && !self.is_linked(centre, *unit), apart(unit)));
        }
        let size = 1 + self.chance.below(6);
        // Not always the very nearest.
        let pick = (size * 2).min(near.len());
        near.truncate(pick);
        self.chance.shuffle(&mut near);
        near.truncate(size);
        near.push(centre);
        near
    }

    /// When a unit begins its last step, or would like to.
    fn starts(&self, unit: usize) -> Minute {
        let steps = self.units[unit].steps.iter();
        steps
            .filter_map(|&step| self.board.spots[step])
            .map(|spot| spot.0)
            .max()
            .unwrap_or(self.anchors[unit])
    }

    fn is_linked(&self, unit: usize, other: usize) -> bool {
        let grid = self.board.grid;
        let others = &self.units[other].steps;
        self.units[unit].steps.iter().any(|&step| {
            grid.waits_of[step].iter().any(|&wait| others.contains(&grid.waits[wait].other(step)))
        })
    }

    fn restore(&mut self, moved: &[usize], spots: &[Option<Spot>]) {
        for &unit in moved {
            self.board.remove(&self.units[unit]);
        }
        for &step in moved.iter().flat_map(|&unit| &self.units[unit].steps) {
            if let Some(spot) = spots[step] {
                self.board.place(step, spot);
            }
        }
    }
}
