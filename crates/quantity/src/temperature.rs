//! Temperature, in degrees Celsius, and the difference of two.

use std::ops::{Add, Sub};

use crate::Exact;

/// A temperature; exact, stored in degrees Celsius.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Temperature(Exact);

/// The difference of two temperatures; exact, stored in kelvins, which are as long as degrees Celsius.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct TemperatureDifference(Exact);

/// A unit of temperature that a baker may write.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum TemperatureUnit {
    /// `°C`
    Celsius,
    /// `°F`
    Fahrenheit,
}

impl TemperatureUnit {
    /// Both units, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Celsius, Self::Fahrenheit];

    /// How the unit is written.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
        }
    }
}

impl Temperature {
    /// A temperature in the unit it was written in. °F = 9/5 °C + 32: NIST Special Publication 811,
    /// appendix B.8.
    #[must_use]
    pub fn from_unit(degrees: &Exact, unit: TemperatureUnit) -> Self {
        match unit {
            TemperatureUnit::Celsius => Self(degrees.clone()),
            TemperatureUnit::Fahrenheit => {
                Self(&(&(degrees - &Exact::from(32)) * &Exact::from(5)) / &Exact::from(9))
            }
        }
    }

    /// The temperature in a unit.
    #[must_use]
    pub fn in_unit(&self, unit: TemperatureUnit) -> Exact {
        match unit {
            TemperatureUnit::Celsius => self.0.clone(),
            TemperatureUnit::Fahrenheit => {
                &(&(&self.0 * &Exact::from(9)) / &Exact::from(5)) + &Exact::from(32)
            }
        }
    }
}

impl TemperatureDifference {
    /// A difference in the unit it was written in: 9 °F of difference are 5 K, and 32 plays no part.
    #[must_use]
    pub fn from_unit(degrees: &Exact, unit: TemperatureUnit) -> Self {
        match unit {
            TemperatureUnit::Celsius => Self(degrees.clone()),
            TemperatureUnit::Fahrenheit => Self(&(degrees * &Exact::from(5)) / &Exact::from(9)),
        }
    }

    /// The difference in a unit.
    #[must_use]
    pub fn in_unit(&self, unit: TemperatureUnit) -> Exact {
        match unit {
            TemperatureUnit::Celsius => self.0.clone(),
            TemperatureUnit::Fahrenheit => &(&self.0 * &Exact::from(9)) / &Exact::from(5),
        }
    }
}

impl Sub for &Temperature {
    type Output = TemperatureDifference;

    fn sub(self, other: &Temperature) -> TemperatureDifference {
        TemperatureDifference(&self.0 - &other.0)
    }
}

impl Add<&TemperatureDifference> for &Temperature {
    type Output = Temperature;

    fn add(self, difference: &TemperatureDifference) -> Temperature {
        Temperature(&self.0 + &difference.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn freezing_boiling_and_a_warm_dough() {
        for (fahrenheit, celsius) in [(32, "0"), (212, "100"), (77, "25"), (-40, "-40")] {
            let warm = Temperature::from_unit(&Exact::from(fahrenheit), TemperatureUnit::Fahrenheit);
            assert_eq!(warm.in_unit(TemperatureUnit::Celsius).to_decimal_string(), celsius);
            assert_eq!(warm.in_unit(TemperatureUnit::Fahrenheit), Exact::from(fahrenheit));
        }
    }

    #[test]
    fn a_difference_has_no_offset() {
        let nine = TemperatureDifference::from_unit(&Exact::from(9), TemperatureUnit::Fahrenheit);
        assert_eq!(nine.in_unit(TemperatureUnit::Celsius), Exact::from(5));
        let warm = Temperature::from_unit(&Exact::from(68), TemperatureUnit::Fahrenheit);
        let warmer = &warm + &nine;
        assert_eq!(warmer.in_unit(TemperatureUnit::Fahrenheit), Exact::from(77));
        assert_eq!(&warmer - &warm, nine);
    }
}
