//! When a pre-ferment is ripe, tied to the bakery's own reference.
//!
//! The reference says: with this leaven, ripe after so long at so warm. The growth model gives the ratio of two
//! temperatures. The ratio of two amounts of seed follows from what ripe means: the seed is ripe, the fresh flour
//! thins it, and when all is as ripe as the seed was, it has grown by as much as it was thinned. The time goes with
//! the logarithm of that, so no growth rate from a laboratory is needed. The ratio of two amounts of yeast is that of
//! printed pre-ferments. Each answer comes by two paces, see [`RipeningEstimate`].
//!
//! Time, temperature and amount: each from the two others.

mod by_hour;

pub use by_hour::{ClockedRipening, GrowthCurve, GrowthSample};

use levamen_quantity::{Duration, Temperature};

use crate::answer::{FermentError, Remark, celsius, hours, minutes, tenth_of_a_degree};
use crate::course::TemperatureCourse;
use crate::leaven::{Leaven, Pace};
use crate::{answer, range};

/// A pre-ferment that the bakery knows.
#[derive(Debug, Clone, PartialEq)]
pub struct RipeningReference {
    leaven: Leaven,
    hours: f64,
    /// The hours until which it stays good, as a multiple of those after which it is ripe.
    lasts: f64,
    celsius: f64,
}

/// An answer by two paces: that of a levain's yeasts and of its bacteria, or of printed amounts of yeast and of the rule
/// "half the yeast, twice the time".
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RipeningEstimate<T> {
    /// The answer to go by.
    pub value: T,
    /// Whose pace that is.
    pub by: &'static str,
    /// The answer by the other pace; `None` where that pace has none.
    pub other: Option<T>,
    /// Whose pace the other is.
    pub other_by: &'static str,
    /// What to look at again.
    pub remarks: Vec<Remark>,
}

impl RipeningReference {
    /// What the bakery knows: with this leaven, ripe after `least` at a temperature, and good until `most`.
    ///
    /// # Errors
    /// A time of nothing or past 72 h, an amount of leaven out of range; a temperature from which nothing follows,
    /// because hardly anything grows there.
    pub fn new(
        leaven: Leaven,
        least: &Duration,
        most: Option<&Duration>,
        at: &Temperature,
    ) -> Result<Self, FermentError> {
        range::some_time(least)?;
        leaven.check()?;
        range::warmth(leaven.leading(), at)?;
        range::reference(leaven.leading(), at)?;
        let ripe = hours(least);
        let lasts = most.map_or(1.0, |most| (hours(most) / ripe).max(1.0));
        Ok(Self { leaven, hours: ripe, lasts, celsius: celsius(at) })
    }

    /// What it is started with.
    #[must_use]
    pub const fn leaven(&self) -> &Leaven {
        &self.leaven
    }

    /// The hours at the best temperature that some amount of leaven takes, by one pace.
    fn needed(&self, leaven: &Leaven, pace: Pace) -> f64 {
        self.hours * pace.organism.rate(self.celsius) * leaven.times_as_long_as(&self.leaven, pace)
    }

    /// Asks by both paces; the first must have an answer.
    fn ask<T>(
        &self,
        remarks: Vec<Remark>,
        answer: impl Fn(Pace) -> Result<T, FermentError>,
    ) -> Result<RipeningEstimate<T>, FermentError> {
        let [first, second] = self.leaven.paces();
        let value = answer(first)?;
        Ok(RipeningEstimate {
            value,
            by: first.name,
            other: answer(second).ok(),
            other_by: second.name,
            remarks,
        })
    }
}

impl<T: PartialEq> RipeningEstimate<T> {
    /// The other answer, where it differs.
    #[must_use]
    pub fn second(&self) -> Option<&T> {
        self.other.as_ref().filter(|other| **other != self.value)
    }
}

/// What still counts as the fastest: a hundredth is finer than any model of a ferment.
const FULL_SPEED: f64 = 1.01;

/// By how much a printed time in a cooler room is longer than the model's, as a factor: a basic sour of 15 h at 26.5 °C
/// and 24 h at 23 °C, where the model has 18.2 h (ichkoche.at, recipe 109145).
const LONGER_IN_PRINT: f64 = 24.0 / 18.2;

/// From how many degrees under the reference that is said, in kelvins: those of the printed sour.
const COOLER: f64 = 3.0;

impl RipeningReference {
    /// The time after which a leaven is ripe at a temperature.
    ///
    /// # Errors
    /// A temperature at which it does not grow or that the model does not reach; an amount or a time out of range.
    pub fn time(
        &self,
        leaven: &Leaven,
        at: &Temperature,
    ) -> Result<RipeningEstimate<Duration>, FermentError> {
        leaven.check()?;
        let mut remarks = range::warmth(leaven.leading(), at)?;
        let found = self.ask(Vec::new(), |pace: Pace| {
            range::printed(pace.organism, at)?;
            let time = minutes(self.needed(leaven, pace) / pace.organism.rate(celsius(at)));
            range::within(&time, at).map(|()| time)
        })?;
        remarks.extend(leaven.usual_time(&found.value)?);
        remarks.extend(self.longer_in_print(leaven, at, &found.value));
        Ok(RipeningEstimate { remarks, ..found })
    }

    /// Sources differ about a culture that is kept cooler: until when printed times go.
    fn longer_in_print(&self, leaven: &Leaven, at: &Temperature, ripe: &Duration) -> Option<Remark> {
        let cooler = self.celsius - celsius(at) >= COOLER;
        (matches!(leaven, Leaven::Seed(_)) && cooler).then(|| {
            let until = answer::time(&minutes(hours(ripe) * LONGER_IN_PRINT));
            let message = format!(
                "sources differ about a cooler culture: a printed sour takes a third longer than its pace says \
                 (ichkoche.at, recipe 109145), which would be {until}; watch it until then"
            );
            Remark::new("sources-differ", message)
        })
    }

    /// The time until which a leaven stays good that is ripe after another time.
    #[must_use]
    pub fn good_until(&self, ripe: &Duration) -> Option<Duration> {
        (self.lasts > 1.0).then(|| minutes(hours(ripe) * self.lasts))
    }

    /// The temperature at which a leaven is ripe after a time: the one at or under the organism's best. A second one
    /// over it would do the same, and is not taken.
    ///
    /// # Errors
    /// A time in which it cannot be ripe at any temperature; a temperature out of range; an amount out of range.
    pub fn temperature(
        &self,
        leaven: &Leaven,
        time: &Duration,
    ) -> Result<RipeningEstimate<Temperature>, FermentError> {
        leaven.check()?;
        let mut remarks = leaven.usual_time(time)?;
        let found = self.ask(Vec::new(), |pace: Pace| {
            let needed = self.needed(leaven, pace);
            let growth = pace.organism.growth();
            // A time to the minute may ask for a hair more than the fastest.
            let rate = needed / hours(time);
            let rate = if rate < FULL_SPEED { rate.min(1.0) } else { rate };
            let warmth = growth.celsius_of(rate).ok_or_else(|| {
                let soonest = format!(
                    "the soonest is {}, at {} °C",
                    answer::time(&minutes(needed)),
                    growth.cardinal.best
                );
                too_soon(&format!("it cannot be ripe in {}", answer::time(time))).note(soonest)
            })?;
            let warmth = tenth_of_a_degree(warmth);
            range::printed(pace.organism, &warmth)?;
            range::warmth(leaven.leading(), &warmth).map(|_| warmth)
        })?;
        remarks.extend(range::warmth(leaven.leading(), &found.value)?);
        remarks.push(Remark::new(
            "cooler-of-two",
            "over the best temperature there is a second one that takes as long; the cooler is shown",
        ));
        Ok(RipeningEstimate { remarks, ..found })
    }

    /// The amount of leaven that is ripe after a time at a temperature.
    ///
    /// # Errors
    /// As for [`RipeningReference::time`].
    pub fn amount(
        &self,
        time: &Duration,
        at: &Temperature,
    ) -> Result<RipeningEstimate<Leaven>, FermentError> {
        range::warmth(self.leaven.leading(), at)?;
        range::printed(self.leaven.leading(), at)?;
        range::some_time(time)?;
        self.amount_over(&TemperatureCourse::constant(at), 0.0, hours(time))
    }

    /// The amount of leaven that is ripe at the end of a span of hours.
    pub(super) fn amount_over(
        &self,
        course: &TemperatureCourse,
        from: f64,
        to: f64,
    ) -> Result<RipeningEstimate<Leaven>, FermentError> {
        let mut remarks = range::course(self.leaven.leading(), course)?;
        remarks.extend(self.leaven.usual_time(&minutes(to - from))?);
        self.ask(remarks, |pace: Pace| {
            let times = course.full_hours(pace.organism, from, to) / self.needed(&self.leaven, pace);
            let leaven = self.leaven.for_times(times, pace);
            leaven.check().map(|()| leaven)
        })
    }
}

/// What cannot be ripe by then.
pub(super) fn too_soon(message: &str) -> FermentError {
    FermentError::new("cannot-be-ripe", message)
        .help("start earlier, ripen warmer, or take more seed or yeast")
}
