//! Sums of money as they are shown.

use levamen_quantity::Exact;

use crate::rounding::{Cell, controlled};

/// Sums are shown in hundredths of the currency: so many decimals.
pub const SUM_PLACES: usize = 2;

/// One sum of a table.
pub struct Sum {
    /// Its row.
    pub row: usize,
    /// Its column.
    pub column: usize,
    /// The exact sum, not below zero.
    pub value: Exact,
}

/// Sums rounded to hundredths together, so that those of a row, of a column and of all add up to what is shown of them.
pub fn to_hundredths(sums: impl IntoIterator<Item = Sum>) -> Vec<Exact> {
    let hundredths =
        |sum: Sum| Cell { row: sum.row, column: sum.column, value: &sum.value * &Exact::HUNDRED };
    let cells: Vec<Cell> = sums.into_iter().map(hundredths).collect();
    controlled(&cells).into_iter().map(|cents| &cents / &Exact::HUNDRED).collect()
}
