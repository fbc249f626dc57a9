//! Hour by hour in a room that changes: ripe by the clock, and the data of a plot.

use levamen_quantity::{ClockTime, Duration};

use crate::answer::{FermentError, hours, minutes, whole_minutes};
use crate::course::{TemperatureCourse, hour, next};
use crate::leaven::Leaven;
use crate::organism::Organism;
use crate::range;
use crate::range::LONGEST_HOURS;
use crate::ripening::{RipeningEstimate, RipeningReference, too_soon};

/// How finely the hour is searched, in hours: half a minute.
const NEAR: f64 = 1.0 / 120.0;

/// A pre-ferment by the clock: when it is set or ripe, and how long it ripens.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClockedRipening {
    /// The time of day.
    pub clock: ClockTime,
    /// How long it ripens.
    pub ripens: Duration,
}

impl RipeningReference {
    /// When a leaven is ripe that is set at a time of day; without one, at the first point of the course.
    ///
    /// # Errors
    /// It is not ripe within 72 h; a temperature or an amount out of range.
    pub fn ready(
        &self,
        leaven: &Leaven,
        course: &TemperatureCourse,
        set: Option<ClockTime>,
    ) -> Result<RipeningEstimate<ClockedRipening>, FermentError> {
        let from = course.hour_near(set);
        self.clocked(leaven, course, |long| (from, from + long), |(_, to)| to)
    }

    /// When a leaven is to be set to be ripe at a time of day: the first such time after the course begins.
    ///
    /// # Errors
    /// As for [`RipeningReference::ready`].
    pub fn set(
        &self,
        leaven: &Leaven,
        course: &TemperatureCourse,
        ready: ClockTime,
    ) -> Result<RipeningEstimate<ClockedRipening>, FermentError> {
        let to = course.hour_from(ready);
        self.clocked(leaven, course, |long| (to - long, to), |(from, _)| from)
    }

    /// The amount of leaven that, set at one time of day, is ripe at another.
    ///
    /// # Errors
    /// As for [`RipeningReference::ready`].
    pub fn amount_between(
        &self,
        course: &TemperatureCourse,
        set: ClockTime,
        ready: ClockTime,
    ) -> Result<RipeningEstimate<Leaven>, FermentError> {
        let from = course.hour_near(Some(set));
        let to = next(hour(ready), from);
        range::some_time(&minutes(to - from))?;
        self.amount_over(course, from, to)
    }

    /// The shortest span that ripens a leaven, of those that `span` gives for a length, and its end that is asked for.
    fn clocked(
        &self,
        leaven: &Leaven,
        course: &TemperatureCourse,
        span: impl Fn(f64) -> (f64, f64),
        asked: impl Fn((f64, f64)) -> f64,
    ) -> Result<RipeningEstimate<ClockedRipening>, FermentError> {
        leaven.check()?;
        let mut remarks = range::course(leaven.leading(), course)?;
        let found = self.ask(Vec::new(), |pace| {
            let needed = self.needed(leaven, pace);
            let done = |long| {
                let (from, to) = span(long);
                course.full_hours(pace.organism, from, to) >= needed
            };
            let long = shortest(done).ok_or_else(|| too_soon("it is not ripe within 72 h in this room"))?;
            let clock = ClockTime::from_minutes(whole_minutes(asked(span(long))));
            Ok(ClockedRipening { clock, ripens: minutes(long) })
        })?;
        remarks.extend(leaven.usual_time(&found.value.ripens)?);
        Ok(RipeningEstimate { remarks, ..found })
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

/// How many samples a curve has after its first.
const SAMPLES: u32 = 120;

/// What grows from the start of a pre-ferment on.
#[derive(Debug, Clone, PartialEq)]
pub struct GrowthCurve {
    /// Evenly spaced, the first at the start.
    pub samples: Vec<GrowthSample>,
    /// Whether it is a culture, of which bacteria and yeasts are separate; of baker's yeast there is its work alone.
    pub of_culture: bool,
}

/// What there is at one time, as a part of what there is in the ripe pre-ferment: 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrowthSample {
    /// Hours since the start.
    pub hours: f64,
    /// How warm it is, in degrees Celsius.
    pub celsius: f64,
    /// Bacteria.
    pub bacteria: f64,
    /// Yeasts.
    pub yeasts: f64,
    /// How much of the ripening is done.
    pub ripeness: f64,
}

impl RipeningReference {
    /// What grows over a time from a time of day on; without one, from the first point of the course.
    ///
    /// A population grows by a factor an hour until it is what it is in the ripe pre-ferment, and stays there.
    ///
    /// # Errors
    /// A temperature or an amount out of range.
    pub fn curve(
        &self,
        leaven: &Leaven,
        course: &TemperatureCourse,
        set: Option<ClockTime>,
        over: &Duration,
    ) -> Result<GrowthCurve, FermentError> {
        leaven.check()?;
        range::course(leaven.leading(), course)?;
        range::some_time(over)?;
        let from = course.hour_near(set);
        let step = hours(over) / f64::from(SAMPLES);
        let sample = |index| self.sample(leaven, course, from, f64::from(index) * step);
        Ok(GrowthCurve {
            samples: (0..=SAMPLES).map(sample).collect(),
            of_culture: matches!(leaven, Leaven::Seed(_)),
        })
    }

    fn sample(&self, leaven: &Leaven, course: &TemperatureCourse, from: f64, long: f64) -> GrowthSample {
        let [pace, _] = leaven.paces();
        let done = |organism: Organism| course.full_hours(organism, from, from + long);
        let grown = |organism: Organism| match (leaven, &self.leaven) {
            (Leaven::Seed(seed), Leaven::Seed(reference)) => {
                let per_hour = reference.growth() / (self.hours * organism.rate(self.celsius));
                (seed.part() * (per_hour * done(organism)).exp()).min(1.0)
            }
            _ => 0.0,
        };
        GrowthSample {
            hours: long,
            celsius: course.celsius(from + long),
            bacteria: grown(Organism::Bacteria),
            yeasts: grown(Organism::Yeasts),
            ripeness: (done(pace.organism) / self.needed(leaven, pace)).min(1.0),
        }
    }
}
