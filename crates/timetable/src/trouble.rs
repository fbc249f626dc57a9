//! Why there is no timetable.

pub mod clash;
pub mod overload;
pub mod together;
pub mod words;

use crate::{JobId, Minutes, Mistake, Moment, PoolId, StepId, WaitId};

/// Why there is no timetable. All but the last are proofs that there can be none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Trouble {
    /// The work contradicts itself.
    Mistake(Mistake),
    /// No machine of the class takes a step's dough.
    NoMachine(StepId),
    /// A step needs more of a pool than is ever there.
    NeverSoMany(StepId, PoolId),
    /// Windows, hours and deadlines leave a step no minute.
    Windows(Clash),
    /// In some span there is more to do than a pool or a class of machines can.
    Overload(Overload),
    /// Every way was tried: these limits cannot all hold, and without any one of them the others can.
    Together(Vec<Limit>),
    /// None was found, and it is not proven that there is none. These jobs found no place.
    NotFound(Vec<JobId>),
}

/// Limits on one step's start that leave it no minute.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clash {
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
    pub holds: Holds,
}

/// How limits on one start miss each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// The earliest is after the latest.
    Apart,
    /// There are hours, but a pool has too little at all of them.
    AtClosedHours,
    /// `from` are waits in a circle, which hold at no hour; `until` is empty.
    InACircle,
}

/// One limit in a chain of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cause {
    /// A step may not begin before a moment of its own, or of the span.
    NotBefore(StepId),
    /// A step has to be over by a moment of its own, or of the span.
    OutBy(StepId),
    /// The least of a wait.
    Least(WaitId),
    /// The most of a wait.
    Most(WaitId),
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
    pub room: Room,
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
pub enum Room {
    /// A pool.
    Pool(PoolId),
    /// The machines that take the dough of a step, which are so many.
    Machines(StepId, u32),
}

/// A limit that could be another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    /// How many places a pool has.
    Pool(PoolId),
    /// How many machines of a class there are.
    Machines(crate::ClassId),
    /// A step's not-before.
    NotBefore(StepId),
    /// A step's out-by.
    OutBy(StepId),
    /// The most of a wait.
    Most(WaitId),
}

impl Clash {
    /// By how much the limits miss each other.
    #[must_use]
    pub fn missing(&self) -> Minutes {
        self.earliest.since(self.latest).unwrap_or_default()
    }
}
