//! An independent check of a timetable: every window, machine, pool and hour again, straight from the work.
//!
//! It shares nothing with the search: no grid, no profile. Whoever makes a timetable in another way can have it
//! checked too.

use crate::{
    MachineId, Minutes, Moment, Placement, Pool, PoolId, StepId, TimeLagId, Timetable, Waiting, Work,
};

/// Something that a timetable does wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CheckError {
    /// A step has not one entry, or is not one of those that are left out; or they are in no order.
    Entries,
    /// A step does not take its length.
    Length(StepId),
    /// A step has a place, and what it needs is left out.
    Lacks(StepId),
    /// A step is outside the span, or too soon.
    Hours(StepId),
    /// A wait is shorter than its least or longer than its most.
    Window(TimeLagId),
    /// A step is on no machine or in no pool that it needs, or on one that does not take it.
    Machine(StepId),
    /// Two steps are on a machine at once.
    Twice(MachineId, StepId, StepId),
    /// More is taken of a pool at some moment than is there.
    Full(PoolId, Moment),
    /// The waiting that it claims is not what it has.
    Waiting,
    /// The bound that it claims is above its waiting.
    Bound,
}

/// Everything that a timetable does wrong; nothing of a good one.
#[must_use]
pub fn verify(work: &Work, timetable: &Timetable) -> Vec<CheckError> {
    let placements = &timetable.placements;
    let mut steps: Vec<StepId> = placements.iter().map(|placement| placement.step).collect();
    let is_in_order = steps.is_sorted() && timetable.left_out.is_sorted();
    steps.extend(&timetable.left_out);
    steps.sort_unstable();
    if !is_in_order || !steps.into_iter().eq(work.step_ids()) {
        return vec![CheckError::Entries];
    }
    let mut found = Vec::new();
    found.extend(placements.iter().flat_map(|placement| of_step(work, placement)));
    found.extend(windows(work, timetable));
    found.extend(lacking(work, timetable));
    found.extend(twice(placements));
    found.extend((0..work.pools.len()).filter_map(|pool| full(work, placements, PoolId(pool))));
    if Waiting::of(work, placements) != Some(timetable.waiting) {
        found.push(CheckError::Waiting);
    }
    if timetable.bound > timetable.waiting.total() {
        found.push(CheckError::Bound);
    }
    found
}

fn of_step(work: &Work, placement: &Placement) -> Vec<CheckError> {
    let Some(step) = work.get(placement.step) else { return vec![CheckError::Entries] };
    let mut found = Vec::new();
    if placement.end.since(placement.start) != Some(step.length) {
        found.push(CheckError::Length(placement.step));
    }
    let is_in_span = work.from <= placement.start && placement.end <= work.until;
    let is_soon = step.release.is_some_and(|moment| placement.start < moment);
    if !is_in_span || is_soon {
        found.push(CheckError::Hours(placement.step));
    }
    let machine = placement.machine.and_then(|id| work.machines.get(id.0));
    let is_pool_right = match placement.pool {
        None => step.either.is_empty(),
        Some(pool) => step.either.iter().any(|need| need.pool == pool),
    };
    let is_right = is_pool_right
        && match (&step.machine, machine) {
            (None, None) => placement.machine.is_none(),
            (Some(on), Some(machine)) => machine.class == on.class && machine.takes(&on.dough),
            _ => false,
        };
    if !is_right {
        found.push(CheckError::Machine(placement.step));
    }
    found
}

fn windows(work: &Work, timetable: &Timetable) -> Vec<CheckError> {
    let ids = (0..work.time_lags.len()).map(TimeLagId);
    let is_kept = |(id, time_lag): &(TimeLagId, &crate::TimeLag)| {
        let is_within =
            |long: Minutes| time_lag.least <= long && time_lag.most.is_none_or(|most| long <= most);
        timetable.time_lag(work, *id).is_some_and(is_within)
    };
    let has_place = |step| timetable.placement(step).is_some();
    let ids = ids.zip(&work.time_lags).filter(|(_, lag)| has_place(lag.after) && has_place(lag.before));
    ids.filter(|pair| !is_kept(pair)).map(|(id, _)| CheckError::Window(id)).collect()
}

/// Steps that wait for one that is left out.
fn lacking<'a>(work: &'a Work, timetable: &'a Timetable) -> impl Iterator<Item = CheckError> + 'a {
    let has_place = |step| timetable.placement(step).is_some();
    let lags = work.time_lags.iter().filter(move |lag| !has_place(lag.after) && has_place(lag.before));
    lags.map(|lag| CheckError::Lacks(lag.before))
}

/// Steps that follow each other on a machine, the later one begun before the earlier one is over.
fn twice(placements: &[Placement]) -> Vec<CheckError> {
    let on = placements.iter().filter(|placement| placement.start < placement.end);
    let mut on: Vec<(MachineId, &Placement)> =
        on.filter_map(|placement| Some((placement.machine?, placement))).collect();
    on.sort_by_key(|(machine, placement)| (*machine, placement.start, placement.end));
    let window_conflict = |pair: &[(MachineId, &Placement)]| match pair {
        [(one, first), (other, second)] if one == other && second.start < first.end => {
            Some(CheckError::Twice(*one, first.step, second.step))
        }
        _ => None,
    };
    on.windows(2).filter_map(window_conflict).collect()
}

/// The first moment at which more of a pool is taken than is there: a sweep over everything that begins or ends.
fn full(work: &Work, placements: &[Placement], id: PoolId) -> Option<CheckError> {
    let pool: &Pool = work.pools.get(id.0)?;
    let mut changes: Vec<(Moment, i64)> = Vec::new();
    for open in &pool.open {
        changes.push((open.from, i64::from(open.places)));
        changes.push((open.until, -i64::from(open.places)));
    }
    for (step, placement) in placements.iter().filter_map(|entry| Some((work.get(entry.step)?, entry))) {
        for need in placement.needs(step).filter(|need| need.pool == id) {
            let from = placement.start + need.after;
            changes.push((from, -i64::from(need.places)));
            changes.push((from + need.length, i64::from(need.places)));
        }
    }
    changes.sort_unstable();
    let mut free = 0_i64;
    let moments: Vec<&[(Moment, i64)]> = changes.chunk_by(|one, other| one.0 == other.0).collect();
    for changes in moments {
        free += changes.iter().map(|(_, change)| change).sum::<i64>();
        if let Some((moment, _)) = changes.first().filter(|_| free < 0) {
            return Some(CheckError::Full(id, *moment));
        }
    }
    None
}
