//! Mass, in grams.

use std::ops::{Add, Sub};

use crate::Exact;

/// A mass; exact, stored in grams.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Mass(Exact);

/// A unit of mass that a baker may write.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MassUnit {
    /// `g`
    Gram,
    /// `kg`
    Kilogram,
    /// `lb`, the avoirdupois pound.
    Pound,
    /// `oz`, the avoirdupois ounce.
    Ounce,
}

impl MassUnit {
    /// All units, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Gram, Self::Kilogram, Self::Pound, Self::Ounce];

    /// How the unit is written.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Gram => "g",
            Self::Kilogram => "kg",
            Self::Pound => "lb",
            Self::Ounce => "oz",
        }
    }

    /// Grams in one unit. Pound and ounce are exact by definition: NIST Special Publication 811, appendix B.8
    /// (1 lb = 453.592 37 g, 1 oz = 28.349 523 125 g, a sixteenth of it).
    fn in_grams(self) -> Exact {
        // In lowest terms, so that figures stay short.
        let (numer, denom) = match self {
            Self::Gram => (1, 1),
            Self::Kilogram => (1000, 1),
            Self::Pound => (45_359_237, 100_000),
            Self::Ounce => (45_359_237, 16 * 100_000),
        };
        &Exact::from(numer) / &Exact::from(denom)
    }
}

impl Mass {
    /// Nothing.
    pub const ZERO: Self = Self(Exact::ZERO);

    /// A mass in grams.
    #[must_use]
    pub const fn from_grams(grams: Exact) -> Self {
        Self(grams)
    }

    /// A mass in the unit it was written in.
    #[must_use]
    pub fn from_unit(figure: Exact, unit: MassUnit) -> Self {
        Self(figure * unit.in_grams())
    }

    /// The mass in grams.
    #[must_use]
    pub const fn grams(&self) -> &Exact {
        &self.0
    }

    /// The mass in another unit.
    #[must_use]
    pub fn in_unit(&self, unit: MassUnit) -> Exact {
        &self.0 / &unit.in_grams()
    }

    /// The mass rounded to a whole number of a scale's divisions.
    #[must_use]
    pub fn round_to(&self, division: &Self) -> Self {
        Self(self.0.round_to(&division.0))
    }
}

impl Add for &Mass {
    type Output = Mass;

    fn add(self, other: &Mass) -> Mass {
        Mass(&self.0 + &other.0)
    }
}

impl Sub for &Mass {
    type Output = Mass;

    fn sub(self, other: &Mass) -> Mass {
        Mass(&self.0 - &other.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_are_those_of_nist_sp_811() {
        let one = |unit| Mass::from_unit(Exact::ONE, unit).grams().to_decimal_string();
        assert_eq!(one(MassUnit::Gram), "1");
        assert_eq!(one(MassUnit::Kilogram), "1000");
        assert_eq!(one(MassUnit::Pound), "453.59237");
        assert_eq!(one(MassUnit::Ounce), "28.349523125");
    }

    #[test]
    fn sixteen_ounces_are_a_pound() {
        let pound = Mass::from_unit(Exact::from(16), MassUnit::Ounce);
        assert_eq!(pound.in_unit(MassUnit::Pound), Exact::ONE);
    }
}
