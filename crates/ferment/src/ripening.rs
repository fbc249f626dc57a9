//! When a pre-ferment is ripe, tied to the bakery's own reference.
//!
//! The reference says: with this leaven, ripe after so long at so warm. The growth model gives the ratio of two
//! temperatures. The ratio of two amounts of seed follows from what ripe means: the seed is ripe, the fresh flour
//! thins it, and when all is as ripe as the seed was, it has grown by as much as it was thinned. The time goes with
//! the logarithm of that, so no growth rate from a laboratory is needed. The ratio of two amounts of yeast is that of
//! printed pre-ferments. Each answer comes by two paces, see [`Found`].

mod clock;
mod curve;
mod questions;

use levamen_quantity::{Duration, Temperature};

pub use clock::Clocked;
pub use curve::{Curve, Sample};

use crate::figure::{celsius, hours};
use crate::leaven::{Leaven, Pace};
use crate::range;
use crate::refusal::{Refusal, Remark};

/// A pre-ferment that the bakery knows.
#[derive(Debug, Clone, PartialEq)]
pub struct Reference {
    leaven: Leaven,
    hours: f64,
    /// The hours until which it stays good, as a multiple of those after which it is ripe.
    lasts: f64,
    celsius: f64,
}

/// An answer by two paces: that of a levain's yeasts and of its bacteria, or of printed amounts of yeast and of the rule
/// "half the yeast, twice the time".
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found<T> {
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

impl Reference {
    /// What the bakery knows: with this leaven, ripe after `least` at a temperature, and good until `most`.
    ///
    /// # Errors
    /// A time of nothing or past 72 h, an amount of leaven out of range; a temperature that nothing can be told from,
    /// because hardly anything grows there.
    pub fn new(
        leaven: Leaven,
        least: &Duration,
        most: Option<&Duration>,
        at: &Temperature,
    ) -> Result<Self, Refusal> {
        range::some_time(least)?;
        leaven.check()?;
        range::warmth(&leaven, at)?;
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
        answer: impl Fn(Pace) -> Result<T, Refusal>,
    ) -> Result<Found<T>, Refusal> {
        let [first, second] = self.leaven.paces();
        let value = answer(first)?;
        Ok(Found { value, by: first.name, other: answer(second).ok(), other_by: second.name, remarks })
    }
}

impl<T: PartialEq> Found<T> {
    /// The other answer, where it differs.
    #[must_use]
    pub fn second(&self) -> Option<&T> {
        self.other.as_ref().filter(|other| **other != self.value)
    }
}
