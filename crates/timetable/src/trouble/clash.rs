//! The chain of windows that leaves a step no minute.

use crate::grid::Grid;
use crate::trouble::{Cause, Clash, Holds};
use crate::windows::{Reason, Windows};
use crate::{Moment, PoolId, StepId, WaitId, Work};

/// Which of a step's two bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Low,
    High,
}

/// Why the bounds of a step have crossed.
pub fn clash(work: &Work, grid: &Grid, windows: &Windows, step: usize) -> Clash {
    let moment = |minute| Moment::clamped(work.from.signed() + minute);
    let chain = |end| Chain { grid, windows, end, from: work.from }.follow(step);
    let (earliest, latest) = (moment(windows.low[step]), moment(windows.high[step]));
    let is_closed =
        windows.low[step] == windows.high[step] + 1 && matches!(windows.low_reason[step], Reason::Closed(..));
    let step = StepId(step);
    match (chain(End::Low), chain(End::High)) {
        (Ok(from), Ok(until)) => {
            let holds = if is_closed { Holds::AtClosedHours } else { Holds::Apart };
            Clash { step, earliest, latest, from, until, holds }
        }
        (Err(circle), _) | (_, Err(circle)) => {
            Clash { step, earliest, latest, from: circle, until: Vec::new(), holds: Holds::InACircle }
        }
    }
}

struct Chain<'a> {
    grid: &'a Grid,
    windows: &'a Windows,
    end: End,
    from: Moment,
}

impl Chain<'_> {
    /// The causes of a bound, the first cause first; as an error, causes that go in a circle.
    fn follow(&self, mut step: usize) -> Result<Vec<Cause>, Vec<Cause>> {
        let mut causes: Vec<Cause> = Vec::new();
        // How many causes were known when each step was reached.
        let mut reached: Vec<Option<usize>> = vec![None; self.grid.steps.len()];
        loop {
            if let Some(count) = reached[step].replace(causes.len()) {
                causes.drain(..count);
                causes.reverse();
                return Err(causes);
            }
            let mut reason = self.reason(step, false);
            if let Reason::Closed(pool, before) = reason {
                let mut closed = match self.end {
                    End::Low => [before, self.windows.low[step]],
                    End::High => [self.windows.high[step], before],
                };
                closed[1] = closed[1].min(self.grid.minutes);
                let [from, until] = closed.map(|minute| Moment::clamped(self.from.signed() + minute));
                causes.push(Cause::Closed { pool: PoolId(pool), step: StepId(step), from, until });
                reason = self.reason(step, true);
            }
            let Reason::Wait(wait) = reason else {
                causes.push(match self.end {
                    End::Low => Cause::NotBefore(StepId(step)),
                    End::High => Cause::OutBy(StepId(step)),
                });
                causes.reverse();
                return Ok(causes);
            };
            let link = &self.grid.waits[wait];
            // A later start follows from an earlier step by the least of a wait, from a later one by the most.
            let is_least = (link.before == step) == (self.end == End::Low);
            causes.push(if is_least { Cause::Least(WaitId(wait)) } else { Cause::Most(WaitId(wait)) });
            step = link.other(step);
        }
    }

    fn reason(&self, step: usize, is_before: bool) -> Reason {
        let windows = self.windows;
        match (self.end, is_before) {
            (End::Low, false) => windows.low_reason[step],
            (End::Low, true) => windows.low_before[step],
            (End::High, false) => windows.high_reason[step],
            (End::High, true) => windows.high_before[step],
        }
    }
}
