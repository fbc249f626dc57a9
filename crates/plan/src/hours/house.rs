//! What the bakery works with, as machines and pools of the timetable.

use std::collections::BTreeMap;

use levamen_bakery::{Bakery, MixerId, Shift};
use levamen_quantity::{Exact, Mass};
use levamen_timetable::{ClassId, Clock, Machine, Minutes, NoMoment, OpeningHours, PoolId, Step, Work};

use super::{DAYS_AHEAD, Gap, Timed, at, least, skipped};

/// Enough of anything that the bakery does not count.
const ANY: u32 = 1000;

/// The machines and pools of a bakery.
#[derive(Debug, Clone)]
pub struct House {
    /// Who is at the bench.
    pub bakers: PoolId,
    /// The decks of each oven, and how many it has; one at least.
    ovens: Vec<(PoolId, u32)>,
    /// The mixers, each with how long it is cleaned after a dough.
    mixers: BTreeMap<MixerId, (ClassId, Minutes)>,
}

impl House {
    /// Adds what the bakery has to a work.
    pub(super) fn new(
        work: &mut Work,
        bakery: &Bakery,
        clock: &Clock,
        gaps: &mut Vec<Gap>,
    ) -> Result<Self, NoMoment> {
        let bakers = work.pool("bakers", "baker", "bakers");
        for shift in &bakery.shifts {
            // A shift of the evening before the first day may still go on in its morning.
            for days in -DAYS_AHEAD - 1..=0 {
                open(work, bakers, shift, clock, days, gaps)?;
            }
        }
        if bakery.shifts.is_empty() {
            gaps.push(Gap::Shifts);
            work.always(bakers, ANY);
        }
        let mut ovens: Vec<(&str, u32)> =
            bakery.ovens.iter().map(|oven| (oven.name.as_str(), oven.decks)).collect();
        ovens.retain(|(_, decks)| *decks > 0);
        if ovens.is_empty() {
            gaps.push(Gap::Oven);
            ovens.push(("oven", ANY));
        }
        let mut add_oven = |(name, decks)| {
            let pool = work.pool(name, "deck", "decks");
            work.always(pool, decks);
            (pool, decks)
        };
        let ovens = ovens.into_iter().map(&mut add_oven).collect();
        let mut house = Self { bakers, ovens, mixers: BTreeMap::new() };
        house.add_mixers(work, bakery);
        Ok(house)
    }

    fn add_mixers(&mut self, work: &mut Work, bakery: &Bakery) {
        for (id, mixer) in MixerId::all().zip(&bakery.mixers) {
            let class = work.class(&mixer.name);
            for number in 1..=mixer.count.min(ANY) {
                let name =
                    if mixer.count == 1 { mixer.name.clone() } else { format!("{} {number}", mixer.name) };
                // The batches were made to its measure already, and a batch under its least was told.
                work.machine(Machine { name, class, least: Mass::ZERO, most: endless() });
            }
            let cleaning = mixer.cleaning.as_ref().map(least).unwrap_or_default();
            self.mixers.insert(id, (class, cleaning));
        }
    }

    /// The decks of the largest oven: a load is never over two.
    pub(super) fn largest_oven(&self) -> u32 {
        self.ovens.iter().map(|(_, decks)| *decks).max().unwrap_or(ANY)
    }

    /// A step on so many decks of one oven: of any that has so many.
    pub(super) fn on_decks(&self, step: Step, decks: u32) -> Step {
        let able: Vec<PoolId> =
            self.ovens.iter().filter(|(_, has)| *has >= decks).map(|(pool, _)| *pool).collect();
        match able.as_slice() {
            [oven] => step.with(*oven, decks),
            several => step.with_either(several.iter().map(|oven| (*oven, decks))),
        }
    }

    /// A mixer's class, and how long it is cleaned after a dough.
    pub(super) fn mixer(&self, id: MixerId) -> Option<(ClassId, Minutes)> {
        self.mixers.get(&id).copied()
    }
}

/// More dough than any bakery makes.
fn endless() -> Mass {
    Mass::from_grams(Exact::from(i64::from(u32::MAX)))
}

/// Bakers of a shift on one day. A shift that ends before it begins goes past midnight.
fn open(
    work: &mut Work,
    bakers: PoolId,
    shift: &Shift,
    clock: &Clock,
    days: i64,
    gaps: &mut Vec<Gap>,
) -> Result<(), NoMoment> {
    let last_day = days + i64::from(shift.to <= shift.from);
    let (begins, ends) = (at(clock, days, shift.from)?, at(clock, last_day, shift.to)?);
    let (first, last) = work.span();
    let (from, until) = (begins.max(first), ends.min(last));
    if from < until {
        work.open(bakers, OpeningHours { from, until, places: shift.bakers });
        gaps.extend(skipped(clock, days, shift.from, Timed::ShiftBegins(shift.name.clone())));
        gaps.extend(skipped(clock, last_day, shift.to, Timed::ShiftEnds(shift.name.clone())));
    }
    Ok(())
}
