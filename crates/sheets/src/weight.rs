//! What a scale shows, as a type of its own.
//!
//! A [`Weight`] was rounded once, to whole divisions of a scale; a [`Mass`] is exact. The two do not mix: there is no sum of
//! both, and a weight becomes a mass only where [`Weight::as_exact`] says so.
//!
//! ```
//! use levamen_sheets::Weight;
//! use rust_decimal::Decimal;
//!
//! let flour = Weight::from_grams(Decimal::new(12_430, 0));
//! let yeast = Weight::from_grams(Decimal::new(66, 1));
//! assert_eq!(flour.try_add(yeast).unwrap().to_string(), "12436.6");
//! ```
//!
//! ```compile_fail
//! use levamen_quantity::Mass;
//! use levamen_sheets::Weight;
//!
//! let sum = Weight::ZERO + Mass::ZERO;
//! ```

use std::fmt;

use levamen_quantity::{Exact, Mass};
use rust_decimal::Decimal;

use crate::rounding_error::RoundingError;

/// What a scale shows: grams as a decimal of at most 28 digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Weight(Decimal);

impl Weight {
    /// Nothing.
    pub const ZERO: Self = Self(Decimal::ZERO);

    /// What a scale shows, in grams.
    #[must_use]
    pub fn from_grams(grams: Decimal) -> Self {
        Self(grams.normalize())
    }

    /// The grams, without needless zeros.
    #[must_use]
    pub const fn grams(self) -> Decimal {
        self.0
    }

    /// The same as an exact mass: for comparing with what is not rounded, and for going on from what was weighed.
    #[must_use]
    pub fn as_exact(self) -> Mass {
        Mass::from_grams(Exact::from(self.0))
    }

    /// Whether it is nothing.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.0.is_zero()
    }

    /// Both together.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where the sum has more digits than a decimal holds.
    pub fn try_add(self, other: Self) -> Result<Self, RoundingError> {
        exact_sum(self.0, other.0).map(Self::from_grams)
    }

    /// What is left when the other is taken away; below zero where that is more.
    ///
    /// # Errors
    /// As [`Self::try_add`].
    pub fn try_sub(self, other: Self) -> Result<Self, RoundingError> {
        exact_sum(self.0, -other.0).map(Self::from_grams)
    }

    /// All of them together.
    ///
    /// # Errors
    /// As [`Self::try_add`].
    pub fn try_sum(weights: impl IntoIterator<Item = Self>) -> Result<Self, RoundingError> {
        weights.into_iter().try_fold(Self::ZERO, Self::try_add)
    }

    /// The nearest whole number of grams: for what is said of a weight and is not weighed by it. This and the four after it are
    /// the only ways from an exact mass to a weight.
    ///
    /// # Errors
    /// As [`Self::try_add`].
    pub fn in_grams(mass: &Mass) -> Result<Self, RoundingError> {
        Self::nearest(mass, &Mass::from_grams(Exact::ONE))
    }

    /// So many divisions of a scale.
    pub(crate) fn of_divisions(count: &Exact, division: &Mass) -> Result<Self, RoundingError> {
        let grams = count * division.grams();
        let decimal = grams.to_decimal().ok_or_else(|| RoundingError::too_many_digits(&grams))?;
        Ok(Self::from_grams(decimal))
    }

    /// The nearest whole number of divisions.
    pub(crate) fn nearest(mass: &Mass, division: &Mass) -> Result<Self, RoundingError> {
        Self::of_divisions(&in_divisions(mass, division)?.round_to(&Exact::ONE), division)
    }

    /// The least whole number of divisions that is not under the mass.
    pub(crate) fn not_under(mass: &Mass, division: &Mass) -> Result<Self, RoundingError> {
        Self::of_divisions(&-(-&in_divisions(mass, division)?).floor(), division)
    }

    /// The greatest whole number of divisions that is not over the mass.
    pub(crate) fn not_over(mass: &Mass, division: &Mass) -> Result<Self, RoundingError> {
        Self::of_divisions(&in_divisions(mass, division)?.floor(), division)
    }
}

impl fmt::Display for Weight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// How many divisions a mass is.
pub fn in_divisions(mass: &Mass, division: &Mass) -> Result<Exact, RoundingError> {
    mass.grams().checked_div(division.grams()).ok_or(RoundingError::NoDivision)
}

/// The sum of two decimals, never rounded: the library's own sum drops digits that do not fit.
pub fn exact_sum(one: Decimal, other: Decimal) -> Result<Decimal, RoundingError> {
    let scale = one.scale().max(other.scale());
    let lifted = |value: Decimal| {
        10_i128.checked_pow(scale - value.scale()).and_then(|power| value.mantissa().checked_mul(power))
    };
    lifted(one)
        .zip(lifted(other))
        .and_then(|(one, other)| one.checked_add(other))
        .and_then(|sum| Decimal::try_from_i128_with_scale(sum, scale).ok())
        .ok_or_else(|| RoundingError::too_many_digits(&(&Exact::from(one) + &Exact::from(other))))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn mass(numer: i64, denom: i64) -> Mass {
        Mass::from_grams(Exact::ratio(numer, denom).unwrap())
    }

    #[test]
    fn whole_divisions_near_under_and_over() {
        let (mass, division) = (mass(1234, 100), mass(1, 10));
        let shown = |weight: Result<Weight, RoundingError>| weight.unwrap().to_string();
        assert_eq!(shown(Weight::nearest(&mass, &division)), "12.3");
        assert_eq!(shown(Weight::not_under(&mass, &division)), "12.4");
        assert_eq!(shown(Weight::not_over(&mass, &division)), "12.3");
    }

    #[test]
    fn a_scale_without_a_division_is_an_error() {
        assert_eq!(Weight::nearest(&mass(1, 1), &Mass::ZERO), Err(RoundingError::NoDivision));
    }

    #[test]
    fn what_no_decimal_holds_is_an_error() {
        let third = Weight::nearest(&mass(2, 3), &mass(1, 3));
        assert!(matches!(third, Err(RoundingError::TooManyDigits { .. })));
        let small = Weight::from_grams(Decimal::new(1, 20));
        let large = Weight::from_grams(Decimal::from_i128_with_scale(10_i128.pow(20), 0));
        assert!(matches!(large.try_add(small), Err(RoundingError::TooManyDigits { .. })));
        let most = Weight::from_grams(Decimal::MAX);
        let figure = "158456325028528675187087900670".to_owned();
        assert_eq!(most.try_add(most), Err(RoundingError::TooManyDigits { figure }), "twice 2^96 - 1");
    }

    proptest! {
        #[test]
        fn sums_are_those_of_exact_numbers(one in any::<i64>(), other in any::<i64>(), a in 0_u32..9, b in 0_u32..9) {
            let (one, other) = (Weight::from_grams(Decimal::new(one, a)), Weight::from_grams(Decimal::new(other, b)));
            let sum = one.try_add(other).unwrap();
            prop_assert_eq!(sum.as_exact(), &one.as_exact() + &other.as_exact());
            prop_assert_eq!(sum.try_sub(other).unwrap(), one);
            prop_assert_eq!(sum.to_string(), sum.as_exact().grams().to_decimal_string());
        }
    }
}
