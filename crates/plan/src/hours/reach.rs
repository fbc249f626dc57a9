//! How early a day has to begin.

use std::collections::BTreeMap;

use levamen_timetable::{LagFrom, Moment, StepId, Work};

/// When the first step of a work would have to begin if nothing but windows and deadlines stood in the way; `None`
/// where nothing has a deadline.
pub(super) fn first_start(work: &Work) -> Option<Moment> {
    latest_starts(work).into_iter().map(|(_, start)| start).min()
}

/// When each step would have to begin at the latest if nothing but windows and deadlines stood in the way; steps that
/// nothing waits for are left out.
pub(super) fn latest_starts(work: &Work) -> Vec<(StepId, Moment)> {
    let steps: Vec<_> = work.step_ids().filter_map(|id| Some((id, work.get(id)?))).collect();
    let mut latest: Vec<Option<Moment>> =
        steps.iter().map(|(_, step)| Some(step.deadline? - step.length)).collect();
    let positions: BTreeMap<StepId, usize> = (0..).zip(&steps).map(|(at, (id, _))| (*id, at)).collect();
    let position = |id| positions.get(&id).copied();
    let waits: Vec<_> = work
        .time_lags()
        .iter()
        .filter_map(|wait| Some((position(wait.after)?, position(wait.before)?, wait)))
        .collect();
    // Each round passes on one wait further back, and no chain is longer than there are steps.
    for _ in 0..steps.len() {
        let mut is_still = true;
        for (after, before, wait) in &waits {
            let (Some(Some(start)), Some((_, first))) = (latest.get(*before).copied(), steps.get(*after))
            else {
                continue;
            };
            let end = start - wait.least;
            let start = if wait.since == LagFrom::End { end - first.length } else { end };
            if let Some(slot) = latest.get_mut(*after)
                && slot.is_none_or(|known| start < known)
            {
                *slot = Some(start);
                is_still = false;
            }
        }
        if is_still {
            break;
        }
    }
    steps.iter().zip(latest).filter_map(|((id, _), start)| Some((*id, start?))).collect()
}
