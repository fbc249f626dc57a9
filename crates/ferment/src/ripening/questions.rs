//! Time, temperature and amount: each from the two others.

use levamen_quantity::{Duration, Temperature};

use super::{Found, Reference};
use crate::course::Course;
use crate::figure::{celsius, hours, minutes, tenth_of_a_degree};
use crate::leaven::{Leaven, Pace};
use crate::range;
use crate::refusal::{Refusal, Remark};
use crate::words;

/// What still counts as the fastest: a hundredth is finer than any model of a ferment.
const FULL_SPEED: f64 = 1.01;

/// By how much a printed time in a cooler room is longer than the model's, as a factor: a basic sour of 15 h at 26.5 °C
/// and 24 h at 23 °C, where the model has 18.2 h (ichkoche.at, recipe 109145).
const LONGER_IN_PRINT: f64 = 24.0 / 18.2;

/// From how many degrees under the reference that is said, in kelvins: those of the printed sour.
const COOLER: f64 = 3.0;

impl Reference {
    /// The time after which a leaven is ripe at a temperature.
    ///
    /// # Errors
    /// A temperature at which it does not grow or that the model does not reach; an amount or a time out of range.
    pub fn time(&self, leaven: &Leaven, at: &Temperature) -> Result<Found<Duration>, Refusal> {
        leaven.check()?;
        let mut remarks = range::warmth(leaven, at)?;
        let found = self.ask(Vec::new(), |pace: Pace| {
            range::printed(pace.organism, at)?;
            let time = minutes(self.needed(leaven, pace) / pace.organism.rate(celsius(at)));
            range::within(&time, at).map(|()| time)
        })?;
        remarks.extend(range::usual_time(leaven, &found.value)?);
        remarks.extend(self.longer_in_print(leaven, at, &found.value));
        Ok(Found { remarks, ..found })
    }

    /// Sources differ about a culture that is kept cooler: until when printed times go.
    fn longer_in_print(&self, leaven: &Leaven, at: &Temperature, ripe: &Duration) -> Option<Remark> {
        let cooler = self.celsius - celsius(at) >= COOLER;
        (matches!(leaven, Leaven::Seed(_)) && cooler).then(|| {
            let until = words::time(&minutes(hours(ripe) * LONGER_IN_PRINT));
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
    pub fn temperature(&self, leaven: &Leaven, time: &Duration) -> Result<Found<Temperature>, Refusal> {
        leaven.check()?;
        let mut remarks = range::usual_time(leaven, time)?;
        let found = self.ask(Vec::new(), |pace: Pace| {
            let needed = self.needed(leaven, pace);
            let growth = pace.organism.growth();
            // A time to the minute may ask for a hair more than the fastest.
            let rate = needed / hours(time);
            let rate = if rate < FULL_SPEED { rate.min(1.0) } else { rate };
            let warmth = growth.celsius_of(rate).ok_or_else(|| {
                let soonest = format!(
                    "the soonest is {}, at {} °C",
                    words::time(&minutes(needed)),
                    growth.cardinal.best
                );
                too_soon(&format!("it cannot be ripe in {}", words::time(time))).note(soonest)
            })?;
            let warmth = tenth_of_a_degree(warmth);
            range::printed(pace.organism, &warmth)?;
            range::warmth(leaven, &warmth).map(|_| warmth)
        })?;
        remarks.extend(range::warmth(leaven, &found.value)?);
        remarks.push(Remark::new(
            "cooler-of-two",
            "over the best temperature there is a second one that takes as long; the cooler is shown",
        ));
        Ok(Found { remarks, ..found })
    }

    /// The amount of leaven that is ripe after a time at a temperature.
    ///
    /// # Errors
    /// As for [`Reference::time`].
    pub fn amount(&self, time: &Duration, at: &Temperature) -> Result<Found<Leaven>, Refusal> {
        range::warmth(&self.leaven, at)?;
        range::printed(self.leaven.leading(), at)?;
        range::some_time(time)?;
        self.amount_over(&Course::constant(at), 0.0, hours(time))
    }

    /// The amount of leaven that is ripe at the end of a span of hours.
    pub(super) fn amount_over(&self, course: &Course, from: f64, to: f64) -> Result<Found<Leaven>, Refusal> {
        let mut remarks = range::course(&self.leaven, course)?;
        remarks.extend(range::usual_time(&self.leaven, &minutes(to - from))?);
        self.ask(remarks, |pace: Pace| {
            let times = course.full_hours(pace.organism, from, to) / self.needed(&self.leaven, pace);
            let leaven = self.leaven.for_times(times, pace);
            leaven.check().map(|()| leaven)
        })
    }
}

/// What cannot be ripe by then.
pub(super) fn too_soon(message: &str) -> Refusal {
    Refusal::new("cannot-be-ripe", message).help("start earlier, ripen warmer, or take more seed or yeast")
}
