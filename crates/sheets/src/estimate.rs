//! What models of a ferment say, as it is read and poured: times to five minutes, which is finer than any of them knows, and ice
//! to the gram. The figure that was rounded stays beside each, for those who count on with it.

use levamen_bakery::TubId;
use levamen_ferment::{Answer, ClockedRipening, FermentError, IcedWater, MixingWater, RipeningEstimate};
use levamen_plan::{DayStageId, Setting};
use levamen_quantity::{ClockTime, Duration, Exact, Mass, TimeUnit};
use levamen_timetable::Moment;

use crate::rounding_error::RoundingError;
use crate::weight::Weight;

/// A time that a model found is shown in steps of so many minutes.
const STEP: u16 = 5;

/// How long a model says that something ripens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TimeEstimate {
    /// As the model says it.
    pub exact: Duration,
    /// The nearest whole five minutes.
    pub shown: Duration,
}

impl TimeEstimate {
    /// Rounds a time; half a step goes up.
    #[must_use]
    pub fn new(exact: Duration) -> Self {
        let minutes = exact.in_unit(TimeUnit::Minute).round_to(&Exact::from(i64::from(STEP)));
        Self { shown: Duration::from_unit(&minutes, TimeUnit::Minute), exact }
    }

    /// Both times of an answer.
    #[must_use]
    pub fn by_two_paces(found: RipeningEstimate<Duration>) -> RipeningEstimate<Self> {
        each(found, Self::new)
    }
}

/// When a model says that something is set or ripe, and how long it ripens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClockEstimate {
    /// The time of day to the minute.
    pub exact: ClockTime,
    /// The nearest whole five minutes.
    pub shown: ClockTime,
    /// How long it ripens.
    pub ripens: TimeEstimate,
}

impl ClockEstimate {
    /// Rounds a time of day; two minutes before midnight are midnight.
    #[must_use]
    pub fn new(found: ClockedRipening) -> Self {
        let steps = (found.clock.minutes() + STEP / 2) / STEP;
        Self {
            exact: found.clock,
            shown: ClockTime::from_minutes(i64::from(steps * STEP)),
            ripens: TimeEstimate::new(found.ripens),
        }
    }

    /// Both times of an answer.
    #[must_use]
    pub fn by_two_paces(found: RipeningEstimate<ClockedRipening>) -> RipeningEstimate<Self> {
        each(found, Self::new)
    }
}

/// An answer by two paces, rounded in both.
fn each<T, U>(found: RipeningEstimate<T>, rounded: impl Fn(T) -> U) -> RipeningEstimate<U> {
    RipeningEstimate {
        value: rounded(found.value),
        by: found.by,
        other: found.other.map(rounded),
        other_by: found.other_by,
        remarks: found.remarks,
    }
}

/// Water to pour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PouredWater {
    /// Unrounded.
    pub exact: MixingWater,
    /// Ice and tap water in whole grams, where the tap is too warm.
    pub iced: Option<IceAndTap>,
}

/// Ice and tap water in whole grams, which add up to the water of the formula in whole grams.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct IceAndTap {
    /// Ice.
    pub ice: Weight,
    /// Water from the tap.
    pub tap: Weight,
}

impl PouredWater {
    /// Rounds what is poured; a refusal stays what it is.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a weight has more digits than a scale can show.
    pub fn of_answer(
        answer: Result<Answer<MixingWater>, FermentError>,
    ) -> Result<Result<Answer<Self>, FermentError>, RoundingError> {
        let Answer { found, remarks } = match answer {
            Ok(answer) => answer,
            Err(refusal) => return Ok(Err(refusal)),
        };
        let iced = found.iced.as_ref().map(IceAndTap::new).transpose()?;
        Ok(Ok(Answer { found: Self { exact: found, iced }, remarks }))
    }
}

impl IceAndTap {
    fn new(exact: &IcedWater) -> Result<Self, RoundingError> {
        let ice = Weight::in_grams(&exact.ice)?;
        let water = Weight::in_grams(&Mass::from_grams(exact.ice.grams() + exact.tap.grams()))?;
        Ok(Self { ice, tap: water.try_sub(ice)? })
    }
}

/// A stage that is set or a batch that is mixed on a day, with its water as it is poured.
#[derive(Debug, Clone)]
pub struct SettingSheet {
    /// The stage.
    pub id: DayStageId,
    /// Which batch of its dough it is, counted from 1; `None` of a stage ahead, and where the dough is mixed in one.
    pub batch: Option<usize>,
    /// When; `None` without a timetable, and for a stage that is nothing but another dough.
    pub at: Option<Moment>,
    /// The tubs that it stands in, and how many of them.
    pub tubs: Option<(TubId, u32)>,
    /// How warm the water is poured; `None` where the bakery does not say enough.
    pub water: Option<Result<Answer<PouredWater>, FermentError>>,
}

impl SettingSheet {
    /// Rounds what is poured into each of them.
    ///
    /// # Errors
    /// As [`PouredWater::of_answer`].
    pub fn all(settings: Vec<Setting>) -> Result<Vec<Self>, RoundingError> {
        let rounded = settings.into_iter().map(|Setting { id, batch, at, tubs, water }| {
            let water = water.map(PouredWater::of_answer).transpose()?;
            Ok(Self { id, batch, at, tubs, water })
        });
        rounded.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn minutes(numer: i64, denom: i64) -> Duration {
        Duration::from_unit(&Exact::ratio(numer, denom).unwrap(), TimeUnit::Minute)
    }

    #[test]
    fn a_time_goes_to_the_nearest_five_minutes() {
        for (exact, shown) in [(minutes(722, 1), 720), (minutes(1445, 2), 725), (minutes(723, 1), 725)] {
            assert_eq!(TimeEstimate::new(exact.clone()), TimeEstimate { exact, shown: minutes(shown, 1) });
        }
    }

    #[test]
    fn a_time_of_day_goes_past_midnight_with_its_rounding() {
        for (exact, shown) in [(1437, 1435), (1438, 0), (2, 0), (3, 5)] {
            let clock = ClockTime::from_minutes(exact);
            let found = ClockEstimate::new(ClockedRipening { clock, ripens: minutes(61, 1) });
            assert_eq!((found.exact, found.shown), (clock, ClockTime::from_minutes(shown)));
            assert_eq!(found.ripens.shown, minutes(60, 1));
        }
    }

    /// 1000.4 g of water with 333.5 g of ice: 1000 g less 334 g are 666 g, though the tap's part alone would be 667 g.
    #[test]
    fn ice_and_tap_add_up_to_the_water() {
        let grams = |tenths| Mass::from_grams(Exact::ratio(tenths, 10).unwrap());
        let split = IceAndTap::new(&IcedWater { ice: grams(3335), tap: grams(6669) }).unwrap();
        let shown = |grams: i64| Weight::from_grams(grams.into());
        assert_eq!(split, IceAndTap { ice: shown(334), tap: shown(666) });
    }
}
