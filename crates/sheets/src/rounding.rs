//! Controlled rounding: every cell of a table to a whole number, and its sums with it.
//!
//! Rounding cell by cell lets a row of thirds lose a whole division. Controlled rounding moves no cell by one or
//! more, and no row sum, column sum or grand total either; a cell that is whole already stays.
//!
//! The method is that of L. H. Cox, "A constructive procedure for unbiased controlled rounding", Journal of the
//! American Statistical Association 82 (1987), 520-524 (volume and pages from memory): give the table a margin
//! that makes every row and column whole, then move what is fractional around cycles until nothing is. Cox draws
//! lots at each cycle; a bench sheet must come out the same every time, so here the shorter way is taken. What
//! comes out is then improved until no table with the same properties has a smaller sum of squared changes: a cell
//! goes to its nearest whole number unless that would move a sum by one.

mod cycles;
mod improve;
mod table;

use levamen_quantity::Exact;

use crate::rounding_error::RoundingError;
use table::RoundingTable;

/// One cell of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundingCell {
    /// Its row, counted from 0.
    pub row: usize,
    /// Its column, counted from 0.
    pub column: usize,
    /// Its value, in the unit to which it is rounded; not below zero.
    pub value: Exact,
}

/// The cells as whole numbers, in the order in which they came. Two cells may stand in the same row and column;
/// a place without a cell is nothing and stays nothing.
pub fn controlled(cells: &[RoundingCell]) -> Result<Vec<Exact>, RoundingError> {
    let mut table = RoundingTable::new(cells);
    cycles::settle(&mut table);
    improve::improve(&mut table);
    if !table.edges.iter().all(table::Edge::is_settled) {
        return Err(RoundingError::internal("a cell of a table was left between two whole numbers"));
    }
    Ok(table.rounded(cells))
}

#[cfg(test)]
mod tests;
