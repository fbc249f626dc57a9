//! Which facts are coupled, and in which order the coupled ones can be solved.
//!
//! Facts and unknown figures form a bipartite graph. A matching gives each figure a fact of its own; the strongly
//! connected components of the facts that then lean on each other are the blocks of a triangular order (A. L. Dulmage and
//! N. S. Mendelsohn, "Coverings of Bipartite Graphs", Canadian Journal of Mathematics 10 (1958) 517-534; the components by R. E.
//! Tarjan, "Depth-First Search and Linear Graph Algorithms", SIAM Journal on Computing 1 (1972) 146-160; both from memory).
//!
//! No walk here is recursive: a chain of stages may be long.

use levamen_formula::{FigureId, Neighbour, strongly_connected};
use rustc_hash::FxHashMap;

/// A row and the figures in it that have no value yet.
pub(super) struct Unsolved {
    pub row: usize,
    pub figures: Vec<FigureId>,
    /// Whether the row may repeat what others say: it is used only where no other will do.
    pub spare: bool,
}

/// The blocks of rows in an order in which each leans only on those before it. Rows that no figure needs are in no
/// block: they repeat what others say, or contradict it.
pub(super) fn blocks(rows: &[Unsolved]) -> Vec<Vec<usize>> {
    let graph = Graph::new(rows);
    let matching = graph.matching();
    let blocks = graph.components(&matching);
    blocks
        .into_iter()
        .map(|block| block.iter().filter_map(|row| rows.get(*row)).map(|row| row.row).collect())
        .collect()
}

/// Rows by the figures in them, both numbered from nought.
struct Graph {
    figures_of: Vec<Vec<usize>>,
    figures: usize,
    spare: Vec<bool>,
}

/// By figure: the row that is its own.
type Matching = Vec<Option<usize>>;

impl Graph {
    fn new(rows: &[Unsolved]) -> Self {
        let mut numbers: FxHashMap<FigureId, usize> = FxHashMap::default();
        let mut number = |figure: &FigureId| {
            let next = numbers.len();
            *numbers.entry(*figure).or_insert(next)
        };
        let figures_of = rows.iter().map(|row| row.figures.iter().map(&mut number).collect()).collect();
        let spare = rows.iter().map(|row| row.spare).collect();
        Self { figures_of, figures: numbers.len(), spare }
    }

    fn figures_of(&self, row: usize) -> &[usize] {
        self.figures_of.get(row).map(Vec::as_slice).unwrap_or_default()
    }

    /// A largest matching: spare rows choose last, before them rows with few figures first, and a row that finds all of its figures taken looks for
    /// another place for those that took them.
    fn matching(&self) -> Matching {
        let mut row_of: Matching = vec![None; self.figures];
        let mut rows: Vec<usize> = (0..self.figures_of.len()).collect();
        rows.sort_by_key(|row| (self.spare.get(*row).copied(), self.figures_of(*row).len()));
        let mut seen = vec![usize::MAX; self.figures];
        for row in rows {
            self.augment(row, &mut row_of, &mut seen);
        }
        row_of
    }

    /// Finds a figure for a row. `seen` marks the figures that this search has looked at.
    fn augment(&self, start: usize, row_of: &mut Matching, seen: &mut [usize]) {
        // The rows on the way, each with the next of its figures to try.
        let mut path: Vec<(usize, usize)> = vec![(start, 0)];
        while let Some((row, next)) = path.last_mut() {
            let Some(figure) = self.figures_of(*row).get(*next).copied() else {
                path.pop();
                continue;
            };
            *next += 1;
            match seen.get_mut(figure) {
                Some(mark) if *mark != start => *mark = start,
                _ => continue,
            }
            if let Some(holder) = row_of.get(figure).copied().flatten() {
                path.push((holder, 0));
                continue;
            }
            // Every row on the way takes the figure that it tried last.
            for (row, next) in path {
                let taken = self.figures_of(row).get(next - 1);
                if let Some(slot) = taken.and_then(|figure| row_of.get_mut(*figure)) {
                    *slot = Some(row);
                }
            }
            return;
        }
    }

    /// The rows that lean on each other, each group after those that it leans on.
    fn components(&self, row_of: &Matching) -> Vec<Vec<usize>> {
        let mut matched = vec![false; self.figures_of.len()];
        for row in row_of.iter().flatten() {
            if let Some(slot) = matched.get_mut(*row) {
                *slot = true;
            }
        }
        let starts = (0..self.figures_of.len()).filter(|row| matched.get(*row) == Some(&true));
        strongly_connected(self.figures_of.len(), starts, |row, nth| {
            let Some(figure) = self.figures_of(row).get(nth) else { return Neighbour::End };
            row_of.get(*figure).copied().flatten().map_or(Neighbour::Outside, Neighbour::Node)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unsolved(rows: &[&[u32]]) -> Vec<Unsolved> {
        let figures = |row: &[u32]| row.iter().copied().map(FigureId).collect();
        rows.iter()
            .enumerate()
            .map(|(row, figures_of)| Unsolved { row, figures: figures(figures_of), spare: false })
            .collect()
    }

    #[test]
    fn a_triangle_is_solved_row_by_row() {
        assert_eq!(blocks(&unsolved(&[&[0, 1, 2], &[0, 1], &[0]])), [vec![2], vec![1], vec![0]]);
    }

    #[test]
    fn rows_that_lean_on_each_other_are_one_block() {
        let mut found = blocks(&unsolved(&[&[0, 1], &[0, 1], &[1, 2], &[2, 3]]));
        found.first_mut().unwrap().sort_unstable();
        assert_eq!(found, [vec![0, 1], vec![2], vec![3]]);
    }

    #[test]
    fn a_row_too_many_is_in_no_block() {
        assert_eq!(blocks(&unsolved(&[&[0], &[0]])).concat().len(), 1);
    }

    #[test]
    fn a_spare_row_is_used_where_no_other_will_do() {
        let mut rows = unsolved(&[&[0], &[0, 1], &[1]]);
        rows[0].spare = true;
        assert_eq!(blocks(&rows), [vec![2], vec![1]]);
        rows.pop();
        assert_eq!(blocks(&rows), [vec![0], vec![1]]);
    }

    #[test]
    fn a_long_chain_does_not_use_up_the_stack() {
        let rows: Vec<Unsolved> = (0..50_000)
            .map(|row| Unsolved { row: row as usize, ..unsolved(&[&[row, row + 1]]).remove(0) })
            .collect();
        assert_eq!(blocks(&rows).concat().len(), rows.len());
    }
}
