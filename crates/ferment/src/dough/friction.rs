//! What mixing does to a dough, learned from noted batches.
//!
//! The middle one of the noted figures, the median: one thermometer misread, or one batch with forgotten ice, moves it
//! hardly, where it would pull a mean along. The spread is the median of the distances from it, times 1.4826, which for evenly
//! scattered figures is their standard deviation (P. J. Rousseeuw, C. Croux, Journal of the American Statistical Association
//! 88 (1993) 1273-1283, from memory).

use levamen_quantity::{Exact, Mass, Temperature, TemperatureDifference, TemperatureUnit};

use super::rule::Factors;

const UNIT: TemperatureUnit = TemperatureUnit::Celsius;

/// A batch whose dough was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Noted {
    /// The mixer.
    pub mixer: String,
    /// How much dough.
    pub dough: Mass,
    /// How warm all of it was, and the dough that came of it.
    pub factors: Factors,
    /// How warm the water was.
    pub water: Temperature,
}

impl Noted {
    /// Its friction, by the trade's rule.
    #[must_use]
    pub fn friction(&self) -> TemperatureDifference {
        self.factors.friction(&self.water)
    }
}

impl AsRef<Self> for Noted {
    fn as_ref(&self) -> &Self {
        self
    }
}

/// What the noted batches say: a friction of the trade's rule, or a rise by heats.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Learned {
    /// The middle one.
    pub middle: TemperatureDifference,
    /// How far the others scatter around it.
    pub spread: TemperatureDifference,
    /// From how many batches.
    pub count: usize,
}

/// What a mixer does to so much dough, from batches of half to twice the size in the same mixer; `None` where none
/// is noted. The size matters, as less dough is warmed more; and so does the rule, as three factors share out another
/// friction than four. `figure` is what a batch says: its friction by the rule, or its rise by heats.
#[must_use]
pub fn learned<B: AsRef<Noted>>(
    noted: &[B],
    mixer: &str,
    dough: &Mass,
    four_factors: bool,
    figure: impl Fn(&B) -> Option<TemperatureDifference>,
) -> Option<Learned> {
    let two = Exact::from(2);
    let near = |other: &Mass| {
        let (own, other) = (dough.grams(), other.grams());
        &(own * &two) >= other && &(other * &two) >= own
    };
    let alike = |batch: &Noted| batch.mixer == mixer && batch.factors.pre_ferment.is_some() == four_factors;
    let batches = noted.iter().filter(|batch| alike(batch.as_ref()) && near(&batch.as_ref().dough));
    let figures: Vec<Exact> = batches.filter_map(|batch| Some(figure(batch)?.in_unit(UNIT))).collect();
    let count = figures.len();
    let middle = median(figures.clone())?;
    let distances = figures.iter().map(|figure| (figure - &middle).abs()).collect();
    let spread = &median(distances)? * &Exact::ratio(14_826, 10_000)?;
    let difference = |kelvins: &Exact| TemperatureDifference::from_unit(kelvins, UNIT);
    Some(Learned { middle: difference(&middle), spread: difference(&spread), count })
}

/// The middle figure, or between the two middle ones.
fn median(mut figures: Vec<Exact>) -> Option<Exact> {
    figures.sort();
    let half = figures.len() / 2;
    let upper = figures.get(half)?;
    let lower = figures.get(half.checked_sub(1 - figures.len() % 2).unwrap_or(half))?;
    Some(&(upper + lower) / &Exact::from(2))
}
