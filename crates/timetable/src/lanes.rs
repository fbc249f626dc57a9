//! A timetable as lanes: each mixer, each deck, each baker, and what lies and waits, with what is there when.

use crate::{MachineId, Minutes, Moment, PoolId, Since, StepId, Timetable, WaitId, Work};

/// One row of a picture of the day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lane {
    /// What it is a lane of.
    pub of: LaneOf,
    /// Which of several alike, from 1 on.
    pub number: usize,
    /// What is there, in the order of time; nothing overlaps.
    pub bars: Vec<Bar>,
}

/// What a lane is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LaneOf {
    /// A machine.
    Machine(MachineId),
    /// One place of a pool. Which baker or deck it is was given out by the lane, and may be changed at will.
    Pool(PoolId),
    /// One thing that waits: a tub, a rack of proofing loaves.
    Waiting,
}

/// Something in a lane.
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
    Wait(WaitId),
}

/// The lanes of a timetable: machines first, then pools, then what waits.
#[must_use]
pub fn lanes(work: &Work, timetable: &Timetable) -> Vec<Lane> {
    let machines = (0..work.machines.len()).map(MachineId).map(|id| {
        let on =
            timetable.entries.iter().filter(|entry| entry.machine == Some(id) && entry.start < entry.end);
        let bar =
            |entry: &crate::Entry| Bar { from: entry.start, until: entry.end, of: BarOf::Step(entry.step) };
        let mut bars: Vec<Bar> = on.map(bar).collect();
        bars.sort_by_key(|bar| bar.from);
        Lane { of: LaneOf::Machine(id), number: 1, bars }
    });
    let pools = (0..work.pools.len()).map(PoolId).flat_map(|id| pool_lanes(work, timetable, id));
    machines.chain(pools).chain(waiting_lanes(work, timetable)).collect()
}

/// A bar with the number of lanes that it takes.
type Wide = (Bar, usize);

fn pool_lanes(work: &Work, timetable: &Timetable, id: PoolId) -> Vec<Lane> {
    let wide = work.steps.iter().zip(&timetable.entries).flat_map(|(step, entry)| {
        let needs = step.needs.iter().filter(move |need| need.pool == id && need.length > Minutes::ZERO);
        needs.map(|need| {
            let from = entry.start + need.after;
            let bar = Bar { from, until: from + need.length, of: BarOf::Step(entry.step) };
            (bar, usize::try_from(need.places).unwrap_or(usize::MAX))
        })
    });
    let there = work.pools.get(id.0).map_or(0, crate::Pool::most);
    share_out(wide.collect(), usize::try_from(there).unwrap_or(0), LaneOf::Pool(id))
}

fn waiting_lanes(work: &Work, timetable: &Timetable) -> Vec<Lane> {
    let mut wide: Vec<Wide> = Vec::new();
    let mut keys: Vec<(StepId, Since)> = Vec::new();
    for (index, wait) in work.waits.iter().enumerate() {
        let (Some(after), Some(before)) = (timetable.entry(wait.after), timetable.entry(wait.before)) else {
            continue;
        };
        let from = if wait.since == Since::End { after.end } else { after.start };
        let known = keys.iter().position(|key| *key == (wait.after, wait.since));
        if let Some((bar, _)) = known.and_then(|known| wide.get_mut(known)) {
            bar.until = bar.until.max(before.start);
        } else {
            keys.push((wait.after, wait.since));
            wide.push((Bar { from, until: before.start, of: BarOf::Wait(WaitId(index)) }, 1));
        }
    }
    wide.retain(|(bar, _)| bar.from < bar.until);
    share_out(wide, 0, LaneOf::Waiting)
}

/// Gives each bar free lanes, the first ones that are next to each other if there are any, else the first ones.
fn share_out(mut wide: Vec<Wide>, at_least: usize, of: LaneOf) -> Vec<Lane> {
    wide.sort_by_key(|(bar, _)| (bar.from, bar.until));
    let mut lanes: Vec<Vec<Bar>> = vec![Vec::new(); at_least];
    for (bar, count) in wide {
        let is_free = |lane: &Vec<Bar>| lane.last().is_none_or(|last| last.until <= bar.from);
        let mut free: Vec<usize> =
            (0..lanes.len()).filter(|&lane| lanes.get(lane).is_some_and(is_free)).collect();
        while free.len() < count {
            free.push(lanes.len());
            lanes.push(Vec::new());
        }
        let is_run =
            |run: &&[usize]| run.windows(2).all(|pair| matches!(pair, [one, next] if one + 1 == *next));
        let run = free.windows(count.max(1)).find(is_run).unwrap_or(&free).to_vec();
        for lane in run.into_iter().take(count) {
            lanes.get_mut(lane).into_iter().for_each(|lane| lane.push(bar));
        }
    }
    let numbered = lanes.into_iter().enumerate();
    numbered.map(|(index, bars)| Lane { of, number: index + 1, bars }).collect()
}
