//! What is set or mixed, one thing after the other: when, in which tub, with how warm a water.

use levamen_bakery::Bakery;
use levamen_balance::{Item, Stage};
use levamen_ferment::{Answer, Factors, Pour, Refusal, pick, pour, room, volume};
use levamen_formula::StageKind;
use levamen_quantity::{ClockTime, Exact, Mass, Temperature, TemperatureDifference, TemperatureUnit, Volume};
use levamen_timetable::{Moment, Timetable};

use crate::day::{Day, DayDough};
use crate::hours::Hours;

/// A stage that is set, or a batch that is mixed.
#[derive(Debug, Clone)]
pub struct Setting {
    /// The dough: its index in [`Day::doughs`].
    pub dough: usize,
    /// The stage: its index in the balance of the dough.
    pub stage: usize,
    /// When; `None` without a timetable, and for a stage that is nothing but another dough.
    pub at: Option<Moment>,
    /// The tubs that a stage that ferments stands in, by their index in [`Bakery::tubs`], and how many of them; `None` for
    /// what does not ferment, and where the bakery names no tubs.
    pub tubs: Option<(usize, u32)>,
    /// How warm the water is poured, by the trade's rule; `None` where the bakery does not say how warm it wants the
    /// dough, or how warm its flour and its room are.
    pub water: Option<Result<Answer<Pour>, Refusal>>,
}

/// Everything that a day sets and mixes, in the order of time; without a timetable, in the order of the doughs.
#[must_use]
pub fn settings(bakery: &Bakery, day: &Day, hours: &Hours, timetable: Option<&Timetable>) -> Vec<Setting> {
    let mut settings = Vec::new();
    for (index, dough) in day.doughs.iter().enumerate() {
        for stage in 0..dough.balance.stages.len() {
            let step = hours.step(dough.need.dough, stage);
            let at = step.and_then(|step| Some(timetable?.entry(step)?.start));
            settings.extend(setting(bakery, hours, dough, index, stage, at));
        }
    }
    // What has no time stands last; a stable sort leaves the order of the doughs otherwise.
    settings.sort_by_key(|setting| setting.at.map_or((true, 0), |at| (false, at.minutes())));
    settings
}

fn setting(
    bakery: &Bakery,
    hours: &Hours,
    dough: &DayDough,
    index: usize,
    stage: usize,
    at: Option<Moment>,
) -> Option<Setting> {
    let set = dough.balance.stages.get(stage)?;
    let water = at.and_then(|at| hours.clock.at(at)).and_then(|at| {
        let time = ClockTime::new(u16::try_from(at.hour()).ok()?, u16::try_from(at.minute()).ok()?)?;
        water(bakery, dough, set, time)
    });
    Some(Setting { dough: index, stage, at, tubs: tubs(bakery, dough, set), water })
}

/// The tubs for a stage that ferments.
fn tubs(bakery: &Bakery, dough: &DayDough, stage: &Stage) -> Option<(usize, u32)> {
    if !stage.kind.ferments() {
        return None;
    }
    let sizes: Vec<Volume> = bakery.tubs.iter().map(|tub| tub.volume.clone()).collect();
    let made = stage.made.of(&dough.flour);
    let hydration = stage.hydration.as_ref()?;
    let found = pick(&volume(&made, hydration)?, room(hydration), &sizes)?;
    let tub = bakery.tubs.iter().position(|tub| tub.volume == found.size)?;
    Some((tub, found.count))
}

/// The water of a stage at a time of day. A stage is stirred by hand, so nothing warms it; a dough is warmed by its mixer.
fn water(
    bakery: &Bakery,
    dough: &DayDough,
    stage: &Stage,
    time: ClockTime,
) -> Option<Result<Answer<Pour>, Refusal>> {
    let mass = added_water(dough, stage)?;
    let room = bakery.rooms.first()?.at(time);
    let (wanted, friction, pre_ferment) = if stage.kind == StageKind::FinalDough {
        let mixer = dough.batches.mixer.and_then(|index| bakery.mixers.get(index));
        let friction = mixer.and_then(|mixer| mixer.warms.clone())?;
        (bakery.method(dough.need.dough)?.dough_at.clone()?, friction, warmth_of_pre_ferments(dough, stage))
    } else {
        // A scald takes boiling water, and a soaker cold water: neither has to be fit for yeast.
        if !stage.kind.ferments() {
            return None;
        }
        let still = TemperatureDifference::from_unit(&Exact::ZERO, TemperatureUnit::Celsius);
        (stage.ripens.as_ref()?.temperature.clone()?, still, None)
    };
    let flour = bakery.settings.flour_store.clone()?;
    let factors = Factors { dough: wanted, flour, room, pre_ferment };
    Some(pour(factors.water(&friction), &mass, bakery.settings.tap.as_ref()))
}

/// The water that is weighed into a stage; `None` without any.
fn added_water(dough: &DayDough, stage: &Stage) -> Option<Mass> {
    let is_water = |item: &Item| matches!(item, Item::Ingredient { is_water: true, .. });
    let lines = stage.lines.iter().filter(|line| is_water(&line.item));
    let water: Exact = lines.map(|line| line.share.fraction()).sum();
    water.is_positive().then(|| Mass::from_grams(&water * dough.flour.grams()))
}

/// How warm the first pre-ferment is that goes into a dough: as warm as it ripened.
fn warmth_of_pre_ferments(dough: &DayDough, stage: &Stage) -> Option<Temperature> {
    stage.lines.iter().find_map(|line| {
        let Item::Stage(index) = line.item else { return None };
        let taken = dough.balance.stages.get(index).filter(|taken| taken.kind.ferments())?;
        taken.ripens.as_ref()?.temperature.clone()
    })
}
