//! Batches in the order in which they are mixed.

use std::collections::BTreeMap;

use levamen_balance::{Balance, BalancedStage};
use levamen_formula::{FormulaId, StageKind};
use levamen_quantity::Mass;
use levamen_timetable::{JobId, StepId, Timetable};

use super::{Hours, Task};
use crate::batches::Batches;
use crate::day::{Day, DayDough};
use crate::stages::{DayStageId, batch_name};

/// The day and its hours with the batches of each dough numbered by the clock. The sheets let the last batch take what is
/// left in the tubs, so it has to be the one that is mixed last.
#[must_use]
pub fn in_mixing_order(day: Day, hours: Hours, timetable: &Timetable) -> (Day, Hours) {
    let several = day.doughs.iter().filter(|dough| dough.batches.parts.len() > 1);
    let orders = several
        .filter_map(|dough| Some((dough.need.dough, MixingOrder::new(dough, &hours, timetable)?)))
        .collect::<BTreeMap<FormulaId, MixingOrder>>();
    let doughs = day.doughs.into_iter().map(|dough| match orders.get(&dough.need.dough) {
        Some(order) => order.of_dough(dough),
        None => dough,
    });
    let tasks = hours.tasks.into_iter().map(|task| match orders.get(&task.id.dough) {
        Some(order) => order.of_task(task),
        None => task,
    });
    let names = orders.values().flat_map(|order| &order.batches).filter_map(|batch| batch.job.clone());
    let work = names.fold(hours.work, |work, (job, name)| work.renamed(job, &name));
    (Day { doughs: doughs.collect(), ..day }, Hours { work, tasks: tasks.collect(), ..hours })
}

/// The batches of a dough in the order in which they are mixed.
struct MixingOrder {
    /// Where the first batch stands among the stages of the dough.
    first: usize,
    batches: Vec<MixedBatch>,
}

/// One batch: its final dough under its new name, its weight, and the step and the job in which it is mixed.
struct MixedBatch {
    stage: BalancedStage,
    part: Mass,
    step: StepId,
    job: Option<(JobId, String)>,
}

impl MixingOrder {
    /// `None` where a batch has no step of its own.
    fn new(dough: &DayDough, hours: &Hours, timetable: &Timetable) -> Option<Self> {
        let stages = &dough.balance.stages;
        let first = stages.iter().position(|stage| stage.kind == StageKind::FinalDough)?;
        let mixed = stages.get(first..)?.iter().zip(&dough.batches.parts).zip(first..);
        let mut batches: Vec<(&Mass, &BalancedStage, StepId)> = mixed
            .map(|((stage, part), index)| {
                let step = hours.step(DayStageId { dough: dough.need.dough, stage: index })?;
                Some((part, stage, step))
            })
            .collect::<Option<_>>()?;
        if batches.len() != dough.batches.parts.len() || batches.len() != stages.len() - first {
            return None;
        }
        // What is left out is mixed after all that is not.
        batches.sort_by_key(|(.., step)| {
            let start = timetable.placement(*step).map(|placement| placement.start);
            (start.is_none(), start)
        });
        let batches = (1..).zip(batches).map(|(number, (part, stage, step))| {
            let name = batch_name(&dough.final_dough, number);
            let job = hours.work.get(step).map(|step| step.job);
            MixedBatch {
                stage: BalancedStage { name, ..stage.clone() },
                part: part.clone(),
                step,
                job: job.map(|job| (job, batch_name(&dough.balance.dough, number))),
            }
        });
        Some(Self { first, batches: batches.collect() })
    }

    fn of_dough(&self, dough: DayDough) -> DayDough {
        let ahead = dough.balance.stages.into_iter().take(self.first);
        let stages = ahead.chain(self.batches.iter().map(|batch| batch.stage.clone())).collect();
        let parts = self.batches.iter().map(|batch| batch.part.clone()).collect();
        DayDough {
            balance: Balance { stages, ..dough.balance },
            batches: Batches { parts, ..dough.batches },
            ..dough
        }
    }

    fn of_task(&self, task: Task) -> Task {
        let number = task.id.stage.checked_sub(self.first);
        let batch = number.and_then(|number| self.batches.get(number));
        Task { step: batch.map_or(task.step, |batch| batch.step), ..task }
    }
}
