//! A timetable improved piece by piece: a few groups that are near to each other are taken out and placed again in another
//! order, each exactly where it costs the least (large neighbourhood search, after P. Shaw, "Using constraint
//! programming and local search methods to solve vehicle routing problems", 1998, from memory).
//!
//! It begins with a timetable in which everything is in time and nothing is left out, and keeps to that.

use crate::StepId;
use crate::annealing::BestFound;
use crate::backward::ScheduleCost;
use crate::grid::{Minute, TimeGrid};
use crate::id_vec::{GroupId, Id as _, IdVec};
use crate::partial_schedule::{PartialSchedule, StepGroup};
use crate::profile::Assignment;
use crate::random::SeededRandom;
use crate::windows::Windows;

/// A search around one timetable.
pub struct Neighbourhoods<'g> {
    schedule: PartialSchedule<'g>,
    groups: &'g IdVec<GroupId, StepGroup>,
    random: SeededRandom,
    best: BestFound,
}

impl<'g> Neighbourhoods<'g> {
    /// Around a timetable that has all steps.
    pub fn of(
        grid: &'g TimeGrid,
        root: &'g Windows,
        groups: &'g IdVec<GroupId, StepGroup>,
        found: &BestFound,
    ) -> Self {
        let mut schedule = PartialSchedule::new(grid, root);
        for (step, at) in found.assignments.with_ids() {
            if let Some(at) = at {
                schedule.place(step, *at);
            }
        }
        Self { schedule, groups, random: SeededRandom::new(0), best: found.clone() }
    }

    /// The best timetable after so many rounds; ends early when the waiting is down to a bound.
    pub fn improved(mut self, rounds: usize, bound: i64) -> BestFound {
        for round in 0..rounds {
            if self.best.cost.waiting <= bound {
                break;
            }
            // How much worse a result may be and be kept: from a fiftieth of the waiting down to nothing.
            let left = i64::try_from((rounds - round) * 1000 / rounds).unwrap_or(0);
            self.round(self.best.cost.waiting * left / 50_000);
        }
        self.best
    }

    fn round(&mut self, leeway: i64) {
        let mut moved = self.neighbours();
        let before = self.schedule.assignments.clone();
        let cost_before = self.schedule.cost();
        for &group in &moved {
            self.schedule.remove(&self.groups[group]);
        }
        self.random.shuffle(&mut moved);
        let fits = moved.iter().all(|&group| self.schedule.insert(&self.groups[group]));
        let cost = self.schedule.cost();
        if !fits || cost > cost_before.max(self.best.cost.waiting + leeway) {
            self.restore(&moved, &before);
            return;
        }
        if cost < self.best.cost.waiting {
            let cost = ScheduleCost { waiting: cost, ..ScheduleCost::default() };
            self.best = BestFound { assignments: self.schedule.assignments.clone(), cost };
        }
    }

    /// The groups of one round: some that are near in time or hang on each other.
    fn neighbours(&mut self) -> Vec<GroupId> {
        let centre = GroupId::of_place(self.random.below(self.groups.len()));
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
        near.truncate((size * 2).min(near.len()));
        self.random.shuffle(&mut near);
        near.truncate(size);
        near.push(centre);
        near
    }

    /// When a group begins its last step.
    fn starts(&self, group: GroupId) -> Minute {
        let steps = self.groups[group].steps.iter();
        steps.filter_map(|&step| self.schedule.assignments[step]).map(|at| at.0).max().unwrap_or(0)
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
            if let Some(at) = assignments[step] {
                self.schedule.place(step, at);
            }
        }
    }
}
