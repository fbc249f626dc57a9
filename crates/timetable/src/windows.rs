//! Between which minutes each step may begin: the simple temporal network of the windows.
//!
//! The time lags are differences of two starts within bounds. Bellman and Ford's relaxation, from the bounds that stand
//! on their own (span, not before, out by, what is placed already), finds the tightest ones or a contradiction
//! (R. Dechter, I. Meiri, J. Pearl, "Temporal constraint networks", Artificial Intelligence 49 (1991) 61-95; the
//! paper's pages are from memory). Every bound keeps what it came from, so that a contradiction can be explained.

use std::collections::VecDeque;

use crate::grid::{Minute, TimeGrid};
use crate::id_vec::IdVec;
use crate::profile::Profile;
use crate::{PoolId, StepId, TimeLagId};

/// What a bound comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum BoundReason {
    /// The step by itself: span, release, deadline.
    #[default]
    Itself,
    /// A time lag, by its index, and the bound of the step at its other end.
    TimeLag(TimeLagId),
    /// What the step takes of a pool, by its index, is not there from this bound to the one before it.
    Closed(PoolId, Minute),
}

/// The bounds of the starts of all steps, with their reasons.
#[derive(Debug, Clone)]
pub struct Windows {
    pub low: IdVec<StepId, Minute>,
    pub high: IdVec<StepId, Minute>,
    pub low_reason: IdVec<StepId, BoundReason>,
    pub high_reason: IdVec<StepId, BoundReason>,
    /// Of a bound that was moved on by a closed pool, what it came from before that.
    pub low_before: IdVec<StepId, BoundReason>,
    pub high_before: IdVec<StepId, BoundReason>,
}

impl Windows {
    /// The bounds of the steps by themselves.
    pub fn of_steps(grid: &TimeGrid) -> Self {
        let itself = IdVec::filled(BoundReason::Itself, grid.steps.len());
        Self {
            low: grid.steps.iter().map(|step| step.low).collect(),
            high: grid.steps.iter().map(|step| step.high).collect(),
            low_reason: itself.clone(),
            high_reason: itself.clone(),
            low_before: itself.clone(),
            high_before: itself,
        }
    }

    /// The tightest bounds that windows and opening hours give, or the step whose bounds have crossed.
    ///
    /// # Errors
    /// With a step that has no minute left.
    pub fn tightened(grid: &TimeGrid) -> Result<Self, Box<(Self, StepId)>> {
        let mut windows = Self::of_steps(grid);
        let empty = Profile::new(grid);
        let all = (grid.steps.ids().collect(), IdVec::filled(true, grid.steps.len()));
        let skip_closed = |windows: &mut Self, step| windows.skip_closed(grid, &empty, step);
        match windows.propagate(grid, all, skip_closed, |_| false) {
            Ok(()) => Ok(windows),
            Err(step) => Err(Box::new((windows, step))),
        }
    }

    /// Relaxes time lags from some steps on until no bound moves: the one relaxation of the crate.
    ///
    /// `queued` has the steps to begin with, in order, and whether each step is among them. `settle` tightens a step by
    /// itself before its time lags do. A time lag between two steps that are fixed is left alone.
    ///
    /// # Errors
    /// With a step that has no minute left.
    pub fn propagate(
        &mut self,
        grid: &TimeGrid,
        queued: (VecDeque<StepId>, IdVec<StepId, bool>),
        mut settle: impl FnMut(&mut Self, StepId),
        is_fixed: impl Fn(StepId) -> bool,
    ) -> Result<(), StepId> {
        let (mut queue, mut is_queued) = queued;
        while let Some(step) = queue.pop_front() {
            is_queued[step] = false;
            settle(self, step);
            if self.low[step] > self.high[step] {
                return Err(step);
            }
            for &time_lag in &grid.time_lags_of[step] {
                let other = grid.time_lags[time_lag].other(step);
                if is_fixed(step) && is_fixed(other) {
                    continue;
                }
                if self.relax(grid, time_lag) && !is_queued[other] {
                    is_queued[other] = true;
                    queue.push_back(other);
                }
                if self.low[other] > self.high[other] {
                    return Err(other);
                }
            }
        }
        Ok(())
    }

    /// Tightens the ends of one time lag by each other; whether anything moved.
    fn relax(&mut self, grid: &TimeGrid, time_lag: TimeLagId) -> bool {
        let link = &grid.time_lags[time_lag];
        let (after, before) = (link.after, link.before);
        let lows = [(before, self.low[after] + link.least), (after, self.low[before] - link.most)];
        let highs = [(before, self.high[after] + link.most), (after, self.high[before] - link.least)];
        let mut is_moved = false;
        for (step, bound) in lows {
            if bound > self.low[step] {
                self.low[step] = bound;
                self.low_reason[step] = BoundReason::TimeLag(time_lag);
                is_moved = true;
            }
        }
        for (step, bound) in highs {
            if bound < self.high[step] {
                self.high[step] = bound;
                self.high_reason[step] = BoundReason::TimeLag(time_lag);
                is_moved = true;
            }
        }
        is_moved
    }

    /// Moves the bounds of a step over minutes at which a pool is closed to it.
    fn skip_closed(&mut self, grid: &TimeGrid, empty: &Profile, step: StepId) {
        let (low, high) = (self.low[step], self.high[step]);
        if grid.steps[step].needs.is_empty() || low > high {
            return;
        }
        let is_open = empty.open_starts(grid, step, low, high);
        let closed = |minute| {
            let pool = empty.closed_pool(grid, step, minute);
            debug_assert!(pool.is_some(), "a minute that is closed by no pool");
            pool.map_or(BoundReason::Itself, |pool| BoundReason::Closed(pool, minute))
        };
        let first =
            (low..=high).zip(&is_open).find(|(_, open)| **open).map_or(high + 1, |(minute, _)| minute);
        let last = (low..=high).zip(&is_open).filter(|(_, open)| **open).last();
        let last = last.map_or(low - 1, |(minute, _)| minute);
        if first > low {
            self.low_before[step] = self.low_reason[step];
            self.low_reason[step] = closed(low);
            self.low[step] = first;
        }
        if last < high && first <= high {
            self.high_before[step] = self.high_reason[step];
            self.high_reason[step] = closed(high);
            self.high[step] = last;
        }
    }
}
