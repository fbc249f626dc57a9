//! The timetable: when each step begins, and on what.

use crate::{MachineId, Minutes, Moment, PoolId, PoolNeed, Step, StepId, TimeLagId, TimetableError, Work};

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
    /// The pool of several that it takes places of, if there are several.
    pub pool: Option<PoolId>,
}

impl Placement {
    /// What its step takes of pools: in any case, and of the one of several.
    pub fn needs<'s>(&self, step: &'s Step) -> impl Iterator<Item = &'s PoolNeed> + use<'s> {
        let pool = self.pool;
        step.needs.iter().chain(step.either.iter().filter(move |need| Some(need.pool) == pool))
    }
}

/// When what is done, and how good that is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timetable {
    /// One entry for each step that has a place, in the order of the steps of the work.
    pub placements: Vec<Placement>,
    /// Steps for which no place was found, and steps that need one of those, in their order.
    pub left_out: Vec<StepId>,
    /// How much waits longer than it must, and how late what is late is.
    pub waiting: Waiting,
    /// Minutes of waiting that no timetable of this work can be under, in which all is in time: proven, not estimated.
    pub bound: Minutes,
    /// Why something is late or left out.
    pub shortfall: Option<TimetableError>,
}

/// Minutes of waiting, the measure of a timetable: the less the better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Waiting {
    /// Of what is over after it has to be, each step by itself: no waiting, and worse than any.
    pub late: Minutes,
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

    /// The waiting of entries; `None` where a time lag is shorter than its least.
    pub(crate) fn of(work: &Work, placements: &[Placement]) -> Option<Self> {
        let mut waiting = Self::default();
        let add = |sum: Minutes, more: Minutes| Minutes::new(sum.count().saturating_add(more.count()));
        for placement in placements {
            let Some(due) = work.get(placement.step)?.deadline else { continue };
            match due.since(placement.end) {
                Some(early) => waiting.early = add(waiting.early, early),
                None => waiting.late = add(waiting.late, placement.end.since(due)?),
            }
        }
        for time_lag in &work.time_lags {
            if [time_lag.after, time_lag.before].iter().any(|step| find(placements, *step).is_none()) {
                continue;
            }
            let over = length(time_lag, placements)?.count().checked_sub(time_lag.least.count())?;
            waiting.between = add(waiting.between, Minutes::new(over));
        }
        Some(waiting)
    }
}

/// The entry of a step.
fn find(placements: &[Placement], step: StepId) -> Option<&Placement> {
    let place = placements.binary_search_by_key(&step, |placement| placement.step).ok()?;
    placements.get(place)
}

/// How long a wait is; `None` where the later step begins before the earlier one is over, or one of them is left out.
fn length(time_lag: &crate::TimeLag, placements: &[Placement]) -> Option<Minutes> {
    let (after, before) = (find(placements, time_lag.after)?, find(placements, time_lag.before)?);
    let from = match time_lag.since {
        crate::LagFrom::End => after.end,
        crate::LagFrom::Start => after.start,
    };
    before.start.since(from)
}

impl Timetable {
    /// The entry of a step; `None` of a step that is left out, and of one of another work.
    #[must_use]
    pub fn placement(&self, step: StepId) -> Option<&Placement> {
        find(&self.placements, step)
    }

    /// The steps that have a place, each with its entry.
    pub fn placed<'t>(&'t self, work: &'t Work) -> impl Iterator<Item = (&'t Step, &'t Placement)> {
        self.placements.iter().filter_map(|placement| Some((work.get(placement.step)?, placement)))
    }

    /// The steps that are over after they have to be, each with how late it is.
    pub fn late<'t>(&'t self, work: &'t Work) -> impl Iterator<Item = (StepId, Minutes)> + 't {
        self.placed(work).filter_map(|(step, placement)| {
            let late = placement.end.since(step.deadline?)?;
            (late > Minutes::ZERO).then_some((placement.step, late))
        })
    }

    /// Whether everything has a place and nothing is late.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.left_out.is_empty() && self.waiting.late == Minutes::ZERO
    }

    /// How long a wait is; `None` of a wait of another work, and where one of its steps is left out.
    #[must_use]
    pub fn time_lag(&self, work: &Work, time_lag: TimeLagId) -> Option<Minutes> {
        length(work.time_lags.get(time_lag.0)?, &self.placements)
    }

    /// How much less waiting some other timetable could at most have.
    #[must_use]
    pub fn gap(&self) -> Minutes {
        Minutes::new(self.waiting.total().count().saturating_sub(self.bound.count()))
    }

    /// Whether everything is in time, and no timetable has less waiting.
    #[must_use]
    pub fn is_best(&self) -> bool {
        self.is_complete() && self.gap() == Minutes::ZERO
    }

    /// The first minute at which somebody is at work in a pool, and the minute after the last.
    #[must_use]
    pub fn presence(&self, work: &Work, pool: PoolId) -> Option<(Moment, Moment)> {
        let needs = self.placed(work).flat_map(|(step, placement)| {
            let needs = placement.needs(step);
            let needs = needs.filter(move |need| need.pool == pool && need.length > Minutes::ZERO);
            needs.map(|need| (placement.start + need.after, placement.start + need.after + need.length))
        });
        needs.reduce(|(first, last), (from, until)| (first.min(from), last.max(until)))
    }
}
