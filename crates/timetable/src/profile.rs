//! What is free at each minute: machines, and places of pools.

use crate::grid::{GridStep, Minute, TimeGrid};
use crate::id_vec::IdVec;
use crate::{MachineId, PoolId, StepId};

/// Where a step is: its start, and its machine if it is on one.
pub type Assignment = (Minute, Option<MachineId>);

/// What is left of machines and pools while steps are placed and taken out again.
#[derive(Debug, Clone)]
pub struct Profile {
    /// Free places of each pool, minute by minute.
    places: IdVec<PoolId, IdVec<Minute, u32>>,
    /// Whether each machine is busy, minute by minute.
    busy: IdVec<MachineId, IdVec<Minute, bool>>,
    /// Steps on each machine.
    load: IdVec<MachineId, usize>,
}

impl Profile {
    /// Everything free.
    pub fn new(grid: &TimeGrid) -> Self {
        let busy = IdVec::filled(IdVec::filled(false, grid.length()), grid.machines);
        Self { places: grid.places.clone(), busy, load: IdVec::filled(0, grid.machines) }
    }

    /// Whether a step can begin at each minute of `low..=high`, by pools and machines.
    pub fn free_starts(&self, grid: &TimeGrid, step: StepId, low: Minute, high: Minute) -> Vec<bool> {
        let mut is_free = self.open_starts(grid, step, low, high);
        let wanted = &grid.steps[step];
        let Some(fleet) = wanted.fleet.filter(|_| wanted.length > 0) else { return is_free };
        let mut has_machine = vec![false; is_free.len()];
        for &machine in &grid.fleets[fleet].machines {
            let mut last_busy = low - 1;
            let busy = &self.busy[machine];
            let end = |start: Minute| start + wanted.length - 1;
            for minute in low..end(low) {
                if busy[minute] {
                    last_busy = minute;
                }
            }
            for (start, has) in (low..).zip(&mut has_machine) {
                if busy[end(start)] {
                    last_busy = end(start);
                }
                *has |= last_busy < start;
            }
        }
        is_free.iter_mut().zip(has_machine).for_each(|(is_free, has)| *is_free &= has);
        is_free
    }

    /// Whether a step can begin at each minute of `low..=high`, by pools alone.
    pub fn open_starts(&self, grid: &TimeGrid, step: StepId, low: Minute, high: Minute) -> Vec<bool> {
        let mut is_open = vec![true; usize::try_from(high - low + 1).unwrap_or(0)];
        for need in &grid.steps[step].needs {
            let free = &self.places[need.pool];
            let (mut last_full, first) = (low + need.after - 1, low + need.after);
            for minute in first..first + need.length - 1 {
                if free[minute] < need.places {
                    last_full = minute;
                }
            }
            for (start, open) in (low..).zip(&mut is_open) {
                let end = start + need.after + need.length - 1;
                if free[end] < need.places {
                    last_full = end;
                }
                *open &= last_full < start + need.after;
            }
        }
        is_open
    }

    /// The first pool that a step beginning at a minute would find too full.
    pub fn closed_pool(&self, grid: &TimeGrid, step: StepId, start: Minute) -> Option<PoolId> {
        let is_short = |need: &&crate::grid::GridPoolNeed| {
            let span = start + need.after..start + need.after + need.length;
            span.into_iter().any(|minute| self.places[need.pool][minute] < need.places)
        };
        grid.steps[step].needs.iter().find(is_short).map(|need| need.pool)
    }

    /// The spot of a step that begins at a minute; `None` if it does not fit there.
    ///
    /// Of several machines that which the fewest other doughs could use, and of those the busiest: free ones stay free
    /// for what only they can take.
    pub fn assignment(&self, grid: &TimeGrid, step: StepId, start: Minute) -> Option<Assignment> {
        if self.closed_pool(grid, step, start).is_some() {
            return None;
        }
        let wanted = &grid.steps[step];
        let Some(fleet) = wanted.fleet else { return Some((start, None)) };
        let free = grid.fleets[fleet].machines.iter().copied();
        let free = free.filter(|&machine| self.is_machine_free(machine, wanted, start));
        free.min_by_key(|&machine| (choices(grid, machine), usize::MAX - self.load[machine]))
            .map(|machine| (start, Some(machine)))
    }

    /// Whether a machine has nothing in it while a step would be.
    pub fn is_machine_free(&self, machine: MachineId, step: &GridStep, start: Minute) -> bool {
        (start..start + step.length).all(|minute| !self.busy[machine][minute])
    }

    /// Whether a machine has nothing to do all day.
    pub fn is_idle(&self, machine: MachineId) -> bool {
        self.load[machine] == 0
    }

    /// Takes what a step takes.
    pub fn take(&mut self, grid: &TimeGrid, step: StepId, start: Minute, machine: Option<MachineId>) {
        self.book(grid, step, start, machine, true);
    }

    /// Gives back what a step took.
    pub fn give_back(&mut self, grid: &TimeGrid, step: StepId, start: Minute, machine: Option<MachineId>) {
        self.book(grid, step, start, machine, false);
    }

    fn book(
        &mut self,
        grid: &TimeGrid,
        step: StepId,
        start: Minute,
        machine: Option<MachineId>,
        is_taken: bool,
    ) {
        let wanted = &grid.steps[step];
        for need in &wanted.needs {
            for minute in start + need.after..start + need.after + need.length {
                let free = &mut self.places[need.pool][minute];
                *free = if is_taken { free.saturating_sub(need.places) } else { *free + need.places };
            }
        }
        if let Some(machine) = machine {
            self.busy[machine].range_mut(start, start + wanted.length).fill(is_taken);
            self.load[machine] = if is_taken { self.load[machine] + 1 } else { self.load[machine] - 1 };
        }
    }
}

/// Of how many fleets a machine is: the fewer, the less it is missed elsewhere.
fn choices(grid: &TimeGrid, machine: MachineId) -> usize {
    grid.fleets.iter().filter(|fleet| fleet.machines.contains(&machine)).count()
}
