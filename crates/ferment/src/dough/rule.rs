//! The trade's rule: every factor counts alike.
//!
//! Water = 3 × wanted dough − flour − room − friction, and with a pre-ferment water = 4 × wanted dough − flour − room −
//! pre-ferment − friction. T. Lehmann, PMQ Pizza Magazine, spring 2003; San Francisco Baking Institute, notes to
//! Artisan I, quoted 2009. The friction is whatever makes a measured batch come out, so it stands for the mixer,
//! the heat of wetting and the error of the rule at once.

use levamen_quantity::{Exact, Temperature, TemperatureDifference, TemperatureUnit};

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
