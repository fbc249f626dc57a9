//! What no timetable can be better than: the waiting that is left when resources have prices instead of limits.
//!
//! Each machine set and each pool has a price for each minute (Lagrange multipliers). Steps then no longer compete, and
//! the whole day is laid out exactly as trees; what the layout costs, prices included, less what the resources
//! could earn, is never above the least waiting that keeps all limits. Prices of minutes in too much demand rise and
//! the others fall (subgradient steps), and the best value is the bound. The relaxation is that of R. H. Möhring,
//! A. S. Schulz, F. Stork, M. Uetz, "Solving project scheduling problems by minimum cut computations", Management
//! Science 49 (2003) 330-350; here the layout is by tree and not by cut. Prices are whole 1024ths of a minute of
//! waiting, so the bound is exact and the same on every machine.

use crate::grid::{Fleet, GridStep, GridWay, Minute, RowNeed, TimeGrid};
use crate::id_vec::{Id as _, IdVec, ResourceId, RowId};
use crate::lag_forest::{BLOCKED, LagForest, StartCosts};
use crate::profile::Profile;
use crate::windows::Windows;
use crate::{MachineId, PoolId, StepId};

/// Parts of a minute of waiting in which prices are counted.
const PARTS: i64 = 1024;

/// The step that would close the gap by itself if prices were all that matters.
const WHOLE: i64 = 65_536;

/// The highest price of a minute: higher than any that decides, and low enough to keep sums far from the ends of an i64.
const HIGHEST_PRICE: i64 = PARTS * 100;

/// Something that is limited: a pool, or all machines of a set.
#[derive(Default)]
struct PricedResource {
    /// What is there, minute by minute.
    there: IdVec<Minute, i64>,
    price: IdVec<Minute, i64>,
    /// The sum of the prices up to each minute.
    summed: IdVec<Minute, i64>,
    taken: IdVec<Minute, i64>,
}

/// One step's use of a row.
struct ResourceUse {
    row: ResourceId,
    places: i64,
    after: Minute,
    length: Minute,
}

/// The bound while prices are sought.
pub struct WaitingBound<'g> {
    grid: &'g TimeGrid,
    root: &'g Windows,
    tree: LagForest,
    rows: IdVec<ResourceId, PricedResource>,
    uses: IdVec<StepId, Vec<ResourceUse>>,
    /// Whether each step could begin at each of its minutes if it were alone in the house.
    is_open: IdVec<StepId, Vec<bool>>,
    best: i64,
    /// How far prices move, in parts of [`WHOLE`].
    stride: i64,
    since_better: u32,
}

impl<'g> WaitingBound<'g> {
    pub fn new(grid: &'g TimeGrid, root: &'g Windows) -> Self {
        let steps: Vec<StepId> = grid.steps.ids().collect();
        let sets = machine_sets(grid);
        let of_pool = |places: &IdVec<Minute, u32>| {
            places.iter().copied().map(i64::from).collect::<IdVec<Minute, i64>>()
        };
        let pools = grid.rows.iter().take(grid.pools).map(of_pool);
        let count = |set: &Fleet| i64::try_from(set.machines.len()).unwrap_or(i64::MAX);
        let machines = sets.iter().map(|set| IdVec::filled(count(set), grid.length()));
        let several = pool_sets(grid);
        let together = several.iter().map(|set| sum_of(grid, set));
        let rows = pools.chain(machines).chain(together).map(PricedResource::new).collect();
        let uses = grid.steps.iter().map(|step| {
            let mut all = uses(grid, &sets, step);
            all.extend(uses_of_several(grid, &several, step, grid.pools + sets.len()));
            all
        });
        let uses = uses.collect();
        let tree = LagForest::spanning(grid, &steps);
        let alone = Profile::new(grid);
        let is_open = |&step: &StepId| alone.open_starts(grid, step, root.low[step], root.high[step]);
        let is_open = steps.iter().map(is_open).collect();
        Self { grid, root, tree, rows, uses, is_open, best: 0, stride: WHOLE, since_better: 0 }
    }

    /// Whole minutes of waiting that no timetable is under.
    pub fn minutes(&self) -> i64 {
        // Waiting is in whole minutes, so a part of one rounds up.
        self.best.div_euclid(PARTS) + i64::from(self.best.rem_euclid(PARTS) > 0)
    }

    /// Moves prices that many times, towards a waiting that is known to be possible.
    pub fn raise(&mut self, rounds: usize, known: i64) {
        for _ in 0..rounds {
            if self.minutes() >= known || self.stride == 0 || !self.round(known) {
                return;
            }
        }
    }

    /// One layout at the present prices, and the prices moved by what it takes; whether there is anything to move.
    fn round(&mut self, known: i64) -> bool {
        let layout = self.tree.cheapest_layout(self.grid, PARTS, |step| {
            let low = self.root.low[step];
            let at = (low..).zip(&self.is_open[step]);
            let at = at.map(|(start, is_open)| if *is_open { self.cost(step, start) } else { BLOCKED });
            StartCosts { low, at: at.collect() }
        });
        let Some(layout) = layout else { return false };
        let earned: i64 = self.rows.iter().map(PricedResource::earned).sum();
        let value = layout.cost - earned;
        if value > self.best {
            self.best = value;
            self.since_better = 0;
        } else {
            self.since_better += 1;
            if self.since_better >= 8 {
                self.stride = self.stride * 3 / 4;
                self.since_better = 0;
            }
        }
        self.count(&layout.starts);
        let slopes = self.rows.iter().map(PricedResource::steepness).sum::<i128>();
        if slopes == 0 {
            return false;
        }
        let gap = i128::from((known * PARTS - value).max(PARTS));
        let (stride, divisor) = (i128::from(self.stride) * gap, i128::from(WHOLE) * slopes);
        self.rows.iter_mut().for_each(|row| row.reprice(stride, divisor));
        true
    }

    fn cost(&self, step: StepId, start: Minute) -> i64 {
        let wanted = &self.grid.steps[step];
        let early = wanted.due.map_or(0, |due| due - start - wanted.length) * PARTS;
        let paid = self.uses[step].iter().map(|wanted| {
            let summed = &self.rows[wanted.row].summed;
            let from = start + wanted.after;
            wanted.places * (summed[from + wanted.length] - summed[from])
        });
        early + paid.sum::<i64>()
    }

    fn count(&mut self, starts: &[(StepId, Minute)]) {
        self.rows.iter_mut().for_each(|row| row.taken.iter_mut().for_each(|taken| *taken = 0));
        for &(step, start) in starts {
            for wanted in &self.uses[step] {
                let from = start + wanted.after;
                let taken = self.rows[wanted.row].taken.range_mut(from, from + wanted.length);
                for taken in taken {
                    *taken += wanted.places;
                }
            }
        }
    }
}

impl PricedResource {
    fn new(there: IdVec<Minute, i64>) -> Self {
        let minutes = there.len();
        Self {
            there,
            price: IdVec::filled(0, minutes),
            summed: IdVec::filled(0, minutes + 1),
            taken: IdVec::filled(0, minutes),
        }
    }

    /// What the row would earn if all of it were let.
    fn earned(&self) -> i64 {
        self.price.iter().zip(self.there.iter()).map(|(price, there)| price * there).sum()
    }

    /// By how much more than there is is taken in a minute. Free minutes without a price say nothing.
    fn slope(&self, minute: Minute) -> i64 {
        let over = self.taken[minute] - self.there[minute];
        if over < 0 && self.price[minute] == 0 { 0 } else { over }
    }

    fn steepness(&self) -> i128 {
        self.price.ids().map(|minute| i128::from(self.slope(minute)).pow(2)).sum()
    }

    fn reprice(&mut self, stride: i128, divisor: i128) {
        let mut sum = 0_i64;
        for minute in self.price.ids() {
            let change = stride * i128::from(self.slope(minute)) / divisor;
            let price = (i128::from(self.price[minute]) + change).clamp(0, i128::from(HIGHEST_PRICE));
            self.price[minute] = i64::try_from(price).unwrap_or(HIGHEST_PRICE);
            sum += self.price[minute];
            self.summed[minute + 1] = sum;
        }
    }
}

/// The sets of machines that limit something: those that some step may use, and whole classes.
fn machine_sets(grid: &TimeGrid) -> Vec<Fleet> {
    let mut sets: Vec<Fleet> = grid.fleets.iter().cloned().collect();
    for fleet in grid.fleets.iter() {
        let of_class = grid.fleets.iter().filter(|other| other.class == fleet.class);
        let mut machines: Vec<MachineId> =
            of_class.flat_map(|other| other.machines.iter().copied()).collect();
        machines.sort_unstable();
        machines.dedup();
        let whole = Fleet { class: fleet.class, machines };
        if !sets.contains(&whole) {
            sets.push(whole);
        }
    }
    sets
}

/// The pools of several that a step may take of, in order.
fn own_pools(step: &GridStep) -> Vec<PoolId> {
    let mut pools: Vec<PoolId> = step.ways.iter().filter_map(|way| way.pool).collect();
    pools.sort_unstable();
    pools.dedup();
    pools
}

/// The sets of pools of which some step takes of one or another.
fn pool_sets(grid: &TimeGrid) -> Vec<Vec<PoolId>> {
    let mut sets: Vec<Vec<PoolId>> = grid.steps.iter().map(own_pools).filter(|set| set.len() > 1).collect();
    sets.sort();
    sets.dedup();
    sets
}

/// What several pools have together, minute by minute.
fn sum_of(grid: &TimeGrid, set: &[PoolId]) -> IdVec<Minute, i64> {
    let there = |minute| {
        let rows = set.iter().map(|pool| &grid.rows[RowId::of_place(pool.place())]);
        rows.map(|row| i64::from(row[minute])).sum()
    };
    (0..grid.minutes).map(there).collect()
}

/// What a step takes of sets that have all its pools, whichever it takes of: the least that one of its ways takes.
fn uses_of_several<'a>(
    grid: &'a TimeGrid,
    sets: &'a [Vec<PoolId>],
    step: &'a GridStep,
    first: usize,
) -> impl Iterator<Item = ResourceUse> + 'a {
    let own = own_pools(step);
    let taken = move |pools: &[PoolId]| {
        let is_of = |need: &&RowNeed| pools.iter().any(|pool| pool.place() == need.row.place());
        let of_way = |way: &'a GridWay| way.needs.iter().find(is_of);
        let needs = step.ways.iter().filter_map(of_way);
        needs.min_by_key(|need| (need.length, need.places))
    };
    let holds = move |set: &Vec<PoolId>| !own.is_empty() && own.iter().all(|pool| set.contains(pool));
    sets.iter().enumerate().filter(move |(_, set)| holds(set)).filter_map(move |(number, set)| {
        let need = taken(set)?;
        debug_assert!(need.row.place() < grid.pools, "a pool of several is a pool");
        Some(ResourceUse {
            row: ResourceId::of_place(first + number),
            places: i64::from(need.places),
            after: need.after,
            length: need.length,
        })
    })
}

/// What a step uses of each row: pools first, then every machine set that all its machines are in.
fn uses(grid: &TimeGrid, sets: &[Fleet], step: &GridStep) -> Vec<ResourceUse> {
    let needs = step.needs.iter().map(|need| {
        let places = i64::from(need.places);
        ResourceUse {
            row: ResourceId::of_place(need.row.place()),
            places,
            after: need.after,
            length: need.length,
        }
    });
    let own = step.fleet.map(|fleet| &grid.fleets[fleet]);
    let is_in = |set: &Fleet| {
        own.is_some_and(|own| own.machines.iter().all(|machine| set.machines.contains(machine)))
    };
    let on = sets.iter().enumerate().filter(|(_, set)| is_in(set)).map(|(number, _)| ResourceUse {
        row: ResourceId::of_place(grid.pools + number),
        places: 1,
        after: 0,
        length: step.length,
    });
    needs.chain(on).collect()
}
