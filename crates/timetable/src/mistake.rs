//! Work that no timetable can be asked of, because it contradicts itself.

use crate::{Minutes, Moment, StepId, WaitId, Work};

/// The longest span of a timetable: a day's bread with feeds four weeks before.
pub const LONGEST_SPAN: Minutes = Minutes::hours(24 * 31);

/// The most steps of a timetable.
pub const MOST_STEPS: usize = 5000;

/// The most places of a pool, there or needed at once.
pub const MOST_PLACES: u32 = 10_000;

/// What is wrong with a [`Work`], before any time is looked at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Mistake {
    /// The span ends before it begins, or is longer than [`LONGEST_SPAN`].
    Span {
        /// Its first minute.
        from: Moment,
        /// The minute after its last.
        until: Moment,
    },
    /// There are more steps than [`MOST_STEPS`], or some that are counted and not listed.
    TooManySteps(usize),
    /// An id that this work did not give, in a step, a machine or a wait; its name.
    Foreign(String),
    /// A step needs a pool for longer than it lasts.
    NeedPastEnd(StepId),
    /// The least of a wait is above its most.
    UpsideDown(WaitId),
    /// A wait from a step to itself.
    ToItself(WaitId),
    /// A machine whose least dough is above its most, by its name.
    MachineUpsideDown(String),
    /// A span of a pool that ends before it begins, by the name of the pool.
    OpenBackwards(String),
    /// A pool that has, or is asked for, more than [`MOST_PLACES`] at once, by its name.
    TooManyPlaces(String),
}

/// The first mistake, in the order in which [`Mistake`] lists them.
pub fn first(work: &Work) -> Option<Mistake> {
    let is_span = work.until.since(work.from).is_some_and(|long| long <= LONGEST_SPAN);
    if !is_span {
        return Some(Mistake::Span { from: work.from, until: work.until });
    }
    let steps = work.steps.len().saturating_add(work.beyond);
    if steps > MOST_STEPS || work.beyond > 0 {
        return Some(Mistake::TooManySteps(steps));
    }
    foreign(work).map(Mistake::Foreign).or_else(|| odd_step(work)).or_else(|| odd_wait(work)).or_else(|| {
        let machine = work.machines.iter().find(|machine| machine.least > machine.most);
        let pool = work.pools.iter().find(|pool| pool.open.iter().any(|open| open.until < open.from));
        let machine = machine.map(|machine| Mistake::MachineUpsideDown(machine.name.clone()));
        let machine = machine.or_else(|| pool.map(|pool| Mistake::OpenBackwards(pool.name.clone())));
        machine.or_else(|| crowded(work).map(Mistake::TooManyPlaces))
    })
}

/// The name of a pool with more places than can be counted with.
fn crowded(work: &Work) -> Option<String> {
    let is_crowded = |(index, pool): &(usize, &crate::Pool)| {
        let needs = work.steps.iter().flat_map(|step| &step.needs).filter(|need| need.pool.0 == *index);
        needs.map(|need| need.places).chain([pool.most()]).any(|places| places > MOST_PLACES)
    };
    work.pools.iter().enumerate().find(is_crowded).map(|(_, pool)| pool.name.clone())
}

/// The name of what holds an id of another work.
fn foreign(work: &Work) -> Option<String> {
    let is_class = |class: &crate::ClassId| class.0 < work.classes.len();
    let machine = work.machines.iter().find(|machine| !is_class(&machine.class));
    let step = work.steps.iter().find(|step| {
        let is_known = step.job.0 < work.jobs.len()
            && step.machine.as_ref().is_none_or(|on| is_class(&on.class))
            && step.needs.iter().all(|need| need.pool.0 < work.pools.len());
        !is_known
    });
    let count = work.steps.len();
    let wait = work.waits.iter().find(|wait| wait.after.0 >= count || wait.before.0 >= count);
    let machine = machine.map(|machine| machine.name.clone());
    machine.or_else(|| step.map(|step| step.name.clone())).or_else(|| wait.map(|wait| wait.name.clone()))
}

fn odd_step(work: &Work) -> Option<Mistake> {
    let is_odd = |step: &crate::Step| {
        step.needs.iter().any(|need| need.after.signed() + need.length.signed() > step.length.signed())
    };
    work.step_ids().zip(&work.steps).find(|(_, step)| is_odd(step)).map(|(id, _)| Mistake::NeedPastEnd(id))
}

fn odd_wait(work: &Work) -> Option<Mistake> {
    let odd = |(index, wait): (usize, &crate::Wait)| {
        if wait.most.is_some_and(|most| wait.least > most) {
            Some(Mistake::UpsideDown(WaitId(index)))
        } else if wait.after == wait.before {
            Some(Mistake::ToItself(WaitId(index)))
        } else {
            None
        }
    };
    work.waits.iter().enumerate().find_map(odd)
}
