//! The trade's rule: every factor counts alike.
//!
//! Water = 3 × wanted dough − flour − room − friction, and with a pre-ferment water = 4 × wanted dough − flour − room −
//! pre-ferment − friction. T. Lehmann, PMQ Pizza Magazine, spring 2003; San Francisco Baking Institute, notes to
//! Artisan I, quoted 2009. The friction is whatever makes a measured batch come out, so it stands for the mixer,
//! the heat of wetting and the error of the rule at once.
//!
//! What mixing does to a dough is estimated from measured batches, by the median of their figures: one thermometer misread,
//! or one batch with forgotten ice, hardly moves it, where it would pull a mean along. The spread is the median of the
//! distances from it, times 1.4826, which for evenly scattered figures is their standard deviation (P. J. Rousseeuw, C. Croux,
//! Journal of the American Statistical Association 88 (1993) 1273-1283, from memory).

use levamen_quantity::{Exact, Mass, Temperature, TemperatureDifference, TemperatureUnit};

const UNIT: TemperatureUnit = TemperatureUnit::Celsius;

/// The temperatures that the rule knows, but for the water.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Factors {
    /// The dough: as it is wanted, or as it was measured.
    pub dough: Temperature,
    /// The flour.
    pub flour: Temperature,
    /// The room.
    pub room: Temperature,
    /// What was fermented ahead and is mixed in, where there is any.
    pub pre_ferment: Option<Temperature>,
}

impl Factors {
    /// How many factors there are with the water: three or four.
    #[must_use]
    pub fn count(&self) -> Exact {
        Exact::from(if self.pre_ferment.is_some() { 4 } else { 3 })
    }

    /// How warm the water has to be.
    #[must_use]
    pub fn water(&self, friction: &TemperatureDifference) -> Temperature {
        Temperature::from_unit(&(&self.left() - &friction.in_unit(UNIT)), UNIT)
    }

    /// The friction of a batch that was measured: what is left when its water is known.
    #[must_use]
    pub fn friction(&self, water: &Temperature) -> TemperatureDifference {
        TemperatureDifference::from_unit(&(&self.left() - &water.in_unit(UNIT)), UNIT)
    }

    /// What a friction is as a rise of the dough: the rule takes the middle of its factors, and so shares the friction out among
    /// them. So do German pages, which take the warming by kneading off the wanted dough first ("Teigtemperatur",
    /// baeckerlatein.de). It is no better founded than the rule; a rise that was measured is.
    #[must_use]
    pub fn rise(&self, friction: &TemperatureDifference) -> TemperatureDifference {
        TemperatureDifference::from_unit(&(&friction.in_unit(UNIT) / &self.count()), UNIT)
    }

    /// The dough as often as there are factors, less the factors that are known, in degrees Celsius.
    fn left(&self) -> Exact {
        let known = [Some(&self.flour), Some(&self.room), self.pre_ferment.as_ref()];
        let known: Exact = known.into_iter().flatten().map(|factor| factor.in_unit(UNIT)).sum();
        &(&self.dough.in_unit(UNIT) * &self.count()) - &known
    }
}

/// A batch whose dough was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Measurement {
    /// The mixer.
    pub mixer: String,
    /// How much dough.
    pub dough: Mass,
    /// How warm all of it was, and the dough that came of it.
    pub factors: Factors,
    /// How warm the water was.
    pub water: Temperature,
}

impl Measurement {
    /// Its friction, by the trade's rule.
    #[must_use]
    pub fn friction(&self) -> TemperatureDifference {
        self.factors.friction(&self.water)
    }
}

impl AsRef<Self> for Measurement {
    fn as_ref(&self) -> &Self {
        self
    }
}

/// What measured batches say: a friction of the trade's rule, or a rise by heats.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WarmingEstimate {
    /// The median.
    pub middle: TemperatureDifference,
    /// How far the others scatter around it.
    pub spread: TemperatureDifference,
    /// From how many batches.
    pub count: usize,
}

/// What a mixer does to so much dough, from batches of half to twice the size in the same mixer; `None` where none
/// was measured. The size matters, as less dough is warmed more; and so does the rule, as three factors share out another
/// friction than four. `figure` is what a batch says: its friction by the rule, or its rise by heats.
#[must_use]
pub fn estimate_warming<B: AsRef<Measurement>>(
    measured: &[B],
    mixer: &str,
    dough: &Mass,
    four_factors: bool,
    figure: impl Fn(&B) -> Option<TemperatureDifference>,
) -> Option<WarmingEstimate> {
    let two = Exact::from(2);
    let near = |other: &Mass| {
        let (own, other) = (dough.grams(), other.grams());
        &(own * &two) >= other && &(other * &two) >= own
    };
    let alike =
        |batch: &Measurement| batch.mixer == mixer && batch.factors.pre_ferment.is_some() == four_factors;
    let batches = measured.iter().filter(|batch| alike(batch.as_ref()) && near(&batch.as_ref().dough));
    let figures: Vec<Exact> = batches.filter_map(|batch| Some(figure(batch)?.in_unit(UNIT))).collect();
    let count = figures.len();
    let middle = median(figures.clone())?;
    let distances = figures.iter().map(|figure| (figure - &middle).abs()).collect();
    let spread = &median(distances)? * &Exact::ratio(14_826, 10_000)?;
    let difference = |kelvins: &Exact| TemperatureDifference::from_unit(kelvins, UNIT);
    Some(WarmingEstimate { middle: difference(&middle), spread: difference(&spread), count })
}

/// The middle figure, or between the two middle ones.
fn median(mut figures: Vec<Exact>) -> Option<Exact> {
    figures.sort();
    let half = figures.len() / 2;
    let upper = figures.get(half)?;
    let lower = figures.get(half.checked_sub(1 - figures.len() % 2).unwrap_or(half))?;
    Some(&(upper + lower) / &Exact::from(2))
}
