//! The work on a grid of minutes: what the search reads, in numbers counted from the first minute of the span.
//!
//! Made from a [`Work`] without [`WorkError`](crate::Mistake)s, so every index here is in range.

use crate::{LagFrom, Work};

/// A minute of the span, counted from its first. Signed, since a window may reach beyond the span.
pub type Minute = i64;

/// Work in numbers.
#[derive(Debug, Clone)]
pub struct TimeGrid {
    /// Minutes of the span.
    pub minutes: Minute,
    pub steps: Vec<GridStep>,
    pub time_lags: Vec<GridTimeLag>,
    /// The waits of each step, before and after it.
    pub time_lags_of: Vec<Vec<usize>>,
    /// Distinct sets of machines that some step may use, each with its class.
    pub fleets: Vec<Fleet>,
    pub machines: usize,
    /// Places of each pool, minute by minute.
    pub places: Vec<Vec<u32>>,
}

#[derive(Debug, Clone)]
pub struct GridStep {
    pub job: usize,
    pub length: Minute,
    /// An index into [`TimeGrid::fleets`].
    pub fleet: Option<usize>,
    pub needs: Vec<GridPoolNeed>,
    /// The first and the last minute at which it may begin, by itself.
    pub low: Minute,
    pub high: Minute,
    /// The minute by which it is to be over, from which its waiting counts.
    pub due: Option<Minute>,
}

#[derive(Debug, Clone)]
pub struct GridPoolNeed {
    pub pool: usize,
    pub places: u32,
    pub after: Minute,
    pub length: Minute,
}

/// The start of `before` less the start of `after` is in `least..=most`.
#[derive(Debug, Clone)]
pub struct GridTimeLag {
    pub after: usize,
    pub before: usize,
    pub least: Minute,
    pub most: Minute,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fleet {
    pub class: usize,
    pub machines: Vec<usize>,
}

/// An index of a minute that is in the span.
pub fn index(minute: Minute) -> usize {
    usize::try_from(minute).unwrap_or(0)
}

impl TimeGrid {
    pub fn new(work: &Work) -> Self {
        let minutes = work.until.signed() - work.from.signed();
        let mut grid = Self {
            minutes,
            steps: Vec::new(),
            time_lags: Vec::new(),
            time_lags_of: vec![Vec::new(); work.steps.len()],
            fleets: Vec::new(),
            machines: work.machines.len(),
            places: places(work, minutes),
        };
        for step in &work.steps {
            let fleet = step.machine.as_ref().map(|on| grid.fleet(work, on));
            let release = step.release.map_or(0, |moment| moment.signed() - work.from.signed());
            let due = step.deadline.map(|moment| moment.signed() - work.from.signed());
            let needs = step.needs.iter().filter(|need| need.places > 0 && need.length.count() > 0);
            grid.steps.push(GridStep {
                job: step.job.0,
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

    fn fleet(&mut self, work: &Work, on: &crate::OnMachine) -> usize {
        let machines = work.machines.iter().enumerate();
        let able = machines.filter(|(_, machine)| machine.class == on.class && machine.takes(&on.dough));
        let fleet = Fleet { class: on.class.0, machines: able.map(|(index, _)| index).collect() };
        if let Some(known) = self.fleets.iter().position(|other| *other == fleet) {
            return known;
        }
        self.fleets.push(fleet);
        self.fleets.len() - 1
    }

    /// Whether two machines can stand in for each other in every step.
    pub fn are_alike(&self, machine: usize, other: usize) -> bool {
        self.fleets.iter().all(|fleet| fleet.machines.contains(&machine) == fleet.machines.contains(&other))
    }

    fn add_waits(&mut self, work: &Work) {
        for (index, time_lag) in work.time_lags.iter().enumerate() {
            let ahead = match time_lag.since {
                LagFrom::End => self.steps[time_lag.after.0].length,
                LagFrom::Start => 0,
            };
            self.time_lags.push(GridTimeLag {
                after: time_lag.after.0,
                before: time_lag.before.0,
                least: ahead + time_lag.least.signed(),
                most: time_lag.most.map_or(self.minutes, |most| (ahead + most.signed()).min(self.minutes)),
            });
            self.time_lags_of[time_lag.after.0].push(index);
            self.time_lags_of[time_lag.before.0].push(index);
        }
    }
}

impl GridPoolNeed {
    fn new(need: &crate::PoolNeed) -> Self {
        let [after, length] = [need.after, need.length].map(crate::Minutes::signed);
        Self { pool: need.pool.0, places: need.places, after, length }
    }
}

impl GridTimeLag {
    /// The step at its other end.
    pub const fn other(&self, step: usize) -> usize {
        if self.after == step { self.before } else { self.after }
    }
}

fn places(work: &Work, minutes: Minute) -> Vec<Vec<u32>> {
    let of_pool = |pool: &crate::Pool| {
        let mut places = vec![0_u32; index(minutes)];
        for open in &pool.open {
            let [from, until] = [open.from, open.until].map(|moment| moment.signed() - work.from.signed());
            for minute in from.clamp(0, minutes)..until.clamp(0, minutes) {
                let there = &mut places[index(minute)];
                *there = there.saturating_add(open.places);
            }
        }
        places
    };
    work.pools.iter().map(of_pool).collect()
}
