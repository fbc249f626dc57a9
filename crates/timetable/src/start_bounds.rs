//! Between which minutes each step can still begin, while steps are placed and taken back in the reverse order.
//!
//! As in [`windows`](crate::windows), bounds spread along time lags (R. Dechter, I. Meiri, J. Pearl, 1991); here each change is
//! written down, so that it can be taken back. A step has two upper bounds: one for all that is due to be in time, and one
//! for when it may be late.

use crate::StepId;
use crate::grid::{Minute, TimeGrid};
use crate::id_vec::IdVec;

/// Which of the bounds of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StartBound {
    /// It cannot begin before.
    Earliest,
    /// It begins by then if nothing is to be late.
    InTime,
    /// It begins by then even if it is late.
    Last,
}

/// The bounds of all steps.
#[derive(Debug, Clone)]
pub struct StartBounds {
    earliest: IdVec<StepId, Minute>,
    in_time: IdVec<StepId, Minute>,
    last: IdVec<StepId, Minute>,
    /// What was changed, and what it was before.
    changes: Vec<(StartBound, StepId, Minute)>,
    queue: Vec<StepId>,
    is_queued: IdVec<StepId, bool>,
}

impl StartBounds {
    /// The bounds that time lags, releases, deadlines and the span give by themselves.
    pub fn new(grid: &TimeGrid) -> Self {
        let mut bounds = Self {
            earliest: grid.steps.iter().map(|step| step.low).collect(),
            in_time: grid.steps.iter().map(|step| step.high).collect(),
            last: grid.steps.iter().map(|step| grid.minutes - step.length).collect(),
            changes: Vec::new(),
            queue: Vec::new(),
            is_queued: IdVec::filled(false, grid.steps.len()),
        };
        for bound in [StartBound::Earliest, StartBound::InTime, StartBound::Last] {
            grid.steps.ids().for_each(|step| bounds.queue(step));
            bounds.spread(grid, bound, |_| false, |_, _| Some(()));
        }
        bounds.changes.clear();
        bounds
    }

    pub fn get(&self, bound: StartBound, step: StepId) -> Minute {
        match bound {
            StartBound::Earliest => self.earliest[step],
            StartBound::InTime => self.in_time[step],
            StartBound::Last => self.last[step],
        }
    }

    /// Moves a bound, whichever way.
    pub fn set(&mut self, bound: StartBound, step: StepId, minute: Minute) {
        let own = match bound {
            StartBound::Earliest => &mut self.earliest[step],
            StartBound::InTime => &mut self.in_time[step],
            StartBound::Last => &mut self.last[step],
        };
        self.changes.push((bound, step, std::mem::replace(own, minute)));
    }

    /// Notes a step from which bounds are to be spread.
    pub fn queue(&mut self, step: StepId) {
        if !std::mem::replace(&mut self.is_queued[step], true) {
            self.queue.push(step);
        }
    }

    /// How much has been changed so far, to take back what follows.
    pub fn mark(&self) -> usize {
        self.changes.len()
    }

    /// Takes back everything since a mark.
    pub fn take_back(&mut self, mark: usize) {
        while self.changes.len() > mark {
            let Some((bound, step, minute)) = self.changes.pop() else { return };
            let own = match bound {
                StartBound::Earliest => &mut self.earliest[step],
                StartBound::InTime => &mut self.in_time[step],
                StartBound::Last => &mut self.last[step],
            };
            *own = minute;
        }
    }

    /// Spreads one bound from the queued steps along time lags until nothing moves. `settle` moves the bound of a step by
    /// what else it needs, and ends the spreading where the step has no minute left; placed steps stay. Whether all of them
    /// have one.
    pub fn spread(
        &mut self,
        grid: &TimeGrid,
        bound: StartBound,
        is_placed: impl Fn(StepId) -> bool,
        settle: impl Fn(&mut Self, StepId) -> Option<()>,
    ) -> bool {
        let mut is_possible = true;
        while let Some(step) = self.queue.pop() {
            self.is_queued[step] = false;
            if !is_possible || settle(self, step).is_none() {
                is_possible = false;
                continue;
            }
            for &time_lag in &grid.time_lags_of[step] {
                let link = &grid.time_lags[time_lag];
                let other = link.other(step);
                if is_placed(other) {
                    continue;
                }
                let (own, known) = (self.get(bound, step), self.get(bound, other));
                let is_after = link.after == step;
                let (moved, is_tighter) = match bound {
                    StartBound::Earliest => {
                        let moved = own + if is_after { link.least } else { -link.most };
                        (moved, moved > known)
                    }
                    StartBound::InTime | StartBound::Last => {
                        let moved = own + if is_after { link.most } else { -link.least };
                        (moved, moved < known)
                    }
                };
                // What is outside of the span is impossible anyway; without that, time lags in a circle would go on for ever.
                let moved = moved.clamp(-1, grid.minutes + 1);
                if is_tighter && moved != known {
                    self.set(bound, other, moved);
                    self.queue(other);
                }
            }
        }
        is_possible
    }
}
