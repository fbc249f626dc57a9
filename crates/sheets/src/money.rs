//! Sums of money as they are shown.

use levamen_quantity::Exact;

use crate::rounding::{Cell, controlled};

/// Sums are shown in hundredths of the currency: so many decimals.
pub const SUM_PLACES: usize = 2;

/// What a kilogram or a piece costs has so many decimals: a roll costs a few hundredths.
pub const EACH_PLACES: usize = 4;

/// One sum of a table.
pub struct Sum {
    /// Its row.
    pub row: usize,
    /// Its column.
    pub column: usize,
    /// The exact sum, not below zero.
    pub value: Exact,
}

/// Sums rounded to so many decimals together, so that those of a row, of a column and of all add up to what is shown of them.
pub fn rounded(sums: impl IntoIterator<Item = Sum>, places: usize) -> Vec<Exact> {
    let unit = (0..places).fold(Exact::ONE, |unit, _| &unit * &Exact::from(10));
    let cell = |sum: Sum| Cell { row: sum.row, column: sum.column, value: &sum.value * &unit };
    let cells: Vec<Cell> = sums.into_iter().map(cell).collect();
    controlled(&cells).into_iter().map(|count| count.checked_div(&unit).unwrap_or(count)).collect()
}

/// One figure, rounded alone.
#[must_use]
pub fn alone(value: &Exact, places: usize) -> Exact {
    rounded([Sum { row: 0, column: 0, value: value.clone() }], places).pop().unwrap_or_default()
}
