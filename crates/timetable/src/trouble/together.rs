//! Limits that cannot all hold, as few as can be shown.
//!
//! The deletion filter (J. W. Chinneck, E. W. Dravnieks, "Locating minimal infeasible constraint sets in linear
//! programs", 1991, from memory): each limit is dropped in turn, and stays out if there is no timetable without it
//! either. It asks for a proof every time, so it is for small works.

use crate::exhaust::{Tried, any};
use crate::grid::Grid;
use crate::trouble::Limit;
use crate::units::units;
use crate::windows::Windows;
use crate::{ClassId, PoolId, StepId, WaitId, Work};

/// As few limits of a work without a timetable as can be shown to leave none.
pub fn together(work: &Work, placings: usize) -> Vec<Limit> {
    let mut without = work.clone();
    let mut needed = Vec::new();
    for limit in limits(work) {
        let less = limit.dropped(&without);
        if is_impossible(&less, placings) {
            without = less;
        } else {
            needed.push(limit);
        }
    }
    needed
}

fn is_impossible(work: &Work, placings: usize) -> bool {
    let grid = Grid::new(work);
    let Ok(root) = Windows::tightened(&grid) else { return true };
    any(&grid, &root, &units(&grid, work.jobs.len()), placings) == Tried::Nothing
}

/// Every limit that a work has: windows first, so that what is left names resources where it can.
fn limits(work: &Work) -> Vec<Limit> {
    let steps = || work.step_ids().zip(&work.steps);
    let waits = work.waits.iter().enumerate().filter(|(_, wait)| wait.most.is_some());
    let mosts = waits.map(|(index, _)| Limit::Most(WaitId(index)));
    let befores = steps().filter(|(_, step)| step.not_before.is_some()).map(|(id, _)| Limit::NotBefore(id));
    let dues = steps().filter(|(_, step)| step.out_by.is_some()).map(|(id, _)| Limit::OutBy(id));
    let pools = (0..work.pools.len()).map(|pool| Limit::Pool(PoolId(pool)));
    let classes = (0..work.classes.len()).map(|class| Limit::Machines(ClassId(class)));
    mosts.chain(befores).chain(dues).chain(pools).chain(classes).collect()
}

impl Limit {
    /// A work without this limit.
    fn dropped(self, work: &Work) -> Work {
        let mut less = work.clone();
        match self {
            Self::Pool(pool) => {
                less.steps.iter_mut().for_each(|step| step.needs.retain(|need| need.pool != pool));
            }
            Self::Machines(class) => {
                let on = less.steps.iter_mut().map(|step| &mut step.machine);
                on.for_each(|on| *on = on.take().filter(|on| on.class != class));
            }
            Self::NotBefore(StepId(step)) => {
                less.steps.get_mut(step).into_iter().for_each(|step| step.not_before = None);
            }
            Self::OutBy(StepId(step)) => {
                less.steps.get_mut(step).into_iter().for_each(|step| step.out_by = None);
            }
            Self::Most(WaitId(wait)) => {
                less.waits.get_mut(wait).into_iter().for_each(|wait| wait.most = None);
            }
        }
        less
    }
}
