//! Limits that conflict: the chain of windows that leaves a step no minute, and limits that cannot all hold, as few as can be
//! shown.
//!
//! The deletion filter (J. W. Chinneck, E. W. Dravnieks, "Locating minimal infeasible constraint sets in linear
//! programs", 1991, from memory): each limit is dropped in turn, and stays out if there is no timetable without it
//! either. It asks for a proof every time, so it is for small works.

use crate::error::{Cause, ConflictKind, WindowConflict, WorkLimit};
use crate::exhaustive::{SearchOutcome, any};
use crate::grid::TimeGrid;
use crate::id_vec::IdVec;
use crate::partial_schedule::groups;
use crate::windows::{BoundReason, Windows};
use crate::{ClassId, Moment, PoolId, StepId, TimeLagId, Work};

/// Which of a step's two bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Low,
    High,
}

/// Why the bounds of a step have crossed.
pub fn window_conflict(work: &Work, grid: &TimeGrid, windows: &Windows, step: StepId) -> WindowConflict {
    let moment = |minute| Moment::clamped(work.from.signed() + minute);
    let chain = |end| Chain { grid, windows, end, from: work.from }.follow(step);
    let (earliest, latest) = (moment(windows.low[step]), moment(windows.high[step]));
    let is_closed = windows.low[step] == windows.high[step] + 1
        && matches!(windows.low_reason[step], BoundReason::Closed(..));
    match (chain(End::Low), chain(End::High)) {
        (Ok(from), Ok(until)) => {
            let holds = if is_closed { ConflictKind::AtClosedHours } else { ConflictKind::Apart };
            WindowConflict { step, earliest, latest, from, until, holds }
        }
        (Err(circle), _) | (_, Err(circle)) => WindowConflict {
            step,
            earliest,
            latest,
            from: circle,
            until: Vec::new(),
            holds: ConflictKind::InACircle,
        },
    }
}

struct Chain<'a> {
    grid: &'a TimeGrid,
    windows: &'a Windows,
    end: End,
    from: Moment,
}

impl Chain<'_> {
    /// The causes of a bound, the first cause first; as an error, causes that go in a circle.
    fn follow(&self, mut step: StepId) -> Result<Vec<Cause>, Vec<Cause>> {
        let mut causes: Vec<Cause> = Vec::new();
        // How many causes were known when each step was reached.
        let mut reached: IdVec<StepId, Option<usize>> = IdVec::filled(None, self.grid.steps.len());
        loop {
            if let Some(count) = reached[step].replace(causes.len()) {
                causes.drain(..count);
                causes.reverse();
                return Err(causes);
            }
            let mut reason = self.reason(step, false);
            if let BoundReason::Closed(pool, before) = reason {
                let mut closed = match self.end {
                    End::Low => [before, self.windows.low[step]],
                    End::High => [self.windows.high[step], before],
                };
                closed[1] = closed[1].min(self.grid.minutes);
                let [from, until] = closed.map(|minute| Moment::clamped(self.from.signed() + minute));
                causes.push(Cause::Closed { pool, step, from, until });
                reason = self.reason(step, true);
            }
            let BoundReason::TimeLag(time_lag) = reason else {
                causes.push(match self.end {
                    End::Low => Cause::Release(step),
                    End::High => Cause::Deadline(step),
                });
                causes.reverse();
                return Ok(causes);
            };
            let link = &self.grid.time_lags[time_lag];
            // A later start follows from an earlier step by the least of a time lag, from a later one by the most.
            let is_least = (link.before == step) == (self.end == End::Low);
            causes.push(if is_least { Cause::Least(time_lag) } else { Cause::Most(time_lag) });
            step = link.other(step);
        }
    }

    fn reason(&self, step: StepId, is_before: bool) -> BoundReason {
        let windows = self.windows;
        match (self.end, is_before) {
            (End::Low, false) => windows.low_reason[step],
            (End::Low, true) => windows.low_before[step],
            (End::High, false) => windows.high_reason[step],
            (End::High, true) => windows.high_before[step],
        }
    }
}

/// As few limits of a work without a timetable as can be shown to leave none.
pub fn minimal_conflict(work: &Work, placings: usize) -> Vec<WorkLimit> {
    let mut without = work.clone();
    let mut needed = Vec::new();
    for limit in limits(work) {
        let less = limit.dropped(&without);
        if is_impossible(&less, placings) {
            without = less;
        } else {
            needed.push(limit);
        }
    }
    needed
}

fn is_impossible(work: &Work, placings: usize) -> bool {
    let grid = TimeGrid::new(work);
    let Ok(root) = Windows::tightened(&grid) else { return true };
    any(&grid, &root, &groups(&grid, work.jobs.len()), placings) == SearchOutcome::Nothing
}

/// Every limit that a work has: windows first, so that what is left names resources where it can.
fn limits(work: &Work) -> Vec<WorkLimit> {
    let steps = || work.step_ids().zip(&work.steps);
    let time_lags = work.time_lags.iter().enumerate().filter(|(_, time_lag)| time_lag.most.is_some());
    let mosts = time_lags.map(|(index, _)| WorkLimit::Most(TimeLagId(index)));
    let befores = steps().filter(|(_, step)| step.release.is_some()).map(|(id, _)| WorkLimit::Release(id));
    let dues = steps().filter(|(_, step)| step.deadline.is_some()).map(|(id, _)| WorkLimit::Deadline(id));
    let pools = (0..work.pools.len()).map(|pool| WorkLimit::Pool(PoolId(pool)));
    let classes = (0..work.classes.len()).map(|class| WorkLimit::Machines(ClassId(class)));
    mosts.chain(befores).chain(dues).chain(pools).chain(classes).collect()
}

impl WorkLimit {
    /// A work without this limit.
    fn dropped(self, work: &Work) -> Work {
        let mut less = work.clone();
        match self {
            Self::Pool(pool) => {
                less.steps.iter_mut().for_each(|step| step.needs.retain(|need| need.pool != pool));
            }
            Self::Machines(class) => {
                let on = less.steps.iter_mut().map(|step| &mut step.machine);
                on.for_each(|on| *on = on.take().filter(|on| on.class != class));
            }
            Self::Release(StepId(step)) => {
                less.steps.get_mut(step).into_iter().for_each(|step| step.release = None);
            }
            Self::Deadline(StepId(step)) => {
                less.steps.get_mut(step).into_iter().for_each(|step| step.deadline = None);
            }
            Self::Most(TimeLagId(time_lag)) => {
                less.time_lags.get_mut(time_lag).into_iter().for_each(|time_lag| time_lag.most = None);
            }
        }
        less
    }
}
