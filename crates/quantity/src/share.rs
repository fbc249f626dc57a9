//! Shares: baker's percentages and their like.

use crate::{Exact, Mass};

/// A share of a whole; exact, stored as a fraction of one.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Share(Exact);

impl Share {
    /// The whole, 100 %.
    pub const WHOLE: Self = Self(Exact::ONE);

    /// A share as a fraction: a half is 1/2.
    #[must_use]
    pub const fn from_fraction(fraction: Exact) -> Self {
        Self(fraction)
    }

    /// A share as a percentage: a half is 50.
    #[must_use]
    pub fn from_percent(percent: Exact) -> Self {
        Self((percent / Exact::HUNDRED).reduced())
    }

    /// The share as a fraction of one.
    #[must_use]
    pub const fn fraction(&self) -> &Exact {
        &self.0
    }

    /// The share as a percentage.
    #[must_use]
    pub fn percent(&self) -> Exact {
        &self.0 * &Exact::HUNDRED
    }

    /// In percent with at most so many decimals, half away from zero: `66.67 %`.
    #[must_use]
    pub fn to_percent(&self, places: usize) -> String {
        format!("{} %", self.percent().to_trimmed(places))
    }

    /// In percent as it is where that takes at most so many characters, and otherwise with three decimals: `12.5 %`, `33.333 %`.
    #[must_use]
    pub fn to_percent_within(&self, longest: usize) -> String {
        let percent = self.percent();
        let exact = percent.to_decimal_string();
        if exact.len() <= longest { format!("{exact} %") } else { format!("{} %", percent.to_fixed(3)) }
    }

    /// In percent with at most three decimals and never more than it is, for a bound: `66.666 %`.
    #[must_use]
    pub fn to_percent_at_most(&self) -> String {
        let thousandths = (&self.0 * &Exact::from(100_000)).floor();
        format!("{} %", (&thousandths / &Exact::from(1000)).to_decimal_string())
    }

    /// What is left of the whole without this share.
    #[must_use]
    pub fn rest(&self) -> Self {
        Self(&Exact::ONE - &self.0)
    }

    /// This share of a mass.
    #[must_use]
    pub fn of(&self, whole: &Mass) -> Mass {
        Mass::from_grams(&self.0 * whole.grams())
    }
}

impl Mass {
    /// This mass as a share of another; `None` of nothing.
    #[must_use]
    pub fn share_of(&self, whole: &Self) -> Option<Share> {
        self.grams().checked_div(whole.grams()).map(Share::from_fraction)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percent_and_rest() {
        let share = Share::from_percent(Exact::from_literal("37.5").unwrap());
        assert_eq!(share.fraction().to_decimal_string(), "0.375");
        assert_eq!(share.rest().percent().to_decimal_string(), "62.5");
    }

    #[test]
    fn percents_for_reading() {
        let thirds = Share::from_fraction(Exact::ratio(2, 3).unwrap());
        assert_eq!(thirds.to_percent(2), "66.67 %");
        assert_eq!(thirds.to_percent_within(8), "66.667 %");
        assert_eq!(thirds.to_percent_at_most(), "66.666 %");
        let eighth = Share::from_fraction(Exact::ratio(1, 8).unwrap());
        assert_eq!([eighth.to_percent(2), eighth.to_percent_within(4)], ["12.5 %", "12.5 %"]);
        assert_eq!([eighth.to_percent_within(3), eighth.to_percent_at_most()], ["12.500 %", "12.5 %"]);
    }
}
