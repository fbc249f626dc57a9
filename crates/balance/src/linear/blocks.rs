//! Which equations are coupled, and in which order the coupled ones can be solved: the block triangular form of
//! Dulmage and Mendelsohn.
//!
//! Equations and unknown variables form a bipartite graph. A matching gives each variable an equation of its own; the
//! strongly connected components of the equations that then depend on each other are the blocks of a triangular order
//! (A. L. Dulmage and N. S. Mendelsohn, "Coverings of Bipartite Graphs", Canadian Journal of Mathematics 10 (1958)
//! 517-534; the components by R. E. Tarjan, "Depth-First Search and Linear Graph Algorithms", SIAM Journal on Computing
//! 1 (1972) 146-160; both from memory).
//!
//! No walk here is recursive: a chain of stages may be long.

use levamen_formula::{Neighbour, VariableId, strongly_connected};
use rustc_hash::FxHashMap;

/// A row and the variables in it that have no value yet.
pub(super) struct OpenRow {
    pub row: usize,
    pub variables: Vec<VariableId>,
    /// Whether the row may repeat what others say: it is used only where no other will do.
    pub spare: bool,
}

/// The blocks of rows in an order in which each leans only on those before it. Rows that no variable needs are in no
/// block: they repeat what others say, or contradict it.
pub(super) fn blocks(rows: &[OpenRow]) -> Vec<Vec<usize>> {
    // 1. The bipartite graph of rows and the variables in them.
    let graph = Graph::new(rows);
    // 2. A maximum matching, by augmenting paths: each variable gets a row of its own.
    let matching = graph.matching();
    // 3. The strongly connected components of the rows that need each other's variables are the diagonal blocks.
    let blocks = graph.components(&matching);
    blocks
        .into_iter()
        .map(|block| block.iter().filter_map(|row| rows.get(*row)).map(|row| row.row).collect())
        .collect()
}

/// Rows by the variables in them, both numbered from zero.
struct Graph {
    variables_of: Vec<Vec<usize>>,
    variables: usize,
    spare: Vec<bool>,
}

/// By variable: the row that is its own.
type Matching = Vec<Option<usize>>;

impl Graph {
    fn new(rows: &[OpenRow]) -> Self {
        let mut numbers: FxHashMap<VariableId, usize> = FxHashMap::default();
        let mut number = |variable: &VariableId| {
            let next = numbers.len();
            *numbers.entry(*variable).or_insert(next)
        };
        let variables_of = rows.iter().map(|row| row.variables.iter().map(&mut number).collect()).collect();
        let spare = rows.iter().map(|row| row.spare).collect();
        Self { variables_of, variables: numbers.len(), spare }
    }

    fn variables_of(&self, row: usize) -> &[usize] {
        self.variables_of.get(row).map(Vec::as_slice).unwrap_or_default()
    }

    /// A largest matching: spare rows choose last, before them rows with few variables first, and a row that finds all
    /// of its variables taken looks for another place for those that took them.
    fn matching(&self) -> Matching {
        let mut row_of: Matching = vec![None; self.variables];
        let mut rows: Vec<usize> = (0..self.variables_of.len()).collect();
        rows.sort_by_key(|row| (self.spare.get(*row).copied(), self.variables_of(*row).len()));
        let mut seen = vec![usize::MAX; self.variables];
        for row in rows {
            self.augment(row, &mut row_of, &mut seen);
        }
        row_of
    }

    /// Finds a variable for a row. `seen` marks the variables that this search has looked at.
    fn augment(&self, start: usize, row_of: &mut Matching, seen: &mut [usize]) {
        // The rows on the way, each with the next of its variables to try.
        let mut path: Vec<(usize, usize)> = vec![(start, 0)];
        while let Some((row, next)) = path.last_mut() {
            let Some(variable) = self.variables_of(*row).get(*next).copied() else {
                path.pop();
                continue;
            };
            *next += 1;
            match seen.get_mut(variable) {
                Some(mark) if *mark != start => *mark = start,
                _ => continue,
            }
            if let Some(holder) = row_of.get(variable).copied().flatten() {
                path.push((holder, 0));
                continue;
            }
            // Every row on the way takes the variable that it tried last.
            for (row, next) in path {
                let taken = self.variables_of(row).get(next - 1);
                if let Some(slot) = taken.and_then(|variable| row_of.get_mut(*variable)) {
                    *slot = Some(row);
                }
            }
            return;
        }
    }

    /// The rows that depend on each other, each group after those that it depends on.
    fn components(&self, row_of: &Matching) -> Vec<Vec<usize>> {
        let mut matched = vec![false; self.variables_of.len()];
        for row in row_of.iter().flatten() {
            if let Some(slot) = matched.get_mut(*row) {
                *slot = true;
            }
        }
        let starts = (0..self.variables_of.len()).filter(|row| matched.get(*row) == Some(&true));
        strongly_connected(self.variables_of.len(), starts, |row, nth| {
            let Some(variable) = self.variables_of(row).get(nth) else { return Neighbour::End };
            row_of.get(*variable).copied().flatten().map_or(Neighbour::Outside, Neighbour::Node)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unsolved(rows: &[&[u32]]) -> Vec<OpenRow> {
        let variables = |row: &[u32]| row.iter().copied().map(VariableId).collect();
        rows.iter()
            .enumerate()
            .map(|(row, variables_of)| OpenRow { row, variables: variables(variables_of), spare: false })
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
        let rows: Vec<OpenRow> = (0..50_000)
            .map(|row| OpenRow { row: row as usize, ..unsolved(&[&[row, row + 1]]).remove(0) })
            .collect();
        assert_eq!(blocks(&rows).concat().len(), rows.len());
    }
}
