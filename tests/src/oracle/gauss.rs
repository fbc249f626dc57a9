//! Gauss and Jordan, over exact numbers.

use num_traits::Zero;

use crate::ratio::Ratio;

/// Solves linear equations. Each row holds the coefficients of the unknowns and, last, the constant that they add up
/// to.
///
/// # Errors
/// Where the equations contradict each other or leave an unknown free.
pub(super) fn solve(mut rows: Vec<Vec<Ratio>>) -> Result<Vec<Ratio>, String> {
    let unknowns = rows.first().map_or(0, |row| row.len().saturating_sub(1));
    for column in 0..unknowns {
        let pivot = (column..rows.len()).find(|row| !rows[*row][column].is_zero());
        let pivot = pivot.ok_or_else(|| format!("unknown {column} is free"))?;
        rows.swap(column, pivot);
        let leading = rows[column][column].clone();
        for cell in rows[column].iter_mut().filter(|cell| !cell.is_zero()) {
            *cell /= &leading;
        }
        let (before, rest) = rows.split_at_mut(column);
        let Some((reduced, after)) = rest.split_first_mut() else { break };
        for row in before.iter_mut().chain(after) {
            subtract(row, reduced, column);
        }
    }
    if rows.iter().skip(unknowns).any(|row| row.iter().any(|cell| !cell.is_zero())) {
        return Err("the equations contradict each other".to_owned());
    }
    Ok(rows.into_iter().take(unknowns).filter_map(|mut row| row.pop()).collect())
}

/// Takes a multiple of a reduced row off another, so that nothing is left in the column.
fn subtract(row: &mut [Ratio], reduced: &[Ratio], column: usize) {
    let factor = row[column].clone();
    if factor.is_zero() {
        return;
    }
    for (cell, other) in row.iter_mut().zip(reduced).filter(|(_, other)| !other.is_zero()) {
        *cell -= &factor * other;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ratio::{ratio, whole};

    fn rows(rows: &[&[i64]]) -> Vec<Vec<Ratio>> {
        rows.iter().map(|row| row.iter().map(|cell| whole(*cell)).collect()).collect()
    }

    #[test]
    fn two_unknowns() {
        let solved = solve(rows(&[&[0, 2, 1], &[3, 1, 1]])).unwrap();
        assert_eq!(solved, [ratio(1, 6), ratio(1, 2)]);
    }

    #[test]
    fn contradictions_and_free_unknowns_are_told() {
        assert!(solve(rows(&[&[1, 1], &[1, 2]])).is_err());
        assert!(solve(rows(&[&[1, 1, 2]])).is_err());
    }
}
