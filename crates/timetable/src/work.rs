//! What is to be timed: jobs of steps, the time lags between them, and what there is to work with.

use levamen_quantity::Mass;

use crate::{ClassId, Machine, MachineId, Minutes, Moment, OnMachine, OpeningHours, Pool, PoolId, PoolNeed};

/// A job of [`Work::job`]: a batch of dough, a pre-ferment, a feed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct JobId(pub(crate) usize);

/// A step of [`Work::step`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct StepId(pub(crate) usize);

impl StepId {
    /// Its place among the steps of its work, from 0 on; an entry of a timetable has the same.
    #[must_use]
    pub const fn place(self) -> usize {
        self.0
    }
}

impl JobId {
    /// Its place among the jobs of its work, from 0 on.
    #[must_use]
    pub const fn place(self) -> usize {
        self.0
    }
}

/// A time lag of [`Work::time_lag`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct TimeLagId(pub(crate) usize);

/// Work of a fixed length, done in one go.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The job that it is part of.
    pub job: JobId,
    /// What it is called: `mix`.
    pub name: String,
    /// How long it takes.
    pub length: Minutes,
    /// The machine that it occupies, if any.
    pub machine: Option<OnMachine>,
    /// What it takes of pools.
    pub needs: Vec<PoolNeed>,
    /// Needs of which one is enough: the decks of one oven or of another.
    pub either: Vec<PoolNeed>,
    /// It may not begin before this.
    pub release: Option<Moment>,
    /// It has to be over by this. Being over sooner counts as waiting: bread that lies before it is sold.
    pub deadline: Option<Moment>,
}

impl Step {
    /// A step that needs nothing but time.
    #[must_use]
    pub fn new(job: JobId, name: &str, length: Minutes) -> Self {
        let name = name.to_owned();
        Self {
            job,
            name,
            length,
            machine: None,
            needs: Vec::new(),
            either: Vec::new(),
            release: None,
            deadline: None,
        }
    }

    /// This on a machine of a class, with that much dough.
    #[must_use]
    pub fn on(mut self, class: ClassId, dough: Mass) -> Self {
        self.machine = Some(OnMachine { class, dough });
        self
    }

    /// This with places of a pool from start to end.
    #[must_use]
    pub fn with(self, pool: PoolId, places: u32) -> Self {
        let length = self.length;
        self.with_for(pool, places, Minutes::ZERO, length)
    }

    /// This with places of a pool for part of it.
    #[must_use]
    pub fn with_for(mut self, pool: PoolId, places: u32, after: Minutes, length: Minutes) -> Self {
        self.needs.push(PoolNeed { pool, places, after, length });
        self
    }

    /// This with places of one of several pools from start to end: none is enough by itself for two.
    #[must_use]
    pub fn with_either(mut self, pools: impl IntoIterator<Item = (PoolId, u32)>) -> Self {
        let (after, length) = (Minutes::ZERO, self.length);
        self.either.extend(pools.into_iter().map(|(pool, places)| PoolNeed { pool, places, after, length }));
        self
    }

    /// This, not begun before a moment.
    #[must_use]
    pub fn release(mut self, moment: Moment) -> Self {
        self.release = Some(moment);
        self
    }

    /// This, over by a moment.
    #[must_use]
    pub fn deadline(mut self, moment: Moment) -> Self {
        self.deadline = Some(moment);
        self
    }
}

/// From where a time lag is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LagFrom {
    /// From the end of the earlier step: what lies between bulk and divide.
    End,
    /// From its start: a poolish ripens from when it was set.
    Start,
}

/// What lies between two steps: no less than the least, no more than the most.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TimeLag {
    /// What it is called: `bulk`, `proof`.
    pub name: String,
    /// The earlier step.
    pub after: StepId,
    /// From where of it the time counts.
    pub since: LagFrom,
    /// The later step: the time counts to its start.
    pub before: StepId,
    /// The least time lag.
    pub least: Minutes,
    /// The most, if there is one.
    pub most: Option<Minutes>,
}

/// Everything that a timetable is made from.
///
/// Ids are those of the `Work` that gave them; those of another are refused when the timetable is made.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Work {
    pub(crate) from: Moment,
    pub(crate) until: Moment,
    pub(crate) classes: Vec<String>,
    pub(crate) machines: Vec<Machine>,
    pub(crate) pools: Vec<Pool>,
    pub(crate) jobs: Vec<String>,
    pub(crate) steps: Vec<Step>,
    pub(crate) time_lags: Vec<TimeLag>,
    pub(crate) beyond: usize,
}

impl Work {
    /// Nothing to do yet, within a span: no step begins before it or ends after it.
    #[must_use]
    pub fn new(from: Moment, until: Moment) -> Self {
        Self { from, until, ..Self::default() }
    }

    /// A class of machines, by what one is called: `mixer`.
    pub fn class(&mut self, one: &str) -> ClassId {
        self.classes.push(one.to_owned());
        ClassId(self.classes.len() - 1)
    }

    /// One more machine.
    pub fn machine(&mut self, machine: Machine) -> MachineId {
        self.machines.push(machine);
        MachineId(self.machines.len() - 1)
    }

    /// A pool with a name, and the words for one and for several of it. It is empty until it is [opened](Self::open).
    pub fn pool(&mut self, name: &str, one: &str, many: &str) -> PoolId {
        let [name, one, many] = [name, one, many].map(str::to_owned);
        self.pools.push(Pool { name, one, many, open: Vec::new() });
        PoolId(self.pools.len() - 1)
    }

    /// Places of a pool for a span, beside those that it has. A pool of another `Work` stays as it is.
    pub fn open(&mut self, pool: PoolId, open: OpeningHours) {
        if let Some(pool) = self.pools.get_mut(pool.0) {
            pool.open.push(open);
        }
    }

    /// Places of a pool at any time.
    pub fn always(&mut self, pool: PoolId, places: u32) {
        self.open(pool, OpeningHours { from: self.from, until: self.until, places });
    }

    /// One more job.
    pub fn job(&mut self, name: &str) -> JobId {
        self.jobs.push(name.to_owned());
        JobId(self.jobs.len() - 1)
    }

    /// The work with another name for a job. A job of another `Work` stays as it is.
    #[must_use]
    pub fn renamed(mut self, job: JobId, name: &str) -> Self {
        if let Some(own) = self.jobs.get_mut(job.0) {
            name.clone_into(own);
        }
        self
    }

    /// One more step of a job.
    pub fn step(&mut self, step: Step) -> StepId {
        self.steps.push(step);
        StepId(self.steps.len() - 1)
    }

    /// So many steps more that are counted and not listed: with them the work is more than a timetable holds.
    pub fn count_more_steps(&mut self, steps: u64) {
        self.beyond = self.beyond.saturating_add(usize::try_from(steps).unwrap_or(usize::MAX));
    }

    /// One more time lag between two steps, of one job or of two.
    pub fn time_lag(&mut self, time_lag: TimeLag) -> TimeLagId {
        self.time_lags.push(time_lag);
        TimeLagId(self.time_lags.len() - 1)
    }

    /// The span of the timetable.
    #[must_use]
    pub const fn span(&self) -> (Moment, Moment) {
        (self.from, self.until)
    }

    /// The names of the classes of machines.
    #[must_use]
    pub fn classes(&self) -> &[String] {
        &self.classes
    }

    /// The machines, in the order in which they were added.
    #[must_use]
    pub fn machines(&self) -> &[Machine] {
        &self.machines
    }

    /// The pools.
    #[must_use]
    pub fn pools(&self) -> &[Pool] {
        &self.pools
    }

    /// The names of the jobs.
    #[must_use]
    pub fn jobs(&self) -> &[String] {
        &self.jobs
    }

    /// The steps.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The time lags.
    #[must_use]
    pub fn time_lags(&self) -> &[TimeLag] {
        &self.time_lags
    }

    /// A step, unless the id is of another `Work`.
    #[must_use]
    pub fn get(&self, step: StepId) -> Option<&Step> {
        self.steps.get(step.0)
    }

    /// A machine, unless the id is of another `Work`.
    #[must_use]
    pub fn get_machine(&self, machine: MachineId) -> Option<&Machine> {
        self.machines.get(machine.0)
    }

    /// A time lag, unless the id is of another `Work`.
    #[must_use]
    pub fn get_time_lag(&self, time_lag: TimeLagId) -> Option<&TimeLag> {
        self.time_lags.get(time_lag.0)
    }

    /// A pool, unless the id is of another `Work`.
    #[must_use]
    pub fn get_pool(&self, pool: PoolId) -> Option<&Pool> {
        self.pools.get(pool.0)
    }

    /// The name of a job, unless the id is of another `Work`.
    #[must_use]
    pub fn job_name(&self, job: JobId) -> Option<&str> {
        self.jobs.get(job.0).map(String::as_str)
    }

    /// The time lags that begin with a step, with their ids.
    pub fn time_lags_after(&self, step: StepId) -> impl Iterator<Item = (TimeLagId, &TimeLag)> {
        let time_lags = self.time_lags.iter().enumerate().filter(move |(_, time_lag)| time_lag.after == step);
        time_lags.map(|(index, time_lag)| (TimeLagId(index), time_lag))
    }

    /// The ids of all time lags.
    pub fn time_lag_ids(&self) -> impl Iterator<Item = TimeLagId> + use<> {
        (0..self.time_lags.len()).map(TimeLagId)
    }

    /// The ids of all steps.
    pub fn step_ids(&self) -> impl Iterator<Item = StepId> + use<> {
        (0..self.steps.len()).map(StepId)
    }

    /// A step's full name: `mix of Quayside loaf`.
    #[must_use]
    pub fn name(&self, step: StepId) -> String {
        let found = self.get(step);
        let job = found.and_then(|step| self.jobs.get(step.job.0)).map_or("?", String::as_str);
        found.map_or_else(|| "?".to_owned(), |step| format!("{} of {job}", step.name))
    }
}
