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

    /// A table of money in thousandths, row by row.
    fn table(rows: &[&[i64]]) -> Vec<MoneyCell> {
        let cell = |row, column, thousandths| MoneyCell {
            row,
            column,
            value: Exact::ratio(thousandths, 1000).unwrap(),
        };
        let rows = rows.iter().enumerate();
        rows.flat_map(|(row, cells)| cells.iter().enumerate().map(move |(at, value)| cell(row, at, *value)))
            .collect()
    }

    fn sum(money: impl IntoIterator<Item = Money>) -> String {
        Money::try_sum(money, SUM_PLACES).unwrap().to_string()
    }

    /// Half a cent and half a cent are one cent: one of the two is written with it, and never both or none.
    #[test]
    fn a_tie_of_half_cents_is_one_cent() {
        let halves = rounded(table(&[&[5, 5]]), SUM_PLACES).unwrap();
        assert_eq!(sum(halves.iter().copied()), "0.01");
        let mut written = halves.iter().map(Money::to_string).collect::<Vec<_>>();
        written.sort();
        assert_eq!(written, ["0.00", "0.01"]);
    }

    /// Four times 0.125: two rows and two columns of 0.25, and 0.50 in all. Cell by cell it would be 0.13 four times, 0.52.
    #[test]
    fn rows_columns_and_all_add_up_to_the_cent() {
        let cells = rounded(table(&[&[125, 125], &[125, 125]]), SUM_PLACES).unwrap();
        let of = |places: [usize; 2]| sum(places.map(|place| cells[place]));
        assert_eq!([of([0, 1]), of([2, 3]), of([0, 2]), of([1, 3])], [const { "0.25" }; 4]);
        assert_eq!(sum(cells.iter().copied()), "0.50");
    }

    /// 0.334 + 0.333 + 0.333 = 1.000, in cents 0.34 + 0.33 + 0.33: the cent goes to the one that is nearest to it.
    #[test]
    fn the_cent_goes_to_who_is_nearest_to_it() {
        let cells = rounded(table(&[&[334], &[333], &[333]]), SUM_PLACES).unwrap();
        assert_eq!(cells.iter().map(Money::to_string).collect::<Vec<_>>(), ["0.34", "0.33", "0.33"]);
    }

    #[test]
    fn an_amount_is_without_needless_zeros_and_a_sum_has_its_places() {
        let two = Money::new(Decimal::new(2_5000, 4));
        assert_eq!((two.to_string(), two.amount().to_string()), ("2.5000".to_owned(), "2.5".to_owned()));
        assert_eq!(
            Money::try_sum([two, Money::new(Decimal::new(5, 1))], SUM_PLACES).unwrap().to_string(),
            "3.0000"
        );
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
