//! Steps that hang together by time lags, laid out in time at the least cost.
//!
//! Without anything to compete for, steps that form a tree are laid out exactly by dynamic programming from the
//! leaves to the root: the best of each branch for every minute of the step that it hangs on, with the least over a
//! sliding window in constant time a minute. The search places a job among others this way, and the bound prices
//! the resources and lays out the whole day.

use std::collections::VecDeque;

use crate::grid::{GridTimeLag, Minute, TimeGrid};
use crate::id_vec::{Id as _, IdVec, NodeId};
use crate::{StepId, TimeLagId};

/// The cost of a minute at which a step cannot begin.
pub const BLOCKED: i64 = i64::MAX / 4;

/// A forest of steps.
#[derive(Debug, Clone, Default)]
pub struct LagForest {
    /// Parents before their children.
    nodes: IdVec<NodeId, Node>,
}

#[derive(Debug, Clone, Copy, Default)]
struct Node {
    step: StepId,
    /// The node that it hangs on and the time lag between them; `None` of a root.
    parent: Option<(NodeId, TimeLagId)>,
}

/// What a step costs at each minute, from its first possible one on.
#[derive(Debug, Clone, Default)]
pub struct StartCosts {
    pub low: Minute,
    pub at: Vec<i64>,
}

/// The cheapest layout.
#[derive(Debug, Clone)]
pub struct CheapestLayout {
    pub cost: i64,
    /// Steps with their starts, parents before their children.
    pub starts: Vec<(StepId, Minute)>,
}

impl LagForest {
    /// A forest that spans some steps. Waits that would close a circle are left out.
    pub fn spanning(grid: &TimeGrid, steps: &[StepId]) -> Self {
        let mut is_wanted = IdVec::filled(false, grid.steps.len());
        for &step in steps {
            is_wanted[step] = true;
        }
        let mut roots = steps.to_vec();
        // What is due has the clearest cost, so it is placed first; among others the latest.
        roots.sort_by_key(|&step| (grid.steps[step].due.is_none(), -grid.steps[step].high, step));
        let mut nodes: IdVec<NodeId, Node> = IdVec::default();
        for root in roots {
            if !std::mem::take(&mut is_wanted[root]) {
                continue;
            }
            let mut next = nodes.push(Node { step: root, parent: None });
            while let Some(&Node { step, .. }) = nodes.get(next) {
                for &time_lag in &grid.time_lags_of[step] {
                    let other = grid.time_lags[time_lag].other(step);
                    if std::mem::take(&mut is_wanted[other]) {
                        nodes.push(Node { step: other, parent: Some((next, time_lag)) });
                    }
                }
                next = NodeId::of_place(next.place() + 1);
            }
        }
        Self { nodes }
    }

    /// The steps, parents before their children.
    pub fn steps(&self) -> impl Iterator<Item = StepId> {
        self.nodes.iter().map(|node| node.step)
    }

    /// The cheapest layout, where each step costs what `costs` says and each minute of waiting beyond the least
    /// costs `per_minute`; of equal ones that in which branches begin latest. `None` if there is none.
    pub fn cheapest_layout(
        &self,
        grid: &TimeGrid,
        per_minute: i64,
        mut costs: impl FnMut(StepId) -> StartCosts,
    ) -> Option<CheapestLayout> {
        let mut tables: IdVec<NodeId, StartCosts> = self.nodes.iter().map(|node| costs(node.step)).collect();
        let mut choices: IdVec<NodeId, IdVec<Minute, Minute>> =
            IdVec::filled(IdVec::default(), self.nodes.len());
        for child in self.nodes.ids().rev() {
            let node = self.nodes[child];
            let Some((parent, time_lag)) = node.parent else { continue };
            let side = LagSide::new(&grid.time_lags[time_lag], node.step, per_minute);
            let own = std::mem::take(&mut tables[child]);
            choices[child] = side.join(&mut tables[parent], &own).into();
            tables[child] = own;
        }
        let (mut cost, mut starts): (i64, IdVec<NodeId, (StepId, Minute)>) = (0, IdVec::default());
        for (number, node) in self.nodes.with_ids() {
            let start = match node.parent {
                None => {
                    let table = &tables[number];
                    let (least, start) = least(table)?;
                    cost += least;
                    start
                }
                Some((parent, _)) => choices[number][starts[parent].1 - tables[parent].low],
            };
            starts.push((node.step, start));
        }
        Some(CheapestLayout { cost, starts: starts.iter().copied().collect() })
    }
}

/// The least cost of a table and the latest minute that has it.
fn least(table: &StartCosts) -> Option<(i64, Minute)> {
    let costs = table.at.iter().zip(table.low..).filter(|(cost, _)| **cost < BLOCKED);
    costs.map(|(cost, minute)| (*cost, minute)).min_by_key(|&(cost, minute)| (cost, -minute))
}

/// How a child's start follows from its parent's: it is in `parent + first..=parent + last`, and one minute later
/// changes the waiting by `slope`.
struct LagSide {
    first: Minute,
    last: Minute,
    slope: i64,
    /// What the least of the time lag takes off.
    least: i64,
}

impl LagSide {
    fn new(time_lag: &GridTimeLag, child: StepId, per_minute: i64) -> Self {
        let least = per_minute * time_lag.least;
        if time_lag.after == child {
            Self { first: -time_lag.most, last: -time_lag.least, slope: -per_minute, least }
        } else {
            Self { first: time_lag.least, last: time_lag.most, slope: per_minute, least }
        }
    }

    /// Adds the best of the child to every minute of the parent, and says which start of the child that is.
    fn join(&self, parent: &mut StartCosts, child: &StartCosts) -> Vec<Minute> {
        // The best starts so far, in order: each costs more and is later than the one before it.
        let mut best: VecDeque<(i64, Minute)> = VecDeque::new();
        let mut choices = Vec::with_capacity(parent.at.len());
        let mut coming = (child.low..).zip(&child.at).peekable();
        for (minute, cost) in (parent.low..).zip(&mut parent.at) {
            while let Some((start, &own)) = coming.next_if(|(start, _)| *start <= minute + self.last) {
                let sloped = own + self.slope * start;
                if own < BLOCKED {
                    while best.back().is_some_and(|(other, _)| *other >= sloped) {
                        best.pop_back();
                    }
                    best.push_back((sloped, start));
                }
            }
            while best.front().is_some_and(|(_, start)| *start < minute + self.first) {
                best.pop_front();
            }
            match best.front() {
                Some(&(sloped, start)) if *cost < BLOCKED => {
                    *cost += sloped - self.slope * minute - self.least;
                    choices.push(start);
                }
                _ => {
                    *cost = BLOCKED;
                    choices.push(minute);
                }
            }
        }
        choices
    }
}
