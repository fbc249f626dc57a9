//! What must hold of every rounded table.

use proptest::prelude::*;

use super::*;

fn exact(numer: i64, denom: i64) -> Exact {
    Exact::ratio(numer, denom).unwrap()
}

fn table(rows: &[&[(i64, i64)]]) -> Vec<RoundingCell> {
    let cells = rows.iter().enumerate().flat_map(|(row, cells)| {
        let cell = move |(column, &(numer, denom)): (usize, &(i64, i64))| RoundingCell {
            row,
            column,
            value: exact(numer, denom),
        };
        cells.iter().enumerate().map(cell)
    });
    cells.collect()
}

fn whole(values: &[i64]) -> Vec<Exact> {
    values.iter().copied().map(Exact::from).collect()
}

#[test]
fn whole_cells_stay() {
    let cells = table(&[&[(3, 1), (0, 1)], &[(7, 1), (12, 1)]]);
    assert_eq!(controlled(&cells).unwrap(), whole(&[3, 0, 7, 12]));
}

#[test]
fn a_row_of_thirds_keeps_its_sum() {
    let rounded = controlled(&table(&[&[(1, 3), (1, 3), (1, 3)]])).unwrap();
    assert_eq!(rounded.iter().sum::<Exact>(), Exact::ONE);
}

#[test]
fn where_plain_rounding_is_controlled_it_is_kept() {
    let cells = table(&[&[(101, 100), (299, 100)], &[(199, 100), (201, 100)]]);
    assert_eq!(controlled(&cells).unwrap(), whole(&[1, 3, 2, 2]));
}

#[test]
fn one_cell_goes_to_the_nearest() {
    assert_eq!(controlled(&table(&[&[(14, 10)]])).unwrap(), whole(&[1]));
    assert_eq!(controlled(&table(&[&[(16, 10)]])).unwrap(), whole(&[2]));
}

#[test]
fn nothing_is_nothing() {
    assert_eq!(controlled(&[]).unwrap(), vec![]);
}

#[test]
fn two_cells_may_share_a_place() {
    let cells = [exact(1, 2), exact(5, 2)].map(|value| RoundingCell { row: 0, column: 0, value });
    assert_eq!(controlled(&cells).unwrap().iter().sum::<Exact>(), Exact::from(3));
}

/// Each row and each column of halves or of thirds adds up to one, so one cell of each becomes one and the others nothing.
#[test]
fn a_square_of_equal_parts_keeps_every_row_and_column() {
    for size in [2, 3, 4] {
        let row = vec![(1, size); usize::try_from(size).unwrap()];
        let cells = table(&vec![row.as_slice(); row.len()]);
        let rounded = controlled(&cells).unwrap();
        for line in 0..row.len() {
            let sum = |place: fn(&RoundingCell) -> usize| -> Exact {
                cells
                    .iter()
                    .zip(&rounded)
                    .filter(|(cell, _)| place(cell) == line)
                    .map(|(_, value)| value)
                    .sum()
            };
            assert_eq!([sum(|cell| cell.row), sum(|cell| cell.column)], [Exact::ONE, Exact::ONE]);
        }
    }
}

/// 0.9 and 0.4 go to 1 and 0 by themselves, and so they do in a row, since 1.3 may become 1. Two of 0.4 and one of 0.2 are one
/// whole: one of the 0.4 becomes it, and not the 0.2.
#[test]
fn what_makes_a_sum_whole_is_the_cell_that_is_nearest() {
    assert_eq!(controlled(&table(&[&[(9, 10), (4, 10)]])).unwrap(), whole(&[1, 0]));
    let rounded = controlled(&table(&[&[(4, 10), (2, 10), (4, 10)]])).unwrap();
    assert_eq!((rounded[1].clone(), rounded.iter().sum::<Exact>()), (Exact::ZERO, Exact::ONE));
}

/// A cell between the whole ones of a cross: only it and its margins move.
#[test]
fn a_single_fraction_moves_nothing_else() {
    let cells = table(&[&[(3, 1), (5, 2)], &[(4, 1), (6, 1)]]);
    let rounded = controlled(&cells).unwrap();
    assert_eq!([&rounded[0], &rounded[2], &rounded[3]], [&Exact::from(3), &Exact::from(4), &Exact::from(6)]);
    assert!(rounded[1] == Exact::from(2) || rounded[1] == Exact::from(3));
}

/// The same table comes out the same every time: a sheet that is printed twice must be the same sheet.
#[test]
fn a_tie_falls_the_same_way_each_time() {
    let cells = table(&[&[(1, 2), (1, 2)], &[(1, 2), (1, 2)]]);
    let first = controlled(&cells).unwrap();
    assert_eq!(controlled(&cells).unwrap(), first);
}

/// The sums of the rows, of the columns and of all.
fn sums(cells: &[RoundingCell], values: &[Exact]) -> Vec<Exact> {
    let mut sums = vec![Exact::ZERO; 40];
    for (cell, value) in cells.iter().zip(values) {
        for place in [cell.row, 20 + cell.column, 39] {
            sums[place] += value;
        }
    }
    sums
}

fn values(cells: &[RoundingCell]) -> Vec<Exact> {
    cells.iter().map(|cell| cell.value.clone()).collect()
}

fn moves_less_than_one(before: &[Exact], after: &[Exact]) -> bool {
    before.iter().zip(after).all(|(before, after)| (before - after).abs() < Exact::ONE)
}

fn is_controlled(cells: &[RoundingCell], rounded: &[Exact]) -> bool {
    let before = values(cells);
    rounded.iter().all(|value| *value == value.floor())
        && moves_less_than_one(&before, rounded)
        && moves_less_than_one(&sums(cells, &before), &sums(cells, rounded))
}

/// The sum of the squared changes.
fn cost(cells: &[RoundingCell], rounded: &[Exact]) -> Exact {
    let squares = cells.iter().zip(rounded).map(|(cell, after)| {
        let change = &cell.value - after;
        &change * &change
    });
    squares.collect::<Vec<_>>().iter().sum()
}

/// Every way to take each cell to the whole number below or above.
fn every_way(cells: &[RoundingCell]) -> impl Iterator<Item = Vec<Exact>> + '_ {
    (0..1_u32 << cells.len()).map(|ways| {
        let way = |(at, cell): (usize, &RoundingCell)| {
            let below = cell.value.floor();
            let is_whole = below == cell.value;
            if ways >> at & 1 == 1 && !is_whole { &below + &Exact::ONE } else { below }
        };
        cells.iter().enumerate().map(way).collect()
    })
}

fn any_table(rows: usize, columns: usize) -> impl Strategy<Value = Vec<RoundingCell>> {
    let cell = (0i64..400, prop_oneof![Just(1i64), Just(2), Just(3), Just(10), 1i64..2000]);
    let size = (1..=rows, 1..=columns);
    size.prop_flat_map(move |(rows, columns)| {
        let cells = prop::collection::vec((0..rows, 0..columns, cell.clone()), 1..=rows * columns);
        cells.prop_map(|cells| {
            let cell =
                |(row, column, (numer, denom))| RoundingCell { row, column, value: exact(numer, denom) };
            cells.into_iter().map(cell).collect()
        })
    })
}

proptest! {
    #[test]
    fn no_cell_and_no_sum_moves_by_one(cells in any_table(12, 6)) {
        prop_assert!(is_controlled(&cells, &controlled(&cells).unwrap()));
    }

    #[test]
    fn no_controlled_rounding_is_nearer(cells in any_table(3, 3)) {
        let found = cost(&cells, &controlled(&cells).unwrap());
        for way in every_way(&cells) {
            prop_assert!(!is_controlled(&cells, &way) || cost(&cells, &way) >= found);
        }
    }
}
