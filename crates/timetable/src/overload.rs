//! A span in which there is more to do than there is room for.
//!
//! The energy of what must happen in a span against what the span has (P. Baptiste, C. Le Pape, W. Nuijten,
//! "Constraint-Based Scheduling", 2001, chapter on energetic reasoning; from memory). Each step counts with the least
//! that falls into the span wherever its window lets it begin, so an overload is a proof.

use crate::error::{LimitedResource, Overload};
use crate::grid::{Minute, TimeGrid};
use crate::id_vec::{FleetId, Id as _, IdVec, RowId};
use crate::windows::Windows;
use crate::{Moment, PoolId, StepId, Work};

/// One step's demand on a room, wherever it begins.
struct StepDemand {
    step: StepId,
    places: u64,
    length: Minute,
    /// The earliest and the latest minute at which it can begin.
    low: Minute,
    high: Minute,
}

impl StepDemand {
    /// The least that falls into a span.
    fn within(&self, from: Minute, until: Minute) -> u64 {
        let early = (self.low + self.length).min(until) - from;
        let late = until - self.high.max(from);
        let inside = early.min(late).min(self.length).min(until - from).max(0);
        self.places.saturating_mul(u64::try_from(inside).unwrap_or(0))
    }
}

/// The shortest overloaded span of any room, if there is one.
pub fn overload(work: &Work, grid: &TimeGrid, root: &Windows) -> Option<Overload> {
    let pools = (0..grid.pools).map(PoolId).filter_map(|pool| {
        let row = RowId::of_place(pool.place());
        let places = grid.rows[row].iter().map(|&there| u64::from(there)).collect::<Vec<_>>();
        of_resource(work, grid, LimitedResource::Pool(pool), &places, pool_demands(grid, root, pool))
    });
    let fleets = grid.fleets.ids().filter_map(|fleet| {
        let demands = fleet_demands(grid, root, fleet);
        let first = demands.first()?.step;
        let count = u32::try_from(grid.fleets[fleet].machines.len()).unwrap_or(u32::MAX);
        let there = vec![u64::from(count); grid.length()];
        of_resource(work, grid, LimitedResource::Machines(first, count), &there, demands)
    });
    pools.chain(fleets).min_by_key(|found| found.until.since(found.from))
}

fn pool_demands(grid: &TimeGrid, root: &Windows, pool: PoolId) -> Vec<StepDemand> {
    let steps = grid.steps.with_ids();
    let demands = steps.flat_map(|(step, wanted)| {
        let needs = wanted.needs.iter().filter(move |need| need.row.place() == pool.place());
        needs.map(move |need| StepDemand {
            step,
            places: u64::from(need.places),
            length: need.length,
            low: root.low[step] + need.after,
            high: root.high[step] + need.after,
        })
    });
    demands.collect()
}

/// The demands of all steps whose machines are all in a fleet.
fn fleet_demands(grid: &TimeGrid, root: &Windows, fleet: FleetId) -> Vec<StepDemand> {
    let set = &grid.fleets[fleet];
    let is_in = |own: FleetId| grid.fleets[own].machines.iter().all(|machine| set.machines.contains(machine));
    let steps = grid.steps.with_ids();
    let steps = steps.filter(|(_, step)| step.fleet.is_some_and(is_in));
    let demand = |(step, wanted): (StepId, &crate::grid::GridStep)| StepDemand {
        step,
        places: 1,
        length: wanted.length,
        low: root.low[step],
        high: root.high[step],
    };
    steps.map(demand).collect()
}

fn of_resource(
    work: &Work,
    grid: &TimeGrid,
    room: LimitedResource,
    there: &[u64],
    mut demands: Vec<StepDemand>,
) -> Option<Overload> {
    let mut summed: IdVec<Minute, u64> = IdVec::from(vec![0]);
    let mut sum = 0_u64;
    for places in there {
        sum = sum.saturating_add(*places);
        summed.push(sum);
    }
    let available = |from, until| summed[until] - summed[from];
    let mut starts: Vec<Minute> = demands.iter().flat_map(|demand| [demand.low, demand.high]).collect();
    let mut ends: Vec<Minute> = demands
        .iter()
        .flat_map(|demand| [demand.high, demand.low].map(|start| start + demand.length))
        .collect();
    for bounds in [&mut starts, &mut ends] {
        bounds.sort_unstable();
        bounds.dedup();
        bounds.retain(|minute| (0..=grid.minutes).contains(minute));
        thin_out(bounds, demands.len());
    }
    let is_over = |demands: &[StepDemand], from, until| {
        let wanted = demands.iter().fold(0_u64, |sum, demand| sum.saturating_add(demand.within(from, until)));
        (wanted > available(from, until)).then_some(wanted)
    };
    let spans = starts.iter().flat_map(|&from| ends.iter().map(move |&until| (from, until)));
    let spans = spans.filter(|(from, until)| from < until);
    let over = spans.filter(|&(from, until)| is_over(&demands, from, until).is_some());
    let (from, until) = over.min_by_key(|(from, until)| until - from)?;
    demands.retain(|demand| demand.within(from, until) > 0);
    demands.sort_by_key(|demand| demand.within(from, until));
    leave_out(&mut demands, |demands| is_over(demands, from, until).is_some());
    let wanted = is_over(&demands, from, until)?;
    let moment = |minute| Moment::clamped(work.from.signed() + minute);
    let mut steps: Vec<StepId> = demands.iter().map(|demand| demand.step).collect();
    steps.sort_unstable();
    steps.dedup();
    Some(Overload {
        room,
        from: moment(from),
        until: moment(until),
        steps,
        wanted,
        there: available(from, until),
    })
}

/// Leaves out as many demands as can be while those that stay overload the span, the first ones first.
fn leave_out(demands: &mut Vec<StepDemand>, is_over: impl Fn(&[StepDemand]) -> bool) {
    let mut next = 0;
    while next < demands.len() {
        let left_out = demands.remove(next);
        if !is_over(demands) {
            demands.insert(next, left_out);
            next += 1;
        }
    }
}

/// The most times that a demand is compared with a span: a second or two.
const MOST_COMPARISONS: usize = 200_000_000;

/// Leaves out bounds at even distances where all spans between them would be too many to try. What is found in the
/// others is still a proof.
fn thin_out(bounds: &mut Vec<Minute>, demands: usize) {
    let most = (MOST_COMPARISONS / demands.max(1)).isqrt().max(1);
    let every = bounds.len().div_ceil(most).max(1);
    *bounds = bounds.iter().copied().step_by(every).collect();
}
