//! A timetable as rows: each mixer, each deck, each baker, and what lies and waits, with what is there when.

use crate::{LagFrom, MachineId, Minutes, Moment, PoolId, StepId, TimeLagId, Timetable, Work};

/// One row of a picture of the day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChartRow {
    /// What it is a row of.
    pub of: ChartRowOf,
    /// Which of several alike, from 1 on.
    pub number: usize,
    /// What is there, in the order of time; nothing overlaps.
    pub bars: Vec<Bar>,
}

/// What a row is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ChartRowOf {
    /// A machine.
    Machine(MachineId),
    /// One place of a pool. Which baker or deck it is was given out by the row, and may be changed at will.
    Pool(PoolId),
    /// One thing that waits: a tub, a rack of proofing loaves.
    Waiting,
}

/// Something in a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bar {
    /// Its first minute.
    pub from: Moment,
    /// The minute after its last.
    pub until: Moment,
    /// What it is.
    pub of: BarOf,
}

/// What a bar is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BarOf {
    /// A step.
    Step(StepId),
    /// A wait. Waits of several steps for the same one are one bar, until the last of them is over: a levain in its tub.
    TimeLag(TimeLagId),
}

/// The rows of a timetable: machines first, then pools, then what waits.
#[must_use]
pub fn chart_rows(work: &Work, timetable: &Timetable) -> Vec<ChartRow> {
    let machines = (0..work.machines.len()).map(MachineId).map(|id| {
        let on = timetable
            .placements
            .iter()
            .filter(|placement| placement.machine == Some(id) && placement.start < placement.end);
        let bar = |placement: &crate::Placement| Bar {
            from: placement.start,
            until: placement.end,
            of: BarOf::Step(placement.step),
        };
        let mut bars: Vec<Bar> = on.map(bar).collect();
        bars.sort_by_key(|bar| bar.from);
        ChartRow { of: ChartRowOf::Machine(id), number: 1, bars }
    });
    let pools = (0..work.pools.len()).map(PoolId).flat_map(|id| pool_lanes(work, timetable, id));
    machines.chain(pools).chain(waiting_lanes(work, timetable)).collect()
}

/// A bar with the number of rows that it takes.
type Wide = (Bar, usize);

fn pool_lanes(work: &Work, timetable: &Timetable, id: PoolId) -> Vec<ChartRow> {
    let wide = timetable.placed(work).flat_map(|(step, placement)| {
        let needs = placement.needs(step).filter(move |need| need.pool == id && need.length > Minutes::ZERO);
        needs.map(|need| {
            let from = placement.start + need.after;
            let bar = Bar { from, until: from + need.length, of: BarOf::Step(placement.step) };
            (bar, usize::try_from(need.places).unwrap_or(usize::MAX))
        })
    });
    let there = work.pools.get(id.0).map_or(0, crate::Pool::most);
    share_out(wide.collect(), usize::try_from(there).unwrap_or(0), ChartRowOf::Pool(id))
}

fn waiting_lanes(work: &Work, timetable: &Timetable) -> Vec<ChartRow> {
    let mut wide: Vec<Wide> = Vec::new();
    let mut keys: Vec<(StepId, LagFrom)> = Vec::new();
    for (index, time_lag) in work.time_lags.iter().enumerate() {
        let (Some(after), Some(before)) =
            (timetable.placement(time_lag.after), timetable.placement(time_lag.before))
        else {
            continue;
        };
        let from = if time_lag.since == LagFrom::End { after.end } else { after.start };
        let known = keys.iter().position(|key| *key == (time_lag.after, time_lag.since));
        if let Some((bar, _)) = known.and_then(|known| wide.get_mut(known)) {
            bar.until = bar.until.max(before.start);
        } else {
            keys.push((time_lag.after, time_lag.since));
            wide.push((Bar { from, until: before.start, of: BarOf::TimeLag(TimeLagId(index)) }, 1));
        }
    }
    wide.retain(|(bar, _)| bar.from < bar.until);
    share_out(wide, 0, ChartRowOf::Waiting)
}

/// Gives each bar free rows, the first ones that are next to each other if there are any, else the first ones.
fn share_out(mut wide: Vec<Wide>, at_least: usize, of: ChartRowOf) -> Vec<ChartRow> {
    wide.sort_by_key(|(bar, _)| (bar.from, bar.until));
    let mut chart_rows: Vec<Vec<Bar>> = vec![Vec::new(); at_least];
    for (bar, count) in wide {
        let is_free = |row: &Vec<Bar>| row.last().is_none_or(|last| last.until <= bar.from);
        let mut free: Vec<usize> =
            (0..chart_rows.len()).filter(|&row| chart_rows.get(row).is_some_and(is_free)).collect();
        while free.len() < count {
            free.push(chart_rows.len());
            chart_rows.push(Vec::new());
        }
        let is_run =
            |run: &&[usize]| run.windows(2).all(|pair| matches!(pair, [one, next] if one + 1 == *next));
        let run = free.windows(count.max(1)).find(is_run).unwrap_or(&free).to_vec();
        for row in run.into_iter().take(count) {
            chart_rows.get_mut(row).into_iter().for_each(|row| row.push(bar));
        }
    }
    let numbered = chart_rows.into_iter().enumerate();
    numbered.map(|(index, bars)| ChartRow { of, number: index + 1, bars }).collect()
}
