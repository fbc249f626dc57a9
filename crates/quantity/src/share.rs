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
}
