//! A timetable in the making: steps are placed, group by group, and taken out again.

use std::collections::VecDeque;

use crate::grid::{Minute, TimeGrid};
use crate::id_vec::{GroupId, IdVec};
use crate::lag_forest::{BLOCKED, LagForest, StartCosts};
use crate::profile::{Assignment, Profile};
use crate::windows::Windows;
use crate::{JobId, StepId};

/// Steps that are placed and taken out together: a dough with what is made for it alone.
#[derive(Debug, Clone, Default)]
pub struct StepGroup {
    pub steps: Vec<StepId>,
    pub tree: LagForest,
}

/// A timetable in the making.
#[derive(Debug, Clone)]
pub struct PartialSchedule<'g> {
    pub grid: &'g TimeGrid,
    /// The bounds of each step whatever else is placed.
    root: &'g Windows,
    profile: Profile,
    pub assignments: IdVec<StepId, Option<Assignment>>,
}

impl<'g> PartialSchedule<'g> {
    pub fn new(grid: &'g TimeGrid, root: &'g Windows) -> Self {
        Self { grid, root, profile: Profile::new(grid), assignments: IdVec::filled(None, grid.steps.len()) }
    }

    /// Places all steps of a group, each where it costs the least for what is placed already; whether they all fit.
    /// If not, none is placed.
    ///
    /// The layout of a tree is exact as long as its own steps do not compete. Where they do, those that fit stay and
    /// the others are laid out again around them.
    pub fn insert(&mut self, group: &StepGroup) -> bool {
        while group.steps.iter().any(|&step| self.assignments[step].is_none()) {
            let Some(layout) = self.cheapest_layout(group) else {
                self.remove(group);
                return false;
            };
            let mut has_placed = false;
            for (step, start) in layout {
                if self.assignments[step].is_some() {
                    continue;
                }
                let assignment = self
                    .profile
                    .assignment(self.grid, step, start)
                    .filter(|_| self.keeps_time_lags(step, start));
                let Some(assignment) = assignment else { break };
                self.place(step, assignment);
                has_placed = true;
            }
            if !has_placed {
                self.remove(group);
                return false;
            }
        }
        true
    }

    /// Takes out what is placed of a group.
    pub fn remove(&mut self, group: &StepGroup) {
        for &step in &group.steps {
            self.take_out(step);
        }
    }

    /// Takes out a step, if it is placed.
    pub fn take_out(&mut self, step: StepId) {
        if let Some(at) = self.assignments[step].take() {
            self.profile.give_back(self.grid, step, at);
        }
    }

    /// Places a step where it is known to fit.
    pub fn place(&mut self, step: StepId, assignment: Assignment) {
        self.profile.take(self.grid, step, assignment);
        self.assignments[step] = Some(assignment);
    }

    /// What is free.
    pub const fn profile(&self) -> &Profile {
        &self.profile
    }

    /// Minutes of waiting so far: of what is over before it is due, and between steps beyond the least.
    pub fn cost(&self) -> i64 {
        let steps = self.grid.steps.iter().zip(self.assignments.iter());
        let early = steps.filter_map(|(step, assignment)| Some(step.due? - (*assignment)?.0 - step.length));
        let time_lags = self.grid.time_lags.iter().filter_map(|time_lag| {
            Some(self.assignments[time_lag.before]?.0 - self.assignments[time_lag.after]?.0 - time_lag.least)
        });
        early.sum::<i64>() + time_lags.sum::<i64>()
    }

    fn keeps_time_lags(&self, step: StepId, start: Minute) -> bool {
        self.grid.time_lags_of[step].iter().all(|&time_lag| {
            let time_lag = &self.grid.time_lags[time_lag];
            self.assignments[time_lag.other(step)].is_none_or(|(other, _)| {
                let apart = if time_lag.after == step { other - start } else { start - other };
                time_lag.least <= apart && apart <= time_lag.most
            })
        })
    }

    /// The cheapest layout of a group's steps around what is placed, with what is placed of it already.
    fn cheapest_layout(&self, group: &StepGroup) -> Option<Vec<(StepId, Minute)>> {
        let (low, high) = self.windows(&group.steps)?;
        let layout = group.tree.cheapest_layout(self.grid, 1, |step| {
            let (low, high) = (low[step], high[step]);
            if self.assignments[step].is_some() {
                return StartCosts { low, at: vec![0] };
            }
            let is_free = self.profile.free_starts(self.grid, step, low, high);
            let at = (low..).zip(is_free);
            let at =
                at.map(|(start, is_free)| if is_free { self.own_cost(group, step, start) } else { BLOCKED });
            StartCosts { low, at: at.collect() }
        })?;
        Some(layout.starts)
    }

    /// What a start costs beside the time lags within the group.
    fn own_cost(&self, group: &StepGroup, step: StepId, start: Minute) -> i64 {
        let wanted = &self.grid.steps[step];
        let early = wanted.due.map_or(0, |due| due - start - wanted.length);
        let time_lags = self.grid.time_lags_of[step].iter().filter_map(|&time_lag| {
            let time_lag = &self.grid.time_lags[time_lag];
            let other = time_lag.other(step);
            let (other_start, _) = self.assignments[other].filter(|_| !group.steps.contains(&other))?;
            Some(
                if time_lag.after == step { other_start - start } else { start - other_start }
                    - time_lag.least,
            )
        });
        early + time_lags.sum::<i64>()
    }

    /// The bounds of some steps and of whatever not yet placed hangs on them, by what is placed around them.
    /// `None` if some step has no minute left.
    pub fn windows(&self, steps: &[StepId]) -> Option<(IdVec<StepId, Minute>, IdVec<StepId, Minute>)> {
        let mut windows = self.root.clone();
        for (step, assignment) in self.assignments.with_ids() {
            if let Some((start, _)) = assignment {
                (windows.low[step], windows.high[step]) = (*start, *start);
            }
        }
        // Everything within reach once, so that each bound is spread from where it stands, and then what moves.
        let is_placed = |step: StepId| self.assignments[step].is_some();
        windows.propagate(self.grid, self.within_reach(steps), |_, _| {}, is_placed).ok()?;
        Some((windows.low, windows.high))
    }

    /// Some steps, what hangs on them and is not placed, and what is placed around that.
    fn within_reach(&self, steps: &[StepId]) -> (VecDeque<StepId>, IdVec<StepId, bool>) {
        let mut is_seen = IdVec::filled(false, self.assignments.len());
        let mut queue: VecDeque<StepId> = steps.iter().copied().collect();
        for &step in steps {
            is_seen[step] = true;
        }
        let mut next = 0;
        while let Some(&step) = queue.get(next) {
            next += 1;
            let time_lags = self.grid.time_lags_of[step].iter().filter(|_| self.assignments[step].is_none());
            for other in time_lags.map(|&time_lag| self.grid.time_lags[time_lag].other(step)) {
                if !std::mem::replace(&mut is_seen[other], true) {
                    queue.push_back(other);
                }
            }
        }
        (queue, is_seen)
    }
}

/// Windows that leave less than this tie their steps together: one cannot be placed well without the other.
const TIGHT: Minute = 70;

/// The groups of the work: each job, with the jobs that are made for it alone, such as the poolish of one dough, and with those
/// that follow it within a short time, such as the loads of a batch.
///
/// A levain that several doughs take from is a group of its own.
pub fn groups(grid: &TimeGrid, jobs: usize) -> IdVec<GroupId, StepGroup> {
    let mut users: IdVec<JobId, Vec<JobId>> = IdVec::filled(Vec::new(), jobs);
    let mut leader: IdVec<JobId, JobId> = users.ids().collect();
    for time_lag in grid.time_lags.iter() {
        let (maker, user) = (grid.steps[time_lag.after].job, grid.steps[time_lag.before].job);
        if maker == user {
            continue;
        }
        if !users[maker].contains(&user) {
            users[maker].push(user);
        }
        if time_lag.most - time_lag.least <= TIGHT {
            join(&mut leader, maker, user);
        }
    }
    for (maker, users) in users.with_ids() {
        if let [user] = users[..] {
            join(&mut leader, maker, user);
        }
    }
    let mut steps: IdVec<JobId, Vec<StepId>> = IdVec::filled(Vec::new(), jobs);
    for (id, step) in grid.steps.with_ids() {
        steps[find(&leader, step.job)].push(id);
    }
    let filled = steps.iter().filter(|steps| !steps.is_empty());
    filled.map(|steps| StepGroup { tree: LagForest::spanning(grid, steps), steps: steps.clone() }).collect()
}

/// Joins the groups of two jobs.
fn join(leader: &mut IdVec<JobId, JobId>, maker: JobId, user: JobId) {
    let (from, to) = (find(leader, maker), find(leader, user));
    leader[from] = to;
}

/// Who leads the group of a job.
fn find(leader: &IdVec<JobId, JobId>, mut job: JobId) -> JobId {
    while leader[job] != job {
        job = leader[job];
    }
    job
}
