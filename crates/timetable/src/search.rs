//! A timetable with little waiting: placed backwards from what is due, then improved piece by piece.
//!
//! First all groups go into the schedule, those due last first. What finds no place pushes out what is in its way. Then, over
//! and over, a few groups that are near to each other are taken out and placed again in another order, and the result
//! is kept unless it is worse by more than a little (large neighbourhood search, after P. Shaw, "Using constraint
//! programming and local search methods to solve vehicle routing problems", 1998, from memory). The number of rounds
//! is fixed and the generator of random numbers has a fixed seed, so the same work gets the same timetable.

use crate::StepId;
use crate::grid::{Minute, TimeGrid};
use crate::id_vec::{GroupId, Id as _, IdVec};
use crate::partial_schedule::{PartialSchedule, StepGroup};
use crate::profile::Assignment;
use crate::windows::Windows;

/// The best that a search has found.
#[derive(Debug, Clone)]
pub struct BestFound {
    pub assignments: IdVec<StepId, Option<Assignment>>,
    /// Units that found no place.
    pub unplaced: Vec<GroupId>,
    /// Minutes of waiting.
    pub cost: i64,
}

/// A search over one schedule.
pub struct Search<'g> {
    schedule: PartialSchedule<'g>,
    groups: &'g IdVec<GroupId, StepGroup>,
    /// The latest start that each group could have by itself, by which groups are near.
    anchors: IdVec<GroupId, Minute>,
    random: SeededRandom,
    unplaced: Vec<GroupId>,
    best: BestFound,
}

impl<'g> Search<'g> {
    /// All groups placed as well as they go, one after the other.
    pub fn new(grid: &'g TimeGrid, root: &'g Windows, groups: &'g IdVec<GroupId, StepGroup>) -> Self {
        let latest = |group: &StepGroup| group.steps.iter().map(|&step| root.high[step]).max().unwrap_or(0);
        let anchors: IdVec<GroupId, Minute> = groups.iter().map(latest).collect();
        let mut order: Vec<GroupId> = groups.ids().collect();
        order.sort_by_key(|&group| (-anchors[group], group));
        let mut schedule = PartialSchedule::new(grid, root);
        let unplaced: Vec<GroupId> =
            order.into_iter().filter(|&group| !schedule.insert(&groups[group])).collect();
        let best = BestFound {
            assignments: schedule.assignments.clone(),
            unplaced: unplaced.clone(),
            cost: schedule.cost(),
        };
        Self { schedule, groups, anchors, random: SeededRandom::new(0), unplaced, best }
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
    pub const fn best(&self) -> &BestFound {
        &self.best
    }

    /// The least waiting of the timetables so far; none so far, so much that any bound is below it.
    pub fn known(&self) -> i64 {
        if self.best.unplaced.is_empty() {
            self.best.cost
        } else {
            2 * self.best.cost + self.schedule.grid.minutes
        }
    }

    fn round(&mut self, leeway: i64) {
        let mut moved = self.neighbours();
        let before = (self.schedule.assignments.clone(), self.unplaced.clone());
        let cost_before = self.schedule.cost();
        for &group in &moved {
            self.schedule.remove(&self.groups[group]);
        }
        self.random.shuffle(&mut moved);
        if self.random.below(3) == 0 {
            moved.sort_by_key(|&group| -self.anchors[group]);
        }
        // What had no place goes first.
        moved.sort_by_key(|group| !before.1.contains(group));
        let mut unplaced: Vec<GroupId> =
            before.1.iter().copied().filter(|group| !moved.contains(group)).collect();
        unplaced.extend(moved.iter().copied().filter(|&group| !self.schedule.insert(&self.groups[group])));
        let cost = self.schedule.cost();
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
            let (assignments, unplaced) = (self.schedule.assignments.clone(), self.unplaced.clone());
            self.best = BestFound { assignments, unplaced, cost };
        }
    }

    /// The groups of one round: what has no place, and some that are near in time or hang on each other.
    fn neighbours(&mut self) -> Vec<GroupId> {
        let count = self.groups.len();
        let drawn = self.random.below(if self.unplaced.is_empty() { count } else { self.unplaced.len() });
        let centre = self.unplaced.get(drawn).copied().unwrap_or(GroupId::of_place(drawn));
        let at = self.starts(centre);
        let mut near: Vec<GroupId> = self.groups.ids().filter(|&group| group != centre).collect();
        let kind = self.random.below(4);
        if kind == 0 {
            self.random.shuffle(&mut near);
        } else {
            let apart = |group: &GroupId| (self.starts(*group) - at).abs();
            near.sort_by_key(|group| (kind == 1 && !self.is_linked(centre, *group), apart(group)));
        }
        let size = 1 + self.random.below(6);
        // Not always the very nearest.
        let pick = (size * 2).min(near.len());
        near.truncate(pick);
        self.random.shuffle(&mut near);
        near.truncate(size);
        near.push(centre);
        near
    }

    /// When a group begins its last step, or would like to.
    fn starts(&self, group: GroupId) -> Minute {
        let steps = self.groups[group].steps.iter();
        steps
            .filter_map(|&step| self.schedule.assignments[step])
            .map(|assignment| assignment.0)
            .max()
            .unwrap_or(self.anchors[group])
    }

    fn is_linked(&self, group: GroupId, other: GroupId) -> bool {
        let grid = self.schedule.grid;
        let others = &self.groups[other].steps;
        self.groups[group].steps.iter().any(|&step| {
            grid.time_lags_of[step]
                .iter()
                .any(|&time_lag| others.contains(&grid.time_lags[time_lag].other(step)))
        })
    }

    fn restore(&mut self, moved: &[GroupId], assignments: &IdVec<StepId, Option<Assignment>>) {
        for &group in moved {
            self.schedule.remove(&self.groups[group]);
        }
        for &step in moved.iter().flat_map(|&group| &self.groups[group].steps) {
            if let Some(assignment) = assignments[step] {
                self.schedule.place(step, assignment);
            }
        }
    }
}

/// Sebastiano Vigna's splitmix64 (2015; public domain, constants from memory): a counter, well mixed.
#[derive(Debug, Clone)]
pub struct SeededRandom(u64);

impl SeededRandom {
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A number below a limit; zero of no limit.
    pub fn below(&mut self, limit: usize) -> usize {
        let limit = u64::try_from(limit).unwrap_or(u64::MAX);
        let drawn = self.next().checked_rem(limit).unwrap_or(0);
        usize::try_from(drawn).unwrap_or(0)
    }

    /// Puts things in another order.
    pub fn shuffle<T>(&mut self, things: &mut [T]) {
        for last in (1..things.len()).rev() {
            things.swap(last, self.below(last + 1));
        }
    }
}
