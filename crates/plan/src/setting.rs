//! What is set or mixed, one thing after the other: when, in which tub, with how warm a water.

use levamen_bakery::{Bakery, TubId};
use levamen_balance::BalancedStage;
use levamen_ferment::{
    Answer, Factors, FermentError, Headroom, MixingWater, Tubs, headroom, mixing_water, pick_tubs, volume,
};
use levamen_formula::{Pantry, StageKind};
use levamen_quantity::{ClockTime, Exact, Mass, TemperatureDifference, TemperatureUnit, Volume};
use levamen_timetable::{Moment, Timetable};

use crate::bowl::{Bowl, Warmth};
use crate::day::{Day, DayDough};
use crate::hours::Hours;
use crate::stages::DayStageId;

/// A stage that is set, or a batch that is mixed.
#[derive(Debug, Clone)]
pub struct Setting {
    /// The stage.
    pub id: DayStageId,
    /// Which batch of its dough it is, counted from 1; `None` of a stage ahead, and where the dough is mixed in one.
    pub batch: Option<usize>,
    /// When; `None` without a timetable, and for a stage that is nothing but another dough.
    pub at: Option<Moment>,
    /// The tubs that a stage that ferments stands in, and how many of them; `None` for what does not ferment, and where the
    /// bakery names no tubs or none that hold it.
    pub tubs: Option<(TubId, u32)>,
    /// How warm the water is poured, by the balance of heats; `None` where the bakery does not say how warm it wants the
    /// dough, or how warm its flour and its room are.
    pub water: Option<Result<Answer<MixingWater>, FermentError>>,
}

/// Everything that a day sets and mixes, in the order of time; without a timetable, in the order of the doughs.
#[must_use]
pub fn settings(
    bakery: &Bakery,
    pantry: &Pantry,
    day: &Day,
    hours: &Hours,
    timetable: Option<&Timetable>,
) -> Vec<Setting> {
    let mut settings = Vec::new();
    for dough in &day.doughs {
        for stage in 0..dough.balance.stages.len() {
            let id = DayStageId { dough: dough.need.dough, stage };
            let at = hours.step(id).and_then(|step| Some(timetable?.placement(step)?.start));
            settings.extend(setting(bakery, pantry, hours, dough, id, at));
        }
    }
    // What has no time stands last; a stable sort leaves the order of the doughs otherwise.
    settings.sort_by_key(|setting| setting.at.map_or((true, 0), |at| (false, at.minutes())));
    settings
}

fn setting(
    bakery: &Bakery,
    pantry: &Pantry,
    hours: &Hours,
    dough: &DayDough,
    id: DayStageId,
    at: Option<Moment>,
) -> Option<Setting> {
    let set = dough.balance.stages.get(id.stage)?;
    let water = at.and_then(|at| hours.clock.at(at)).and_then(|at| {
        let time = ClockTime::new(u16::try_from(at.hour()).ok()?, u16::try_from(at.minute()).ok()?)?;
        water(bakery, pantry, dough, set, time)
    });
    Some(Setting { id, batch: dough.batch_number(id.stage), at, tubs: tubs(bakery, dough, set), water })
}

/// What rises in a tub.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RisingStage {
    /// What stands in the tub.
    pub made: Mass,
    /// Its volume when it is fresh.
    pub volume: Volume,
    /// How much room it takes.
    pub room: Headroom,
}

impl RisingStage {
    /// What a stage makes for so much flour of the whole dough; `None` of a stage that does not ferment, and of one of which
    /// nothing says how wet it is.
    #[must_use]
    pub fn of(stage: &BalancedStage, flour: &Mass) -> Option<Self> {
        let hydration = stage.hydration.as_ref().filter(|_| stage.kind.ferments())?;
        let made = stage.made.of(flour);
        Some(Self { volume: volume(&made, hydration)?, room: headroom(hydration), made })
    }

    /// The tubs that it stands in, of those that there are; `None` where none holds it.
    #[must_use]
    pub fn tubs(&self, sizes: &[Volume]) -> Option<Tubs> {
        pick_tubs(&self.volume, self.room, sizes)
    }
}

/// The tubs for a stage that ferments.
fn tubs(bakery: &Bakery, dough: &DayDough, stage: &BalancedStage) -> Option<(TubId, u32)> {
    let sizes: Vec<Volume> = bakery.tubs.iter().map(|tub| tub.volume.clone()).collect();
    let found = RisingStage::of(stage, &dough.flour)?.tubs(&sizes)?;
    let (tub, _) = TubId::all().zip(&sizes).find(|(_, size)| **size == found.size)?;
    Some((tub, found.count))
}

/// The water of a stage at a time of day, by heats: a cold piece of old dough, a spoon of seed and a wet levain each count
/// by what they weigh. A stage is stirred by hand, so nothing warms it; a dough is warmed by its mixer.
fn water(
    bakery: &Bakery,
    pantry: &Pantry,
    dough: &DayDough,
    set: &BalancedStage,
    time: ClockTime,
) -> Option<Result<Answer<MixingWater>, FermentError>> {
    let room = bakery.rooms.first()?.at(time)?;
    let flour = bakery.settings.flour_store.clone()?;
    let (wanted, rise) = if set.kind == StageKind::FinalDough {
        let mixer = dough.batches.mixer.and_then(|id| bakery.mixer(id));
        let friction = mixer.and_then(|mixer| mixer.warms.clone())?;
        let wanted = bakery.method(dough.need.dough)?.dough_at.clone()?;
        let factors =
            Factors { dough: wanted.clone(), flour: flour.clone(), room: room.clone(), pre_ferment: None };
        (wanted, factors.rise(&friction))
    } else {
        // A scald takes boiling water, and a soaker cold water: neither has to be fit for yeast.
        if !set.kind.ferments() {
            return None;
        }
        let still = TemperatureDifference::from_unit(&Exact::ZERO, TemperatureUnit::Celsius);
        (set.ripens.as_ref()?.temperature.clone()?, still)
    };
    let warmth = Warmth { flour: &flour, room: &room, pre_ferment: None };
    let bowl = match Bowl::of(&dough.balance, set, &dough.flour, pantry, warmth) {
        Ok(bowl) if bowl.water == Mass::ZERO => return None,
        Ok(bowl) => bowl,
        Err(fault) => return Some(Err(fault)),
    };
    let at = bowl.water(&wanted, &rise);
    Some(at.and_then(|at| mixing_water(at, &bowl.water, bakery.settings.tap.as_ref())))
}
