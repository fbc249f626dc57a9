//! The doughs of a day as jobs: stages, batches, and the loads of the oven.

use std::collections::BTreeMap;

use levamen_bakery::{Bakery, Method, Product};
use levamen_formula::{FormulaId, StageKind};
use levamen_quantity::ClockTime;
use levamen_timetable::{
    Clock, JobId, LagFrom, MOST_STEPS, Minutes, Moment, NoMoment, Step, StepId, TimeLag, Work,
};

use super::house::House;
use super::{Gap, MIXING, OUT_BY_HOUR, Task, Timed, at, least, most, skipped};
use crate::allot::{Portion, allot};
use crate::day::{Day, DayDough};
use crate::stages::{DayStageId, batch_name};

/// A base may rest so long before the doughs that are made with it are mixed, where its method says no bulk: our own
/// choice.
const BASE_RESTS: Minutes = Minutes::hours(1);

/// How long a baker stands at a mixer that is filled, and at an oven that is loaded or emptied: common practice, no
/// source.
const HANDS_ON: Minutes = Minutes::new(5);

/// Adds a day's doughs to a work.
pub(super) struct Doughs<'d> {
    pub(super) bakery: &'d Bakery,
    pub(super) day: &'d Day,
    pub(super) house: &'d House,
    pub(super) work: &'d mut Work,
    gaps: &'d mut Vec<Gap>,
    tasks: Vec<Task>,
    /// The steps in which each dough's batches are mixed.
    pub(super) mixes: BTreeMap<FormulaId, Vec<StepId>>,
}

impl<'d> Doughs<'d> {
    pub(super) fn new(
        bakery: &'d Bakery,
        day: &'d Day,
        house: &'d House,
        work: &'d mut Work,
        gaps: &'d mut Vec<Gap>,
    ) -> Self {
        Self { bakery, day, house, work, gaps, tasks: Vec::new(), mixes: BTreeMap::new() }
    }

    pub(super) fn finish(self) -> Vec<Task> {
        self.tasks
    }

    /// Adds every dough, each after those that it takes from.
    pub(super) fn add_all(&mut self, clock: &Clock) -> Result<(), NoMoment> {
        let day = self.day;
        for dough in &day.doughs {
            let mixes = self.mix(dough);
            self.stages(dough, &mixes);
            self.sources(dough, &mixes);
            for (portions, (_, mixed)) in allot(dough).iter().zip(&mixes) {
                for portion in portions {
                    self.pieces(dough, *portion, *mixed, clock)?;
                }
            }
            self.mixes.insert(dough.need.dough, mixes.into_iter().map(|(_, step)| step).collect());
        }
        Ok(())
    }

    pub(super) fn task(&mut self, dough: &DayDough, stage: usize, step: StepId) {
        self.tasks.push(Task { id: DayStageId { dough: dough.need.dough, stage }, step });
    }

    fn method(&self, dough: &DayDough) -> Option<&'d Method> {
        self.bakery.method(dough.need.dough)
    }

    /// How long a dough is mixed, without cleaning the mixer.
    fn mixing(&mut self, dough: &DayDough) -> Minutes {
        match self.method(dough).and_then(|method| method.mixes.as_ref()) {
            Some(mixes) => least(mixes),
            None if dough.batches.mixer.is_none() => MIXING,
            None => {
                self.gaps.push(Gap::Mixing(dough.balance.dough.clone(), MIXING));
                MIXING
            }
        }
    }

    /// A job for each batch, with the step in which it is mixed.
    fn mix(&mut self, dough: &DayDough) -> Vec<(JobId, StepId)> {
        let count = dough.batches.parts.len();
        let first = dough.balance.stages.iter().position(|stage| stage.kind == StageKind::FinalDough);
        let length = self.mixing(dough);
        let mut mixes = Vec::with_capacity(count);
        for (index, part) in dough.batches.parts.iter().enumerate() {
            let name = &dough.balance.dough;
            let job = self.work.job(&if count == 1 { name.clone() } else { batch_name(name, index + 1) });
            let mixer = dough.batches.mixer.and_then(|mixer| self.house.mixer(mixer));
            let cleaning = mixer.map_or(Minutes::ZERO, |(_, cleaning)| cleaning);
            let whole = Minutes::new(length.count().saturating_add(cleaning.count()));
            let step = Step::new(job, "mix", whole).with_for(
                self.house.bakers,
                1,
                Minutes::ZERO,
                HANDS_ON.min(whole),
            );
            let step = match mixer {
                Some((class, _)) => step.on(class, part.clone()),
                None => step,
            };
            let step = self.work.step(step);
            if let Some(first) = first {
                self.task(dough, first + index, step);
            }
            mixes.push((job, step));
        }
        self.work
            .count_more_steps(dough.batches.count.saturating_sub(u64::try_from(count).unwrap_or(u64::MAX)));
        mixes
    }

    /// The time that a dough rests in bulk, counted from the start of its mixing.
    fn bulk(&mut self, dough: &DayDough) -> (Minutes, Option<Minutes>) {
        let mixing = self.mixing(dough).count();
        let after = |minutes: Minutes| Minutes::new(minutes.count().saturating_add(mixing));
        match self.method(dough).and_then(|method| method.bulk.as_ref()) {
            Some((from, to)) => {
                let from = least(from);
                (after(from), Some(after(most(from, to))))
            }
            None => (after(Minutes::ZERO), Some(after(BASE_RESTS))),
        }
    }

    /// What other doughs of the day go into this one, straight into its batches: bases. What goes into a stage that
    /// is built ahead ripens as that stage says.
    fn sources(&mut self, dough: &DayDough, mixes: &[(JobId, StepId)]) {
        let day = self.day;
        for source in &day.doughs {
            let takes = source.need.taken.iter().any(|taken| taken.by == dough.need.dough && taken.is_base);
            let Some(earlier) = self.mixes.get(&source.need.dough).filter(|_| takes).cloned() else {
                continue;
            };
            let (from, to) = self.bulk(source);
            for after in earlier {
                for (_, before) in mixes {
                    self.wait("rest", after, LagFrom::Start, *before, (from, to));
                }
            }
        }
    }

    /// Shaping, proof and baking of the pieces of one batch, in loads that the oven takes.
    fn pieces(
        &mut self,
        dough: &DayDough,
        portion: Portion,
        mixed: StepId,
        clock: &Clock,
    ) -> Result<(), NoMoment> {
        let Some(product) = self.bakery.product(portion.product) else { return Ok(()) };
        self.tell_gaps(product);
        let bulk = self.bulk(dough);
        let out_by = self.out_by(product, clock)?;
        let deck = product.deck.map_or(portion.pieces, u64::from).max(1);
        let load = deck.saturating_mul(u64::from(self.house.largest_oven()));
        let loads = portion.pieces.div_ceil(load).max(1);
        // The first load says when its batch is mixed at the latest; of more than a timetable holds the others say no more.
        let room = MOST_STEPS.saturating_sub(self.work.steps().len()) / 2;
        let listed = loads.min(u64::try_from(room).unwrap_or(u64::MAX)).max(1);
        self.work.count_more_steps((loads - listed).saturating_mul(2));
        for number in 0..listed {
            let pieces = portion.pieces.saturating_sub(number.saturating_mul(load)).min(load);
            let decks = u32::try_from(pieces.div_ceil(deck)).unwrap_or(u32::MAX);
            let name = format!("{pieces} {}", product.name);
            let job = self.work.job(&if loads == 1 { name } else { format!("{name}, load {}", number + 1) });
            let length = product.shaping.as_ref().map(least).unwrap_or_default();
            let shape = self.work.step(Step::new(job, "shape", length).with(self.house.bakers, 1));
            self.wait("bulk", mixed, LagFrom::Start, shape, bulk);
            let bake = self.bake(job, product, decks).deadline(out_by);
            let bake = self.work.step(bake);
            let proof = product.proof.as_ref().map(|(from, to)| {
                let from = least(from);
                (from, Some(most(from, to)))
            });
            self.wait("proof", shape, LagFrom::End, bake, proof.unwrap_or((Minutes::ZERO, None)));
        }
        Ok(())
    }

    fn bake(&self, job: JobId, product: &Product, decks: u32) -> Step {
        let length = product.bakes.as_ref().map(least).unwrap_or_default();
        let (bakers, hands) = (self.house.bakers, HANDS_ON.min(length));
        let end = Minutes::new(length.count().saturating_sub(hands.count()));
        let step = self.house.on_decks(Step::new(job, "bake", length), decks);
        step.with_for(bakers, 1, Minutes::ZERO, hands).with_for(bakers, 1, end, hands)
    }

    /// When the last piece of a product has to leave the oven: it is out when it is cold.
    fn out_by(&mut self, product: &Product, clock: &Clock) -> Result<Moment, NoMoment> {
        let said = product.out_by.or(self.bakery.settings.out_by);
        let usual = ClockTime::from_minutes(OUT_BY_HOUR * 60);
        if said.is_none() {
            self.gaps.push(Gap::OutBy(usual));
        }
        let time = said.unwrap_or(usual);
        let out = at(clock, 0, time)?;
        self.gaps.extend(skipped(clock, 0, time, Timed::Out(product.name.clone())));
        Ok(out - product.cools.as_ref().map(least).unwrap_or_default())
    }

    fn tell_gaps(&mut self, product: &Product) {
        let steps = [
            ("shaping", product.shaping.is_none()),
            ("proof", product.proof.is_none()),
            ("bakes", product.bakes.is_none()),
        ];
        let missing: Vec<&str> =
            steps.into_iter().filter(|(_, lacks)| *lacks).map(|(name, _)| name).collect();
        if !missing.is_empty() {
            self.gaps.push(Gap::Product(product.name.clone(), missing));
        }
    }

    pub(super) fn wait(
        &mut self,
        name: &str,
        after: StepId,
        since: LagFrom,
        before: StepId,
        (least, most): (Minutes, Option<Minutes>),
    ) {
        self.work.time_lag(TimeLag { name: name.to_owned(), after, since, before, least, most });
    }
}
