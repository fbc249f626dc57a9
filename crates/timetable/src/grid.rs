//! The work on a grid of minutes: what the search reads, in numbers counted from the first minute of the span.
//!
//! Made from a [`Work`] without [`WorkError`](crate::WorkError)s, so every id here is in range.

use crate::id_vec::{FleetId, Id as _, IdVec, RowId, WayId};
use crate::{ClassId, JobId, LagFrom, MachineId, PoolId, PoolNeed, StepId, TimeLagId, Work};

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
    /// How many sets of machines each machine is in: the fewer, the less it is missed elsewhere.
    pub choices: IdVec<MachineId, usize>,
    /// How many pools there are: the first rows are theirs, and the others those of the machines.
    pub pools: usize,
    /// Places of each pool and machine, minute by minute.
    pub rows: IdVec<RowId, IdVec<Minute, u32>>,
    /// How many places steps take of each row at once, each number once.
    pub levels: IdVec<RowId, Vec<u32>>,
}

#[derive(Debug, Clone, Default)]
pub struct GridStep {
    pub job: JobId,
    pub length: Minute,
    /// An index into [`TimeGrid::fleets`].
    pub fleet: Option<FleetId>,
    /// What it takes of pools in any case.
    pub needs: Vec<RowNeed>,
    /// The ways in which it can be done: on which machine, and with which of several pools. One at least where it can be done.
    pub ways: IdVec<WayId, GridWay>,
    /// The first and the last minute at which it may begin, by itself.
    pub low: Minute,
    pub high: Minute,
    /// The minute by which it is to be over, from which its waiting counts.
    pub due: Option<Minute>,
}

/// One way of doing a step.
#[derive(Debug, Clone, Default)]
pub struct GridWay {
    pub machine: Option<MachineId>,
    /// The pool of several that it takes of.
    pub pool: Option<PoolId>,
    /// All that it takes, of pools and of its machine.
    pub needs: Vec<RowNeed>,
}

/// What a step takes of a row.
#[derive(Debug, Clone)]
pub struct RowNeed {
    pub row: RowId,
    /// The place of its number of places among the [`TimeGrid::levels`] of the row.
    pub level: usize,
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
        let machines = work.machines.iter().map(|_| IdVec::filled(1, minutes.place()));
        let rows: IdVec<RowId, IdVec<Minute, u32>> = places(work, minutes).chain(machines).collect();
        let mut grid = Self {
            minutes,
            steps: IdVec::default(),
            time_lags: IdVec::default(),
            time_lags_of: IdVec::filled(Vec::new(), work.steps.len()),
            fleets: IdVec::default(),
            choices: IdVec::filled(0, work.machines.len()),
            pools: work.pools.len(),
            levels: IdVec::filled(Vec::new(), rows.len()),
            rows,
        };
        for step in &work.steps {
            grid.add_step(work, step);
        }
        grid.choices = work.machines.iter().zip(0..).map(|(_, at)| grid.fleets_of(MachineId(at))).collect();
        grid.sort_ways();
        grid.add_waits(work);
        grid
    }

    fn add_step(&mut self, work: &Work, step: &crate::Step) {
        let fleet = step.machine.as_ref().map(|on| self.fleet(work, on));
        let release = step.release.map_or(0, |moment| moment.signed() - work.from.signed());
        let due = step.deadline.map(|moment| moment.signed() - work.from.signed());
        let needs = self.summed(step.needs.iter());
        let mut wanted = GridStep {
            job: step.job,
            length: step.length.signed(),
            fleet,
            needs,
            ways: IdVec::default(),
            low: release.max(0),
            high: due.map_or(self.minutes, |due| due.min(self.minutes)) - step.length.signed(),
            due,
        };
        self.add_ways(&mut wanted, &step.needs, &step.either);
        self.steps.push(wanted);
    }

    fn add_ways(&mut self, step: &mut GridStep, own: &[PoolNeed], either: &[PoolNeed]) {
        let machines: Vec<Option<MachineId>> = match step.fleet {
            None => vec![None],
            Some(fleet) => self.fleets[fleet].machines.iter().copied().map(Some).collect(),
        };
        let pools: Vec<Option<&PoolNeed>> =
            if either.is_empty() { vec![None] } else { either.iter().map(Some).collect() };
        for machine in machines {
            for pool in &pools {
                let mut needs = match pool {
                    None => step.needs.clone(),
                    Some(one) => self.summed(own.iter().chain([*one])),
                };
                if let Some(machine) = machine.filter(|_| step.length > 0) {
                    let row = self.machine_row(machine);
                    needs.push(self.row_need(row, 1, 0, step.length));
                }
                step.ways.push(GridWay { machine, pool: pool.map(|need| need.pool), needs });
            }
        }
    }

    /// Needs of pools, summed where several are of one pool at the same minutes.
    fn summed<'n>(&mut self, needs: impl Iterator<Item = &'n PoolNeed> + Clone) -> Vec<RowNeed> {
        let needs = needs.filter(|need| need.places > 0 && need.length.count() > 0);
        let span = |need: &PoolNeed| {
            let from = need.after.signed();
            (from, from + need.length.signed())
        };
        let mut pools: Vec<PoolId> = needs.clone().map(|need| need.pool).collect();
        pools.sort_unstable();
        pools.dedup();
        let mut all = Vec::new();
        for pool in pools {
            let own = needs.clone().filter(|need| need.pool == pool);
            let mut ends: Vec<Minute> =
                own.clone().map(span).flat_map(|(from, until)| [from, until]).collect();
            ends.sort_unstable();
            ends.dedup();
            for (from, until) in ends.iter().zip(ends.iter().skip(1)) {
                let over = own.clone().filter(|need| span(need).0 <= *from && *until <= span(need).1);
                let places = over.fold(0_u32, |sum, need| sum.saturating_add(need.places));
                if places > 0 {
                    let row = RowId::of_place(pool.place());
                    all.push(self.row_need(row, places, *from, until - from));
                }
            }
        }
        all
    }

    fn row_need(&mut self, row: RowId, places: u32, after: Minute, length: Minute) -> RowNeed {
        let levels = &mut self.levels[row];
        let level = levels.iter().position(|known| *known == places).unwrap_or_else(|| {
            levels.push(places);
            levels.len() - 1
        });
        RowNeed { row, level, places, after, length }
    }

    /// The row of a machine.
    pub fn machine_row(&self, machine: MachineId) -> RowId {
        RowId::of_place(self.pools + machine.place())
    }

    fn fleets_of(&self, machine: MachineId) -> usize {
        self.fleets.iter().filter(|fleet| fleet.machines.contains(&machine)).count()
    }

    /// Ways on machines that fewer other doughs could use come first.
    fn sort_ways(&mut self) {
        for step in self.steps.iter_mut() {
            let mut ways: Vec<GridWay> = step.ways.iter().cloned().collect();
            ways.sort_by_key(|way| way.machine.map(|machine| self.choices[machine]));
            step.ways = ways.into();
        }
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

impl GridTimeLag {
    /// The step at its other end.
    pub fn other(&self, step: StepId) -> StepId {
        if self.after == step { self.before } else { self.after }
    }
}

fn places(work: &Work, minutes: Minute) -> impl Iterator<Item = IdVec<Minute, u32>> {
    let of_pool = move |pool: &crate::Pool| {
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
    work.pools.iter().map(of_pool)
}
