//! The work on a grid of minutes: what the search reads, in numbers counted from the first minute of the span.
//!
//! Made from a [`Work`] without [`WorkError`](crate::WorkError)s, so every id here is in range.

use crate::id_vec::{FleetId, Id as _, IdVec};
use crate::{ClassId, JobId, LagFrom, MachineId, PoolId, StepId, TimeLagId, Work};

/// A minute of the span, counted from its first. Signed, since a window may reach beyond the span.
pub type Minute = i64;

/// Work in numbers.
#[derive(Debug, Clone)]
pub struct TimeGrid {
    /// Minutes of the span.
    pub minutes: Minute,
    pub steps: IdVec<StepId, GridStep>,
    pub time_lags: IdVec<TimeLagId, GridTimeLag>,
    /// The time lags of each step, before and after it.
    pub time_lags_of: IdVec<StepId, Vec<TimeLagId>>,
    /// Distinct sets of machines that some step may use, each with its class.
    pub fleets: IdVec<FleetId, Fleet>,
    pub machines: usize,
    /// Places of each pool, minute by minute.
    pub places: IdVec<PoolId, IdVec<Minute, u32>>,
}

#[derive(Debug, Clone, Default)]
pub struct GridStep {
    pub job: JobId,
    pub length: Minute,
    /// An index into [`TimeGrid::fleets`].
    pub fleet: Option<FleetId>,
    pub needs: Vec<GridPoolNeed>,
    /// The first and the last minute at which it may begin, by itself.
    pub low: Minute,
    pub high: Minute,
    /// The minute by which it is to be over, from which its waiting counts.
    pub due: Option<Minute>,
}

#[derive(Debug, Clone)]
pub struct GridPoolNeed {
    pub pool: PoolId,
    pub places: u32,
    pub after: Minute,
    pub length: Minute,
}

/// The start of `before` less the start of `after` is in `least..=most`.
#[derive(Debug, Clone, Default)]
pub struct GridTimeLag {
    pub after: StepId,
    pub before: StepId,
    pub least: Minute,
    pub most: Minute,
}

#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Fleet {
    pub class: ClassId,
    pub machines: Vec<MachineId>,
}

impl TimeGrid {
    /// How many minutes the span has.
    pub fn length(&self) -> usize {
        self.minutes.place()
    }
}

impl TimeGrid {
    pub fn new(work: &Work) -> Self {
        let minutes = work.until.signed() - work.from.signed();
        let mut grid = Self {
            minutes,
            steps: IdVec::default(),
            time_lags: IdVec::default(),
            time_lags_of: IdVec::filled(Vec::new(), work.steps.len()),
            fleets: IdVec::default(),
            machines: work.machines.len(),
            places: places(work, minutes),
        };
        for step in &work.steps {
            let fleet = step.machine.as_ref().map(|on| grid.fleet(work, on));
            let release = step.release.map_or(0, |moment| moment.signed() - work.from.signed());
            let due = step.deadline.map(|moment| moment.signed() - work.from.signed());
            let needs = step.needs.iter().filter(|need| need.places > 0 && need.length.count() > 0);
            grid.steps.push(GridStep {
                job: step.job,
                length: step.length.signed(),
                fleet,
                needs: needs.map(GridPoolNeed::new).collect(),
                low: release.max(0),
                high: due.map_or(minutes, |due| due.min(minutes)) - step.length.signed(),
                due,
            });
        }
        grid.add_waits(work);
        grid
    }

    fn fleet(&mut self, work: &Work, on: &crate::OnMachine) -> FleetId {
        let machines = work.machines.iter().enumerate();
        let able = machines.filter(|(_, machine)| machine.class == on.class && machine.takes(&on.dough));
        let fleet = Fleet { class: on.class, machines: able.map(|(index, _)| MachineId(index)).collect() };
        if let Some((known, _)) = self.fleets.with_ids().find(|(_, other)| **other == fleet) {
            return known;
        }
        self.fleets.push(fleet)
    }

    /// Whether two machines can stand in for each other in every step.
    pub fn are_alike(&self, machine: MachineId, other: MachineId) -> bool {
        self.fleets.iter().all(|fleet| fleet.machines.contains(&machine) == fleet.machines.contains(&other))
    }

    fn add_waits(&mut self, work: &Work) {
        for time_lag in &work.time_lags {
            let ahead = match time_lag.since {
                LagFrom::End => self.steps[time_lag.after].length,
                LagFrom::Start => 0,
            };
            let id = self.time_lags.push(GridTimeLag {
                after: time_lag.after,
                before: time_lag.before,
                least: ahead + time_lag.least.signed(),
                most: time_lag.most.map_or(self.minutes, |most| (ahead + most.signed()).min(self.minutes)),
            });
            self.time_lags_of[time_lag.after].push(id);
            self.time_lags_of[time_lag.before].push(id);
        }
    }
}

impl GridPoolNeed {
    fn new(need: &crate::PoolNeed) -> Self {
        let [after, length] = [need.after, need.length].map(crate::Minutes::signed);
        Self { pool: need.pool, places: need.places, after, length }
    }
}

impl GridTimeLag {
    /// The step at its other end.
    pub fn other(&self, step: StepId) -> StepId {
        if self.after == step { self.before } else { self.after }
    }
}

fn places(work: &Work, minutes: Minute) -> IdVec<PoolId, IdVec<Minute, u32>> {
    let of_pool = |pool: &crate::Pool| {
        let mut places: IdVec<Minute, u32> = IdVec::filled(0, minutes.place());
        for open in &pool.open {
            let [from, until] = [open.from, open.until].map(|moment| moment.signed() - work.from.signed());
            for minute in from.clamp(0, minutes)..until.clamp(0, minutes) {
                let there = &mut places[minute];
                *there = there.saturating_add(open.places);
            }
        }
        places
    };
    work.pools.iter().map(of_pool).collect()
}
