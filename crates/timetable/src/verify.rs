//! An independent check of a timetable: every window, machine, pool and hour again, straight from the work.
//!
//! It shares nothing with the search: no grid, no profile. Whoever makes a timetable in another way can have it
//! checked too.

use crate::{Entry, MachineId, Minutes, Moment, Pool, PoolId, StepId, Timetable, WaitId, Waiting, Work};

/// Something that a timetable does wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Violation {
    /// There is not one entry for each step, in their order.
    Entries,
    /// A step does not take its length.
    Length(StepId),
    /// A step is outside the span, too soon or too late.
    Hours(StepId),
    /// A wait is shorter than its least or longer than its most.
    Window(WaitId),
    /// A step is on no machine, or on one that does not take it.
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
pub fn verify(work: &Work, timetable: &Timetable) -> Vec<Violation> {
    let entries = &timetable.entries;
    if !entries.iter().map(|entry| entry.step).eq(work.step_ids()) {
        return vec![Violation::Entries];
    }
    let mut found = Vec::new();
    found.extend(entries.iter().flat_map(|entry| of_step(work, entry)));
    found.extend(windows(work, timetable));
    found.extend(twice(entries));
    found.extend((0..work.pools.len()).filter_map(|pool| full(work, entries, PoolId(pool))));
    if Waiting::of(work, entries) != Some(timetable.waiting) {
        found.push(Violation::Waiting);
    }
    if timetable.bound > timetable.waiting.total() {
        found.push(Violation::Bound);
    }
    found
}

fn of_step(work: &Work, entry: &Entry) -> Vec<Violation> {
    let Some(step) = work.get(entry.step) else { return vec![Violation::Entries] };
    let mut found = Vec::new();
    if entry.end.since(entry.start) != Some(step.length) {
        found.push(Violation::Length(entry.step));
    }
    let is_in_span = work.from <= entry.start && entry.end <= work.until;
    let is_soon = step.not_before.is_some_and(|moment| entry.start < moment);
    let is_late = step.out_by.is_some_and(|moment| moment < entry.end);
    if !is_in_span || is_soon || is_late {
        found.push(Violation::Hours(entry.step));
    }
    let machine = entry.machine.and_then(|id| work.machines.get(id.0));
    let is_right = match (&step.machine, machine) {
        (None, None) => entry.machine.is_none(),
        (Some(on), Some(machine)) => machine.class == on.class && machine.takes(&on.dough),
        _ => false,
    };
    if !is_right {
        found.push(Violation::Machine(entry.step));
    }
    found
}

fn windows(work: &Work, timetable: &Timetable) -> Vec<Violation> {
    let ids = (0..work.waits.len()).map(WaitId);
    let is_kept = |(id, wait): &(WaitId, &crate::Wait)| {
        let is_within = |long: Minutes| wait.least <= long && wait.most.is_none_or(|most| long <= most);
        timetable.wait(work, *id).is_some_and(is_within)
    };
    ids.zip(&work.waits).filter(|pair| !is_kept(pair)).map(|(id, _)| Violation::Window(id)).collect()
}

/// Steps that follow each other on a machine, the later one begun before the earlier one is over.
fn twice(entries: &[Entry]) -> Vec<Violation> {
    let on = entries.iter().filter(|entry| entry.start < entry.end);
    let mut on: Vec<(MachineId, &Entry)> = on.filter_map(|entry| Some((entry.machine?, entry))).collect();
    on.sort_by_key(|(machine, entry)| (*machine, entry.start, entry.end));
    let clash = |pair: &[(MachineId, &Entry)]| match pair {
        [(one, first), (other, second)] if one == other && second.start < first.end => {
            Some(Violation::Twice(*one, first.step, second.step))
        }
        _ => None,
    };
    on.windows(2).filter_map(clash).collect()
}

/// The first moment at which more of a pool is taken than is there: a sweep over everything that begins or ends.
fn full(work: &Work, entries: &[Entry], id: PoolId) -> Option<Violation> {
    let pool: &Pool = work.pools.get(id.0)?;
    let mut changes: Vec<(Moment, i64)> = Vec::new();
    for open in &pool.open {
        changes.push((open.from, i64::from(open.places)));
        changes.push((open.until, -i64::from(open.places)));
    }
    for (step, entry) in work.steps.iter().zip(entries) {
        for need in step.needs.iter().filter(|need| need.pool == id) {
            let from = entry.start + need.after;
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
            return Some(Violation::Full(id, *moment));
        }
    }
    None
}
