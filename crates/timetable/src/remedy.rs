//! What would do where something is late or left out: each remedy was tried, and everything had its place with it.

use crate::error::{Cause, LimitedResource, TimetableError, WorkLimit};
use crate::{
    ClassId, Clock, Effort, Machine, Minutes, Moment, PoolId, StepId, TimeLagId, Timetable, Work, plan,
};

/// One change to the work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remedy {
    /// One more place of a pool, at all hours at which it has any.
    OneMore(PoolId),
    /// One more machine like one that takes a step's dough.
    OneMoreMachine(StepId),
    /// Everything that is due out later by so much.
    AllLater(Minutes),
    /// One step out by this instead.
    Deadline(StepId, Moment),
    /// One step not before this instead.
    Release(StepId, Moment),
    /// A wait of at most this instead.
    Most(TimeLagId, Minutes),
}

/// How long each remedy is tried for.
const TRIAL: Effort = Effort { rounds: 2, neighbourhoods: 0, prices: 0 };

/// The farthest that everything due is moved: four hours, by quarters of an hour.
const LATEST: u32 = 16;

/// Changes with which everything is in time, each by itself; empty if none of those that were tried is enough.
#[must_use]
pub fn remedies(work: &Work, error: &TimetableError) -> Vec<Remedy> {
    let found = candidates(work, error).into_iter().filter(|remedy| remedy.helps(work));
    found.chain(all_later(work, error)).collect()
}

impl Remedy {
    /// The work with this change.
    #[must_use]
    pub fn applied(&self, work: &Work) -> Work {
        let mut better = work.clone();
        match self {
            Self::OneMore(pool) => {
                for open in better.pools.get_mut(pool.0).into_iter().flat_map(|pool| &mut pool.open) {
                    open.places = open.places.saturating_add(1);
                }
            }
            Self::OneMoreMachine(step) => better.machines.extend(like(work, *step)),
            Self::AllLater(by) => {
                for due in better.steps.iter_mut().filter_map(|step| step.deadline.as_mut()) {
                    *due = *due + *by;
                }
                better.until = better.until + *by;
            }
            Self::Deadline(step, moment) => {
                better.steps.get_mut(step.0).into_iter().for_each(|step| step.deadline = Some(*moment));
            }
            Self::Release(step, moment) => {
                better.steps.get_mut(step.0).into_iter().for_each(|step| step.release = Some(*moment));
            }
            Self::Most(time_lag, most) => {
                better
                    .time_lags
                    .get_mut(time_lag.0)
                    .into_iter()
                    .for_each(|time_lag| time_lag.most = Some(*most));
            }
        }
        better
    }

    /// The change in words.
    #[must_use]
    pub fn text(&self, work: &Work, clock: &Clock) -> String {
        match self {
            Self::OneMore(pool) => {
                let pool = work.pools.get(pool.0);
                let counts = pool.map(|pool| (pool.most().saturating_add(1), pool));
                let name =
                    |(count, pool): (u32, &crate::Pool)| format!("{} of {}", pool.counted(count), pool.name);
                format!("it would do with {}", counts.map(name).unwrap_or_default())
            }
            Self::OneMoreMachine(step) => {
                let name = like(work, *step).map(|machine| machine.name).unwrap_or_default();
                format!("it would do with {name}")
            }
            Self::AllLater(by) => format!("it would do if everything were out {by} later"),
            Self::Deadline(step, moment) => {
                format!("it would do with {} out by {}", work.name(*step), clock.words(*moment))
            }
            Self::Release(step, moment) => {
                format!("it would do with {} from {} on", work.name(*step), clock.words(*moment))
            }
            Self::Most(time_lag, most) => {
                let name = work.time_lags.get(time_lag.0).map(|time_lag| {
                    format!("{} before {} of up to {most}", time_lag.name, work.name(time_lag.before))
                });
                format!("it would do with {}", name.unwrap_or_default())
            }
        }
    }

    fn helps(&self, work: &Work) -> bool {
        try_out(&self.applied(work)).is_some()
    }
}

fn try_out(work: &Work) -> Option<Timetable> {
    plan(work, TRIAL).ok().filter(Timetable::is_complete)
}

/// A second one of the largest machine that takes a step's dough.
fn like(work: &Work, step: StepId) -> Option<Machine> {
    let on = work.get(step)?.machine.as_ref()?;
    let able = work.machines.iter().filter(|machine| machine.class == on.class && machine.takes(&on.dough));
    let mut machine = able.max_by(|one, other| one.most.cmp(&other.most))?.clone();
    machine.name = format!("one more like {}", machine.name);
    Some(machine)
}

/// Changes to what is at fault.
fn candidates(work: &Work, error: &TimetableError) -> Vec<Remedy> {
    match error {
        TimetableError::Windows(window_conflict) => {
            let causes = window_conflict.from.iter().chain(&window_conflict.until);
            causes.filter_map(|cause| eased(work, *cause, window_conflict.missing())).collect()
        }
        TimetableError::Overload(overload) => vec![match overload.room {
            LimitedResource::Pool(pool) => Remedy::OneMore(pool),
            LimitedResource::Machines(step, _) => Remedy::OneMoreMachine(step),
        }],
        TimetableError::Together(limits) => limits.iter().filter_map(|limit| more(work, *limit)).collect(),
        TimetableError::NotFound(_) => {
            let pools = (0..work.pools.len()).map(|pool| WorkLimit::Pool(PoolId(pool)));
            let classes = (0..work.classes.len()).map(|class| WorkLimit::Machines(ClassId(class)));
            pools.chain(classes).filter_map(|limit| more(work, limit)).collect()
        }
        TimetableError::WorkError(_)
        | TimetableError::NoMachine(_)
        | TimetableError::NeverSoMany(..)
        | TimetableError::Internal => Vec::new(),
    }
}

/// One more of a resource; windows that cannot hold together say too little about how much more.
fn more(work: &Work, limit: WorkLimit) -> Option<Remedy> {
    match limit {
        WorkLimit::Pool(pool) => Some(Remedy::OneMore(pool)),
        WorkLimit::Machines(class) => {
            let is_on = |step: &&StepId| {
                work.get(**step).and_then(|step| step.machine.as_ref()).is_some_and(|on| on.class == class)
            };
            let steps: Vec<StepId> = work.step_ids().collect();
            steps.iter().find(is_on).map(|step| Remedy::OneMoreMachine(*step))
        }
        WorkLimit::Release(_) | WorkLimit::Deadline(_) | WorkLimit::Most(_) => None,
    }
}

/// A limit that gives way by so much. The least of a wait is not asked to: what is not ripe is not ripe.
fn eased(work: &Work, cause: Cause, by: Minutes) -> Option<Remedy> {
    match cause {
        Cause::Release(step) => {
            let moment = work.get(step)?.release?;
            Some(Remedy::Release(step, moment - by))
        }
        Cause::Deadline(step) => Some(Remedy::Deadline(step, work.get(step)?.deadline? + by)),
        Cause::Most(time_lag) => {
            let most = work.time_lags.get(time_lag.0)?.most?;
            Some(Remedy::Most(time_lag, Minutes::new(most.count().saturating_add(by.count()))))
        }
        Cause::Closed { pool, .. } => Some(Remedy::OneMore(pool)),
        Cause::Least(_) => None,
    }
}

/// Everything later, by as few quarters of an hour as are enough.
fn all_later(work: &Work, error: &TimetableError) -> Option<Remedy> {
    let may_help = !matches!(
        error,
        TimetableError::WorkError(_)
            | TimetableError::NoMachine(_)
            | TimetableError::NeverSoMany(..)
            | TimetableError::Internal
    );
    let has_due = work.steps.iter().any(|step| step.deadline.is_some());
    let later = |quarters: u32| Remedy::AllLater(Minutes::new(15 * quarters));
    if !may_help || !has_due || !later(LATEST).helps(work) {
        return None;
    }
    // What is enough stays enough when it is more, so halving finds the least.
    let (mut short, mut enough) = (0, LATEST);
    while enough - short > 1 {
        let middle = short.midpoint(enough);
        if later(middle).helps(work) { enough = middle } else { short = middle }
    }
    Some(later(enough))
}
