//! The timetable: when each step begins, and on what.

use crate::{MachineId, Minutes, Moment, StepId, TimeLagId, Work};

/// When a step begins and ends, and on which machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placement {
    /// The step.
    pub step: StepId,
    /// Its first minute.
    pub start: Moment,
    /// The minute after its last.
    pub end: Moment,
    /// The machine that it is on, if it needs one.
    pub machine: Option<MachineId>,
}

/// When what is done, and how good that is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timetable {
    /// One entry for each step, in the order of the steps of the work.
    pub placements: Vec<Placement>,
    /// How much waits longer than it must.
    pub waiting: Waiting,
    /// Minutes of waiting that no timetable of this work can be under: proven, not estimated.
    pub bound: Minutes,
}

/// Minutes of waiting, the measure of a timetable: the less the better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Waiting {
    /// Of what is over before it has to be, each step by itself.
    pub early: Minutes,
    /// Between steps, beyond the least of each window.
    pub between: Minutes,
}

impl Waiting {
    /// All of it.
    #[must_use]
    pub fn total(self) -> Minutes {
        Minutes::new(self.early.count().saturating_add(self.between.count()))
    }

    /// The waiting of entries; `None` where a step has no entry, or something is late or too soon.
    pub(crate) fn of(work: &Work, placements: &[Placement]) -> Option<Self> {
        let mut waiting = Self::default();
        let add = |sum: Minutes, more: Minutes| Minutes::new(sum.count().saturating_add(more.count()));
        for (step, placement) in work.steps.iter().zip(placements) {
            if let Some(due) = step.deadline {
                waiting.early = add(waiting.early, due.since(placement.end)?);
            }
        }
        for time_lag in &work.time_lags {
            let long = length(time_lag, placements)?;
            let over = long.count().checked_sub(time_lag.least.count())?;
            waiting.between = add(waiting.between, Minutes::new(over));
        }
        Some(waiting)
    }
}

/// How long a wait is; `None` where the later step begins before the earlier one is over.
fn length(time_lag: &crate::TimeLag, placements: &[Placement]) -> Option<Minutes> {
    let (after, before) = (placements.get(time_lag.after.0)?, placements.get(time_lag.before.0)?);
    let from = match time_lag.since {
        crate::LagFrom::End => after.end,
        crate::LagFrom::Start => after.start,
    };
    before.start.since(from)
}

impl Timetable {
    /// The entry of a step; `None` of a step of another work.
    #[must_use]
    pub fn placement(&self, step: StepId) -> Option<&Placement> {
        self.placements.get(step.0)
    }

    /// How long a wait is; `None` of a wait of another work.
    #[must_use]
    pub fn time_lag(&self, work: &Work, time_lag: TimeLagId) -> Option<Minutes> {
        length(work.time_lags.get(time_lag.0)?, &self.placements)
    }

    /// How much less waiting some other timetable could at most have.
    #[must_use]
    pub fn gap(&self) -> Minutes {
        Minutes::new(self.waiting.total().count().saturating_sub(self.bound.count()))
    }

    /// Whether no timetable has less waiting.
    #[must_use]
    pub fn is_best(&self) -> bool {
        self.gap() == Minutes::ZERO
    }

    /// The first minute at which somebody is at work in a pool, and the minute after the last.
    #[must_use]
    pub fn presence(&self, work: &Work, pool: crate::PoolId) -> Option<(Moment, Moment)> {
        let needs = work.steps.iter().zip(&self.placements).flat_map(|(step, placement)| {
            let needs =
                step.needs.iter().filter(move |need| need.pool == pool && need.length > Minutes::ZERO);
            needs.map(|need| (placement.start + need.after, placement.start + need.after + need.length))
        });
        needs.reduce(|(first, last), (from, until)| (first.min(from), last.max(until)))
    }
}
