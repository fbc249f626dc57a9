//! A timetable in the making: steps are placed, job by job, and taken out again.

use std::collections::VecDeque;

use crate::grid::{Grid, Minute};
use crate::profile::{Profile, Spot};
use crate::tree::{BLOCKED, Costs, Tree};
use crate::windows::Windows;

/// Steps that are placed and taken out together: a dough with what is made for it alone.
#[derive(Debug, Clone)]
pub struct Unit {
    pub steps: Vec<usize>,
    pub tree: Tree,
}

/// A timetable in the making.
#[derive(Debug, Clone)]
pub struct Board<'g> {
    pub grid: &'g Grid,
    /// The bounds of each step whatever else is placed.
    root: &'g Windows,
    profile: Profile,
    pub spots: Vec<Option<Spot>>,
}

impl<'g> Board<'g> {
    pub fn new(grid: &'g Grid, root: &'g Windows) -> Self {
        Self { grid, root, profile: Profile::new(grid), spots: vec![None; grid.steps.len()] }
    }

    /// Places all steps of a unit, each where it costs the least for what is placed already; whether they all fit.
    /// If not, none is placed.
    ///
    /// The layout of a tree is exact as long as its own steps do not compete. Where they do, those that fit stay and
    /// the others are laid out again around them.
    pub fn insert(&mut self, unit: &Unit) -> bool {
        while unit.steps.iter().any(|&step| self.spots[step].is_none()) {
            let Some(laid) = self.lay(unit) else {
                self.remove(unit);
                return false;
            };
            let mut has_placed = false;
            for (step, start) in laid {
                if self.spots[step].is_some() {
                    continue;
                }
                let spot =
                    self.profile.spot(self.grid, step, start).filter(|_| self.keeps_waits(step, start));
                let Some(spot) = spot else { break };
                self.place(step, spot);
                has_placed = true;
            }
            if !has_placed {
                self.remove(unit);
                return false;
            }
        }
        true
    }

    /// Takes out what is placed of a unit.
    pub fn remove(&mut self, unit: &Unit) {
        for &step in &unit.steps {
            self.take_out(step);
        }
    }

    /// Takes out a step, if it is placed.
    pub fn take_out(&mut self, step: usize) {
        if let Some((start, machine)) = self.spots[step].take() {
            self.profile.give_back(self.grid, step, start, machine);
        }
    }

    /// Places a step where it is known to fit.
    pub fn place(&mut self, step: usize, spot: Spot) {
        self.profile.take(self.grid, step, spot.0, spot.1);
        self.spots[step] = Some(spot);
    }

    /// What is free.
    pub const fn profile(&self) -> &Profile {
        &self.profile
    }

    /// Minutes of waiting so far: of what is over before it is due, and between steps beyond the least.
    pub fn cost(&self) -> i64 {
        let steps = self.grid.steps.iter().zip(&self.spots);
        let early = steps.filter_map(|(step, spot)| Some(step.due? - (*spot)?.0 - step.length));
        let waits = self
            .grid
            .waits
            .iter()
            .filter_map(|wait| Some(self.spots[wait.before]?.0 - self.spots[wait.after]?.0 - wait.least));
        early.sum::<i64>() + waits.sum::<i64>()
    }

    fn keeps_waits(&self, step: usize, start: Minute) -> bool {
        self.grid.waits_of[step].iter().all(|&wait| {
            let wait = &self.grid.waits[wait];
            self.spots[wait.other(step)].is_none_or(|(other, _)| {
                let apart = if wait.after == step { other - start } else { start - other };
                wait.least <= apart && apart <= wait.most
            })
        })
    }

    /// The cheapest layout of a unit's steps around what is placed, with what is placed of it already.
    fn lay(&self, unit: &Unit) -> Option<Vec<(usize, Minute)>> {
        let (low, high) = self.windows(&unit.steps)?;
        let laid = unit.tree.lay(self.grid, 1, |step| {
            let (low, high) = (low[step], high[step]);
            if self.spots[step].is_some() {
                return Costs { low, at: vec![0] };
            }
            let is_free = self.profile.free_starts(self.grid, step, low, high);
            let at = (low..).zip(is_free);
            let at =
                at.map(|(start, is_free)| if is_free { self.own_cost(unit, step, start) } else { BLOCKED });
            Costs { low, at: at.collect() }
        })?;
        Some(laid.starts)
    }

    /// What a start costs beside the waits within the unit.
    fn own_cost(&self, unit: &Unit, step: usize, start: Minute) -> i64 {
        let wanted = &self.grid.steps[step];
        let early = wanted.due.map_or(0, |due| due - start - wanted.length);
        let waits = self.grid.waits_of[step].iter().filter_map(|&wait| {
            let wait = &self.grid.waits[wait];
            let other = wait.other(step);
            let (other_start, _) = self.spots[other].filter(|_| !unit.steps.contains(&other))?;
            Some(if wait.after == step { other_start - start } else { start - other_start } - wait.least)
        });
        early + waits.sum::<i64>()
    }

    /// The bounds of some steps and of whatever not yet placed hangs on them, by what is placed around them.
    /// `None` if some step has no minute left.
    pub fn windows(&self, steps: &[usize]) -> Option<(Vec<Minute>, Vec<Minute>)> {
        let mut windows = self.root.clone();
        for (step, spot) in self.spots.iter().enumerate() {
            if let Some((start, _)) = spot {
                (windows.low[step], windows.high[step]) = (*start, *start);
            }
        }
        // Everything within reach once, so that each bound is spread from where it stands, and then what moves.
        let (mut queue, mut is_queued) = self.within_reach(steps);
        while let Some(step) = queue.pop_front() {
            is_queued[step] = false;
            for &wait in &self.grid.waits_of[step] {
                let other = self.grid.waits[wait].other(step);
                let are_placed = self.spots[step].is_some() && self.spots[other].is_some();
                if are_placed || !windows.relax(self.grid, wait) {
                    continue;
                }
                if windows.low[other] > windows.high[other] || windows.low[step] > windows.high[step] {
                    return None;
                }
                if !std::mem::replace(&mut is_queued[other], true) {
                    queue.push_back(other);
                }
            }
        }
        Some((windows.low, windows.high))
    }

    /// Some steps, what hangs on them and is not placed, and what is placed around that.
    fn within_reach(&self, steps: &[usize]) -> (VecDeque<usize>, Vec<bool>) {
        let mut is_seen = vec![false; self.spots.len()];
        let mut queue: VecDeque<usize> = steps.iter().copied().collect();
        for &step in steps {
            is_seen[step] = true;
        }
        let mut next = 0;
        while let Some(&step) = queue.get(next) {
            next += 1;
            let waits = self.grid.waits_of[step].iter().filter(|_| self.spots[step].is_none());
            for other in waits.map(|&wait| self.grid.waits[wait].other(step)) {
                if !std::mem::replace(&mut is_seen[other], true) {
                    queue.push_back(other);
                }
            }
        }
        (queue, is_seen)
    }
}
