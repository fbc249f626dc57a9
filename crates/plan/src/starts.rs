//! When what is set, counted back from when bread is out.
//!
//! Each dough is mixed, and each of its stages set, as late as it may be: what ripens, rests, proofs, bakes and cools
//! takes its least time, and nothing waits for a mixer or a baker. The store room goes by this to issue a stage that
//! is set the evening before on the evening before; the bench goes by a timetable.

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_bakery::{Bakery, Method, Product};
use levamen_balance::Item;
use levamen_formula::FormulaId;
use levamen_quantity::{ClockTime, Duration, TimeUnit};

use crate::day::{Day, DayDough};
use crate::needs::Taken;
use crate::pieces::ceiling;

const MINUTES_OF_A_DAY: i64 = 24 * 60;

/// Bread is out by six where the bakery names no time: early enough for a shop that opens at seven (our own choice).
const OUT_BY: i64 = 6 * 60;

/// When something is set: minutes from the midnight before the bread's day, below zero on a day before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Start(i64);

impl Start {
    /// The date, for bread of a day; `None` past the calendar.
    #[must_use]
    pub fn date(self, day: Date) -> Option<Date> {
        let days = jiff::Span::new().try_days(self.0.div_euclid(MINUTES_OF_A_DAY)).ok()?;
        day.checked_add(days).ok()
    }

    /// The time of that date.
    #[must_use]
    pub fn clock(self) -> ClockTime {
        ClockTime::from_minutes(self.0)
    }

    fn before(self, minutes: i64) -> Self {
        Self(self.0.saturating_sub(minutes))
    }
}

/// When the stages of a day's doughs are set, and their batches mixed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Starts {
    of: BTreeMap<FormulaId, Vec<Start>>,
}

impl Starts {
    /// Counts back over a day.
    #[must_use]
    pub fn new(bakery: &Bakery, day: &Day) -> Self {
        let mut starts = Self { of: BTreeMap::new() };
        // What takes stands after what it takes from, and is known first.
        for dough in day.doughs.iter().rev() {
            let mixed = starts.mixed(bakery, day, dough);
            starts.of.insert(dough.need.dough, stages(dough, mixed));
        }
        starts
    }

    /// When a stage of a dough is set; `None` for one that the day does not have. `stage` is its index in the
    /// balance of the [`DayDough`].
    #[must_use]
    pub fn of(&self, dough: FormulaId, stage: usize) -> Option<Start> {
        self.of.get(&dough)?.get(stage).copied()
    }

    /// When a dough's first batch has to be mixed.
    fn mixed(&self, bakery: &Bakery, day: &Day, dough: &DayDough) -> Start {
        let method = bakery.method(dough.need.dough);
        let bench = worked(method);
        let products = dough.need.pieces.iter().filter_map(|pieces| bakery.products.get(pieces.product));
        let products = products.map(|product| out(bakery, Some(product)).before(finished(product) + bench));
        let takers = dough.need.taken.iter().filter_map(|taken| self.taken(day, taken, bench));
        products.chain(takers).min().unwrap_or_else(|| out(bakery, None).before(bench))
    }

    /// When a dough has to be mixed for another that takes of it. A base has rested before; what goes into a stage
    /// ripens as that stage says.
    fn taken(&self, day: &Day, taken: &Taken, bench: i64) -> Option<Start> {
        let taker = day.doughs.iter().find(|dough| dough.need.dough == taken.by)?;
        let stage = taker.balance.stages.iter().position(|stage| stage.name == taken.stage);
        // A final dough that is mixed in batches has a stage for each, by another name: the last is as good as any.
        let stage = stage.unwrap_or(taker.balance.stages.len().saturating_sub(1));
        let start = self.of(taken.by, stage)?;
        Some(if taken.is_base { start.before(bench) } else { start })
    }
}

/// When each stage of a dough is set whose batches are mixed at a time.
fn stages(dough: &DayDough, mixed: Start) -> Vec<Start> {
    let stages = &dough.balance.stages;
    let mut starts = vec![mixed; stages.len()];
    for (index, stage) in stages.iter().enumerate().rev() {
        let takes =
            |taker: &levamen_balance::Stage| taker.lines.iter().any(|line| line.item == Item::Stage(index));
        let ripens = stage.ripens.as_ref().map_or(0, |ripens| minutes(&ripens.least));
        let takers = stages.iter().zip(&starts).filter(|(taker, _)| takes(taker));
        let first = takers.map(|(_, start)| start.before(ripens)).min();
        if let (Some(start), Some(first)) = (starts.get_mut(index), first) {
            *start = first;
        }
    }
    starts
}

/// When bread is out.
fn out(bakery: &Bakery, product: Option<&Product>) -> Start {
    let said = product.and_then(|product| product.out_by).or(bakery.settings.out_by);
    Start(said.map_or(OUT_BY, |clock| i64::from(clock.minutes())))
}

/// The least minutes from the start of mixing to dividing.
fn worked(method: Option<&Method>) -> i64 {
    let mixes = method.and_then(|method| method.mixes.as_ref());
    let bulk = method.and_then(|method| method.bulk.as_ref()).map(|(least, _)| least);
    mixes.into_iter().chain(bulk).map(minutes).sum()
}

/// The least minutes from dividing to cold bread.
fn finished(product: &Product) -> i64 {
    let proof = product.proof.as_ref().map(|(least, _)| least);
    let steps = [product.shaping.as_ref(), proof, product.bakes.as_ref(), product.cools.as_ref()];
    steps.into_iter().flatten().map(minutes).sum()
}

/// Whole minutes, rounded up; a time past counting is as long as a year.
fn minutes(time: &Duration) -> i64 {
    let most = 366 * MINUTES_OF_A_DAY;
    i64::try_from(ceiling(&time.in_unit(TimeUnit::Minute))).unwrap_or(most).min(most)
}
