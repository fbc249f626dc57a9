//! Why not everything is in time, and work that no timetable can be asked of because it contradicts itself.

use crate::{JobId, Minutes, Moment, PoolId, StepId, TimeLagId, Work};

/// Why a timetable is late or leaves something out, or why there is none ([`WorkError`](Self::WorkError) and
/// [`Internal`](Self::Internal)). All but the last two are proofs that not everything can be in time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TimetableError {
    /// The work contradicts itself.
    WorkError(WorkError),
    /// No machine of the class takes a step's dough.
    NoMachine(StepId),
    /// A step needs more of a pool than is ever there.
    NeverSoMany(StepId, PoolId),
    /// Windows, hours and deadlines leave a step no minute.
    Windows(WindowConflict),
    /// In some span there is more to do than a pool or a class of machines can.
    Overload(Overload),
    /// Every way was tried: these limits cannot all hold, and without any one of them the others can.
    Together(Vec<WorkLimit>),
    /// No place in time was found for these jobs, and it is not proven that there is none.
    NotFound(Vec<JobId>),
    /// This program has a mistake, so what it found is not shown.
    Internal,
}

/// Limits on one step's start that leave it no minute.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WindowConflict {
    /// The step.
    pub step: StepId,
    /// Before this it cannot begin, by `from`.
    pub earliest: Moment,
    /// By this it must have begun, by `until`.
    pub latest: Moment,
    /// What makes it so late, from the first cause on.
    pub from: Vec<Cause>,
    /// What makes it so early, from the first cause on.
    pub until: Vec<Cause>,
    /// How they miss each other.
    pub holds: ConflictKind,
}

/// How limits on one start miss each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ConflictKind {
    /// The earliest is after the latest.
    Apart,
    /// There are hours, but a pool has too little at all of them.
    AtClosedHours,
    /// `from` are time lags in a circle, which hold at no hour; `until` is empty.
    InACircle,
}

/// One limit in a chain of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// A step may not begin before a moment of its own, or of the span.
    Release(StepId),
    /// A step has to be over by a moment of its own, or of the span.
    Deadline(StepId),
    /// The least of a time lag.
    Least(TimeLagId),
    /// The most of a time lag.
    Most(TimeLagId),
    /// A pool has too little for a step in some hours.
    Closed {
        /// The pool.
        pool: PoolId,
        /// The step.
        step: StepId,
        /// The first of these hours.
        from: Moment,
        /// The last of them.
        until: Moment,
    },
}

/// More work in a span than there is room for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overload {
    /// What has too little room.
    pub room: LimitedResource,
    /// The first minute of the span.
    pub from: Moment,
    /// The minute after its last.
    pub until: Moment,
    /// What has to be done there, as few as overload it.
    pub steps: Vec<StepId>,
    /// What they take in the span, in places times minutes.
    pub wanted: u64,
    /// What there is, in places times minutes.
    pub there: u64,
}

/// Something with room for so much at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LimitedResource {
    /// A pool.
    Pool(PoolId),
    /// The machines that take the dough of a step, which are so many.
    Machines(StepId, u32),
}

/// A limit that could be another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorkLimit {
    /// How many places a pool has.
    Pool(PoolId),
    /// How many machines of a class there are.
    Machines(crate::ClassId),
    /// A step's not-before.
    Release(StepId),
    /// A step's out-by.
    Deadline(StepId),
    /// The most of a time lag.
    Most(TimeLagId),
}

impl WindowConflict {
    /// By how much the limits miss each other.
    #[must_use]
    pub fn missing(&self) -> Minutes {
        self.earliest.since(self.latest).unwrap_or_default()
    }
}

/// The longest span of a timetable: a day's bread with feeds four weeks before.
pub const LONGEST_SPAN: Minutes = Minutes::hours(24 * 31);

/// The most steps of a timetable.
pub const MOST_STEPS: usize = 5000;

/// The most places of a pool, there or needed at once.
pub const MOST_PLACES: u32 = 10_000;

/// What is wrong with a [`Work`], before any time is considered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WorkError {
    /// The span ends before it begins, or is longer than [`LONGEST_SPAN`].
    Span {
        /// Its first minute.
        from: Moment,
        /// The minute after its last.
        until: Moment,
    },
    /// There are more steps than [`MOST_STEPS`], or some that are counted and not listed.
    TooManySteps(usize),
    /// An id that this work did not give, in a step, a machine or a time lag; its name.
    Foreign(String),
    /// A step needs a pool for longer than it lasts.
    NeedPastEnd(StepId),
    /// The least of a time lag is above its most.
    UpsideDown(TimeLagId),
    /// A time lag from a step to itself.
    ToItself(TimeLagId),
    /// A machine whose least dough is above its most, by its name.
    MachineUpsideDown(String),
    /// A span of a pool that ends before it begins, by the name of the pool.
    OpenBackwards(String),
    /// A pool that has, or is asked for, more than [`MOST_PLACES`] at once, by its name.
    TooManyPlaces(String),
}

/// The first error, in the order in which [`WorkError`] lists them.
pub fn first_work_error(work: &Work) -> Option<WorkError> {
    let is_span = work.until.since(work.from).is_some_and(|long| long <= LONGEST_SPAN);
    if !is_span {
        return Some(WorkError::Span { from: work.from, until: work.until });
    }
    let steps = work.steps.len().saturating_add(work.beyond);
    if steps > MOST_STEPS || work.beyond > 0 {
        return Some(WorkError::TooManySteps(steps));
    }
    foreign(work).map(WorkError::Foreign).or_else(|| odd_step(work)).or_else(|| odd_time_lag(work)).or_else(
        || {
            let machine = work.machines.iter().find(|machine| machine.least > machine.most);
            let pool = work.pools.iter().find(|pool| pool.open.iter().any(|open| open.until < open.from));
            let machine = machine.map(|machine| WorkError::MachineUpsideDown(machine.name.clone()));
            let machine = machine.or_else(|| pool.map(|pool| WorkError::OpenBackwards(pool.name.clone())));
            machine.or_else(|| crowded(work).map(WorkError::TooManyPlaces))
        },
    )
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
    let time_lag =
        work.time_lags.iter().find(|time_lag| time_lag.after.0 >= count || time_lag.before.0 >= count);
    let machine = machine.map(|machine| machine.name.clone());
    machine
        .or_else(|| step.map(|step| step.name.clone()))
        .or_else(|| time_lag.map(|time_lag| time_lag.name.clone()))
}

fn odd_step(work: &Work) -> Option<WorkError> {
    let is_odd = |step: &crate::Step| {
        step.needs.iter().any(|need| need.after.signed() + need.length.signed() > step.length.signed())
    };
    work.step_ids().zip(&work.steps).find(|(_, step)| is_odd(step)).map(|(id, _)| WorkError::NeedPastEnd(id))
}

fn odd_time_lag(work: &Work) -> Option<WorkError> {
    let odd = |(index, time_lag): (usize, &crate::TimeLag)| {
        if time_lag.most.is_some_and(|most| time_lag.least > most) {
            Some(WorkError::UpsideDown(TimeLagId(index)))
        } else if time_lag.after == time_lag.before {
            Some(WorkError::ToItself(TimeLagId(index)))
        } else {
            None
        }
    };
    work.time_lags.iter().enumerate().find_map(odd)
}
