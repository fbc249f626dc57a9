//! The stages of a dough: set so long before what they go into.

use levamen_balance::{BalancedItem, Ripening};
use levamen_formula::StageKind;
use levamen_timetable::{JobId, LagFrom, Minutes, Step, StepId};

use super::doughs::Doughs;
use super::{SETTING, least, most};
use crate::day::DayDough;

impl Doughs<'_> {
    /// Adds the stages of a dough, the last first, so that what each goes into is there already.
    pub(super) fn stages(&mut self, dough: &DayDough, mixes: &[(JobId, StepId)]) {
        let stages = &dough.balance.stages;
        let first =
            stages.iter().position(|stage| stage.kind == StageKind::FinalDough).unwrap_or(stages.len());
        // The step in which each stage is set; a batch, in which it is mixed.
        let mut steps: Vec<Option<StepId>> = vec![None; stages.len()];
        for (slot, (_, step)) in steps.iter_mut().skip(first).zip(mixes) {
            *slot = Some(*step);
        }
        for index in (0..first).rev() {
            let Some(stage) = stages.get(index) else { continue };
            let window = window(stage.ripens.as_ref());
            let takers: Vec<StepId> = stages
                .iter()
                .zip(&steps)
                .filter(|(taker, _)| taker.lines.iter().any(|line| line.item == BalancedItem::Stage(index)))
                .filter_map(|(_, step)| *step)
                .collect();
            let ahead = self.made_ahead(dough, &stage.name);
            // A stage that is nothing but another dough is set when that is mixed.
            let is_dough = !ahead.is_empty() && stage.lines.len() == 1;
            if !is_dough {
                let step = self.set(dough, &stage.name);
                self.task(dough, index, step);
                for taker in &takers {
                    self.wait("ripens", step, LagFrom::Start, *taker, window);
                }
                if let Some(slot) = steps.get_mut(index) {
                    *slot = Some(step);
                }
            }
            let takers =
                if is_dough { takers } else { steps.get(index).copied().flatten().into_iter().collect() };
            let window = if is_dough { window } else { (Minutes::ZERO, None) };
            for (step, taker) in ahead.iter().flat_map(|step| takers.iter().map(move |taker| (step, taker))) {
                self.wait("ripens", *step, LagFrom::Start, *taker, window);
            }
        }
    }

    /// A baker sets a stage.
    fn set(&mut self, dough: &DayDough, stage: &str) -> StepId {
        let job = self.work.job(&format!("{stage} of {}", dough.balance.dough));
        let step = Step::new(job, "set", SETTING).with(self.house.bakers, 1);
        self.work.step(step)
    }

    /// The steps in which the dough is mixed that a stage is made of.
    fn made_ahead(&self, dough: &DayDough, stage: &str) -> Vec<StepId> {
        let sources = self.day.doughs.iter().filter(|source| {
            let mut taken = source.need.taken.iter();
            taken.any(|taken| taken.by == dough.need.dough && !taken.is_base && taken.stage == stage)
        });
        sources.filter_map(|source| self.mixes.get(&source.need.dough)).flatten().copied().collect()
    }
}

/// How long a stage stands before it is used: from its least to [`Ripening::until`]; where its text says no time, as long as
/// suits the day.
fn window(ripens: Option<&Ripening>) -> (Minutes, Option<Minutes>) {
    let Some(ripens) = ripens else { return (Minutes::ZERO, None) };
    let from = least(&ripens.least);
    (from, Some(most(from, &ripens.until())))
}
