//! Sums of money as they are shown.

use std::fmt;

use levamen_quantity::Exact;
use rust_decimal::Decimal;

use crate::rounding::{RoundingCell, controlled};
use crate::rounding_error::RoundingError;
use crate::weight::exact_sum;

/// Sums are shown in hundredths of the currency: so many decimals.
pub const SUM_PLACES: u32 = 2;

/// What a kilogram or a piece costs has so many decimals: a roll costs a few hundredths.
pub const EACH_PLACES: u32 = 4;

/// Money as it is shown: a decimal with as many places as it was rounded to. It is written with all of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money(Decimal);

impl Money {
    /// An amount; its scale is the number of places that it is written with.
    #[must_use]
    pub const fn new(amount: Decimal) -> Self {
        Self(amount)
    }

    /// The amount, without needless zeros.
    #[must_use]
    pub fn amount(self) -> Decimal {
        self.0.normalize()
    }

    /// All of them together, written with so many places at least.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where the sum has more digits than a decimal holds.
    pub fn try_sum(all: impl IntoIterator<Item = Self>, places: u32) -> Result<Self, RoundingError> {
        let mut sum = Decimal::new(0, places);
        for one in all {
            sum = exact_sum(sum, one.0)?;
        }
        Ok(Self(sum))
    }

    /// One figure, rounded alone.
    pub(crate) fn nearest(value: &Exact, places: u32) -> Result<Self, RoundingError> {
        let rounded = rounded([MoneyCell { row: 0, column: 0, value: value.clone() }], places)?;
        rounded.into_iter().next().ok_or_else(|| RoundingError::internal("a rounded table lost its cell"))
    }

    fn of_units(count: &Exact, places: u32) -> Result<Self, RoundingError> {
        let whole = count
            .to_decimal()
            .and_then(|count| Decimal::try_from_i128_with_scale(count.mantissa(), places).ok());
        whole.map(Self).ok_or_else(|| RoundingError::too_many_digits(count))
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// One exact sum of a table, not below zero.
pub struct MoneyCell {
    /// Its row.
    pub row: usize,
    /// Its column.
    pub column: usize,
    /// The sum.
    pub value: Exact,
}

/// Sums rounded to so many decimals together, so that those of a row, of a column and of all add up to what is shown of
/// them.
pub fn rounded(cells: impl IntoIterator<Item = MoneyCell>, places: u32) -> Result<Vec<Money>, RoundingError> {
    let unit = (0..places).fold(Exact::ONE, |unit, _| &unit * &Exact::from(10));
    let cell =
        |cell: MoneyCell| RoundingCell { row: cell.row, column: cell.column, value: &cell.value * &unit };
    let cells: Vec<RoundingCell> = cells.into_iter().map(cell).collect();
    controlled(&cells)?.iter().map(|count| Money::of_units(count, places)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn third(row: usize) -> MoneyCell {
        MoneyCell { row, column: 0, value: Exact::ratio(1, 3).unwrap() }
    }

    #[test]
    fn three_thirds_are_one() {
        let thirds = rounded((0..3).map(third), SUM_PLACES).unwrap();
        assert_eq!(Money::try_sum(thirds, SUM_PLACES).unwrap().to_string(), "1.00");
    }

    #[test]
    fn money_is_written_with_its_places() {
        assert_eq!(Money::nearest(&Exact::ratio(1, 2).unwrap(), EACH_PLACES).unwrap().to_string(), "0.5000");
        assert_eq!(Money::try_sum([], SUM_PLACES).unwrap().to_string(), "0.00");
    }

    #[test]
    fn money_past_counting_is_an_error() {
        let much = Exact::from_literal(&"9".repeat(28)).unwrap();
        assert!(matches!(Money::nearest(&much, SUM_PLACES), Err(RoundingError::TooManyDigits { .. })));
    }
}
