//! Ripe by the clock, in a room that changes.

use levamen_quantity::{ClockTime, Duration};

use super::questions::too_soon;
use super::{Found, Reference};
use crate::course::{Course, hour, next};
use crate::figure::{minutes, whole_minutes};
use crate::leaven::Leaven;
use crate::range::{self, LONGEST_HOURS};
use crate::refusal::Refusal;

/// How finely the hour is searched, in hours: half a minute.
const NEAR: f64 = 1.0 / 120.0;

/// A pre-ferment by the clock: when it is set or ripe, and how long it ripens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clocked {
    /// The time of day.
    pub clock: ClockTime,
    /// How long it ripens.
    pub ripens: Duration,
}

impl Reference {
    /// When a leaven is ripe that is set at a time of day; without one, at the first point of the course.
    ///
    /// # Errors
    /// It is not ripe within 72 h; a temperature or an amount out of range.
    pub fn ready(
        &self,
        leaven: &Leaven,
        course: &Course,
        set: Option<ClockTime>,
    ) -> Result<Found<Clocked>, Refusal> {
        let from = course.hour_near(set);
        self.clocked(leaven, course, |long| (from, from + long), |(_, to)| to)
    }

    /// When a leaven is to be set to be ripe at a time of day: the first such time after the course begins.
    ///
    /// # Errors
    /// As for [`Reference::ready`].
    pub fn set(&self, leaven: &Leaven, course: &Course, ready: ClockTime) -> Result<Found<Clocked>, Refusal> {
        let to = course.hour_from(ready);
        self.clocked(leaven, course, |long| (to - long, to), |(from, _)| from)
    }

    /// The amount of leaven that, set at one time of day, is ripe at another.
    ///
    /// # Errors
    /// As for [`Reference::ready`].
    pub fn amount_between(
        &self,
        course: &Course,
        set: ClockTime,
        ready: ClockTime,
    ) -> Result<Found<Leaven>, Refusal> {
        let from = course.hour_near(Some(set));
        let to = next(hour(ready), from);
        range::some_time(&minutes(to - from))?;
        self.amount_over(course, from, to)
    }

    /// The shortest span that ripens a leaven, of those that `span` gives for a length, and its end that is asked for.
    fn clocked(
        &self,
        leaven: &Leaven,
        course: &Course,
        span: impl Fn(f64) -> (f64, f64),
        asked: impl Fn((f64, f64)) -> f64,
    ) -> Result<Found<Clocked>, Refusal> {
        leaven.check()?;
        let mut remarks = range::course(leaven, course)?;
        let found = self.ask(Vec::new(), |pace| {
            let needed = self.needed(leaven, pace);
            let done = |long| {
                let (from, to) = span(long);
                course.full_hours(pace.organism, from, to) >= needed
            };
            let long = shortest(done).ok_or_else(|| too_soon("it is not ripe within 72 h in this room"))?;
            let clock = ClockTime::from_minutes(whole_minutes(asked(span(long))));
            Ok(Clocked { clock, ripens: minutes(long) })
        })?;
        remarks.extend(range::usual_time(leaven, &found.value.ripens)?);
        Ok(Found { remarks, ..found })
    }
}

/// The shortest time within the longest for which something is done that stays done, in hours.
fn shortest(done: impl Fn(f64) -> bool) -> Option<f64> {
    if !done(LONGEST_HOURS) {
        return None;
    }
    let (mut short, mut long) = (0.0, LONGEST_HOURS);
    while long - short > NEAR {
        let middle = f64::midpoint(short, long);
        if done(middle) { long = middle } else { short = middle }
    }
    Some(long)
}
