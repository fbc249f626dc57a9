//! Batches in the order in which they are mixed.

use levamen_formula::StageKind;
use levamen_timetable::{StepId, Timetable};

use super::Hours;
use crate::day::{Day, DayDough};
use crate::split::batch_name;

/// Numbers the batches of each dough by the clock. The sheets let the last batch take what is left in the tubs, so it has
/// to be the one that is mixed last.
pub fn in_order(day: &mut Day, hours: &mut Hours, timetable: &Timetable) {
    for dough in &mut day.doughs {
        if dough.batches.parts.len() > 1 {
            order(dough, hours, timetable);
        }
    }
}

fn order(dough: &mut DayDough, hours: &mut Hours, timetable: &Timetable) {
    let stages = &dough.balance.stages;
    let Some(first) = stages.iter().position(|stage| stage.kind == StageKind::FinalDough) else { return };
    let steps: Option<Vec<StepId>> =
        (first..stages.len()).map(|stage| hours.step(dough.need.dough, stage)).collect();
    let Some(steps) = steps.filter(|steps| steps.len() == dough.batches.parts.len()) else { return };
    let mut order: Vec<usize> = (0..steps.len()).collect();
    order.sort_by_key(|index| steps.get(*index).and_then(|step| Some(timetable.placement(*step)?.start)));
    let name = stages.get(first).map(|stage| stage.name.clone()).unwrap_or_default();
    let name = name.split_once(',').map_or(name.as_str(), |(name, _)| name).to_owned();
    let ordered: Option<Vec<_>> = order
        .iter()
        .map(|index| {
            let stage = dough.balance.stages.get(first + index)?.clone();
            Some((stage, dough.batches.parts.get(*index)?.clone(), *steps.get(*index)?))
        })
        .collect();
    for (number, (stage, part, step)) in ordered.into_iter().flatten().enumerate() {
        if let Some(slot) = dough.balance.stages.get_mut(first + number) {
            *slot = stage;
            slot.name = batch_name(&name, number + 1);
        }
        if let Some(slot) = dough.batches.parts.get_mut(number) {
            *slot = part;
        }
        let mut tasks = hours.tasks.iter_mut();
        if let Some(task) = tasks.find(|task| task.dough == dough.need.dough && task.stage == first + number)
        {
            task.step = step;
        }
        if let Some(job) = hours.work.get(step).map(|step| step.job) {
            hours.work.rename(job, &batch_name(&dough.balance.dough, number + 1));
        }
    }
}
