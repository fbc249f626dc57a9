//! What grows hour by hour: the data of a plot.

use levamen_quantity::{ClockTime, Duration};

use super::Reference;
use crate::course::Course;
use crate::figure::hours;
use crate::leaven::Leaven;
use crate::organism::Organism;
use crate::range;
use crate::refusal::Refusal;

/// How many samples a curve has after its first.
const SAMPLES: u32 = 120;

/// What grows from the start of a pre-ferment on.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Evenly spaced, the first at the start.
    pub samples: Vec<Sample>,
    /// Whether it is a culture, of which bacteria and yeasts are told apart; of baker's yeast there is its work alone.
    pub of_culture: bool,
}

/// What there is at one time, as a part of what there is in the ripe pre-ferment: 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
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

impl Reference {
    /// What grows over a time from a time of day on; without one, from the first point of the course.
    ///
    /// A population grows by a factor an hour until it is what it is in the ripe pre-ferment, and stays there.
    ///
    /// # Errors
    /// A temperature or an amount out of range.
    pub fn curve(
        &self,
        leaven: &Leaven,
        course: &Course,
        set: Option<ClockTime>,
        over: &Duration,
    ) -> Result<Curve, Refusal> {
        leaven.check()?;
        range::course(leaven, course)?;
        range::some_time(over)?;
        let from = course.hour_near(set);
        let step = hours(over) / f64::from(SAMPLES);
        let sample = |index| self.sample(leaven, course, from, f64::from(index) * step);
        Ok(Curve {
            samples: (0..=SAMPLES).map(sample).collect(),
            of_culture: matches!(leaven, Leaven::Seed(_)),
        })
    }

    fn sample(&self, leaven: &Leaven, course: &Course, from: f64, long: f64) -> Sample {
        let [pace, _] = leaven.paces();
        let done = |organism: Organism| course.full_hours(organism, from, from + long);
        let grown = |organism: Organism| match (leaven, &self.leaven) {
            (Leaven::Seed(seed), Leaven::Seed(reference)) => {
                let per_hour = reference.growth() / (self.hours * organism.rate(self.celsius));
                (seed.part() * (per_hour * done(organism)).exp()).min(1.0)
            }
            _ => 0.0,
        };
        Sample {
            hours: long,
            celsius: course.celsius(from + long),
            bacteria: grown(Organism::Bacteria),
            yeasts: grown(Organism::Yeasts),
            ripeness: (done(pace.organism) / self.needed(leaven, pace)).min(1.0),
        }
    }
}
