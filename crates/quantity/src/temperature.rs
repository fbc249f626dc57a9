//! Temperature, in degrees Celsius.

use crate::Exact;

/// A temperature; exact, held in degrees Celsius.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Temperature(Exact);

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
}
