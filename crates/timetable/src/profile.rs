//! What is free at each minute: machines, and places of pools.

use crate::bits::Bits;
use crate::grid::{Minute, RowNeed, TimeGrid};
use crate::id_vec::{Id as _, IdVec, RowId, WayId};
use crate::{MachineId, PoolId, StepId};

/// Where a step is: its start, and in which of its ways it is done.
pub type Assignment = (Minute, WayId);

/// What is left of machines and pools while steps are placed and taken out again.
#[derive(Debug, Clone)]
pub struct Profile {
    rows: IdVec<RowId, Row>,
}

/// What is left of one pool or machine.
#[derive(Debug, Clone, Default)]
struct Row {
    /// Free places, minute by minute.
    free: IdVec<Minute, u32>,
    /// For each number of places that some step takes at once, the minutes at which so many are free.
    levels: Vec<(u32, Bits)>,
    /// Steps that take of it.
    load: usize,
}

impl Row {
    fn new(free: IdVec<Minute, u32>, levels: &[u32]) -> Self {
        let bits = |places: &u32| (*places, Bits::new(free.iter().map(|there| there >= places)));
        let levels = levels.iter().map(bits).collect();
        Self { free, levels, load: 0 }
    }

    /// Takes places from one minute up to another, or gives them back.
    fn book(&mut self, from: Minute, until: Minute, places: u32, is_taken: bool) {
        for minute in from..until {
            let free = &mut self.free[minute];
            *free = if is_taken { free.saturating_sub(places) } else { *free + places };
            let free = *free;
            for (level, open) in &mut self.levels {
                open.set(minute, free >= *level);
            }
        }
    }
}

impl Profile {
    /// Everything free.
    pub fn new(grid: &TimeGrid) -> Self {
        let rows = grid.rows.iter().zip(grid.levels.iter());
        Self { rows: rows.map(|(there, levels)| Row::new(there.clone(), levels)).collect() }
    }

    /// The latest start of `low..=high` at which a step fits, and the way in which it does.
    pub fn latest(&self, grid: &TimeGrid, step: StepId, low: Minute, high: Minute) -> Option<Assignment> {
        let mut best: Option<Assignment> = None;
        for (way, needs) in grid.steps[step].ways.with_ids() {
            let low = best.map_or(low, |(start, _)| start + 1);
            let found = self.latest_of(&needs.needs, low, high);
            best = found.map(|start| (start, way)).or(best);
        }
        best
    }

    fn latest_of(&self, needs: &[RowNeed], low: Minute, high: Minute) -> Option<Minute> {
        let mut start = high;
        // Whatever closes a span moves the start to just before it.
        while start >= low {
            let closed = needs.iter().find_map(|need| {
                let from = start + need.after;
                let last = self.open(need)?.last_closed(from, from + need.length)?;
                Some(last - need.after - need.length)
            });
            match closed {
                Some(before) => start = before,
                None => return Some(start),
            }
        }
        None
    }

    /// The earliest start of `low..=high` at which a step fits.
    pub fn earliest(&self, grid: &TimeGrid, step: StepId, low: Minute, high: Minute) -> Option<Minute> {
        let ways = grid.steps[step].ways.iter();
        ways.filter_map(|way| self.earliest_of(&way.needs, low, high)).min()
    }

    fn earliest_of(&self, needs: &[RowNeed], low: Minute, high: Minute) -> Option<Minute> {
        let mut start = low;
        while start <= high {
            let closed = needs.iter().find_map(|need| {
                let from = start + need.after;
                Some(self.open(need)?.first_closed(from, from + need.length)? + 1 - need.after)
            });
            match closed {
                Some(after) => start = after,
                None => return Some(start),
            }
        }
        None
    }

    /// The minutes at which there is room for a need.
    fn open(&self, need: &RowNeed) -> Option<&Bits> {
        self.rows[need.row].levels.get(need.level).map(|(_, open)| open)
    }

    /// Whether a step can begin at each minute of `low..=high`, by pools and machines.
    pub fn free_starts(&self, grid: &TimeGrid, step: StepId, low: Minute, high: Minute) -> Vec<bool> {
        let mut is_free = vec![false; usize::try_from(high - low + 1).unwrap_or(0)];
        for way in grid.steps[step].ways.iter() {
            let mut last = high;
            while let Some(start) = self.latest_of(&way.needs, low, last) {
                if let Some(free) = is_free.get_mut((start - low).place()) {
                    *free = true;
                }
                last = start - 1;
            }
        }
        is_free
    }

    /// Whether a step can begin at each minute of `low..=high`, by the pools that it takes of in any case.
    pub fn open_starts(&self, grid: &TimeGrid, step: StepId, low: Minute, high: Minute) -> Vec<bool> {
        let needs = &grid.steps[step].needs;
        let is_open = |start| needs.iter().all(|need| !self.is_closed(need, start));
        (low..=high).map(is_open).collect()
    }

    fn is_closed(&self, need: &RowNeed, start: Minute) -> bool {
        let from = start + need.after;
        self.open(need).is_none_or(|open| open.first_closed(from, from + need.length).is_some())
    }

    /// The first pool that a step beginning at a minute would find too full, of those that it takes of in any case.
    pub fn closed_pool(&self, grid: &TimeGrid, step: StepId, start: Minute) -> Option<PoolId> {
        let needs = &grid.steps[step].needs;
        needs.iter().find(|need| self.is_closed(need, start)).map(|need| PoolId::of_place(need.row.place()))
    }

    /// The ways in which a step can be done at a minute.
    pub fn ways_at<'g>(
        &'g self,
        grid: &'g TimeGrid,
        step: StepId,
        start: Minute,
    ) -> impl Iterator<Item = WayId> + 'g {
        let ways = grid.steps[step].ways.with_ids();
        ways.filter(move |(_, way)| !way.needs.iter().any(|need| self.is_closed(need, start)))
            .map(|(id, _)| id)
    }

    /// The spot of a step that begins at a minute; `None` if it does not fit there.
    ///
    /// Of several machines that which the fewest other doughs could use, and of those the busiest: free ones stay free
    /// for what only they can take.
    pub fn assignment(&self, grid: &TimeGrid, step: StepId, start: Minute) -> Option<Assignment> {
        let ways = self.ways_at(grid, step, start);
        let rank = |way: &WayId| {
            let machine = grid.steps[step].ways[*way].machine;
            let machine =
                machine.map(|machine| (grid.choices[machine], usize::MAX - self.load(grid, machine)));
            (machine, way.place())
        };
        ways.min_by_key(rank).map(|way| (start, way))
    }

    fn load(&self, grid: &TimeGrid, machine: MachineId) -> usize {
        self.rows[grid.machine_row(machine)].load
    }

    /// Whether a machine has nothing to do all day.
    pub fn is_idle(&self, grid: &TimeGrid, machine: MachineId) -> bool {
        self.load(grid, machine) == 0
    }

    /// Takes what a step takes.
    pub fn take(&mut self, grid: &TimeGrid, step: StepId, at: Assignment) {
        self.book(grid, step, at, true);
    }

    /// Gives back what a step took.
    pub fn give_back(&mut self, grid: &TimeGrid, step: StepId, at: Assignment) {
        self.book(grid, step, at, false);
    }

    fn book(&mut self, grid: &TimeGrid, step: StepId, (start, way): Assignment, is_taken: bool) {
        for need in &grid.steps[step].ways[way].needs {
            let row = &mut self.rows[need.row];
            row.load = if is_taken { row.load + 1 } else { row.load.saturating_sub(1) };
            row.book(start + need.after, start + need.after + need.length, need.places, is_taken);
        }
    }
}
