//! The fractional cells of a table and of its margins, as a graph: rows and columns are nodes, cells are edges.

use levamen_quantity::Exact;

use super::RoundingCell;

/// A fractional cell: an edge between its row and its column.
#[derive(Debug, Clone)]
pub struct Edge {
    /// The node of its row.
    pub row: usize,
    /// The node of its column.
    pub column: usize,
    /// What is above its whole number: over zero, below one.
    pub fraction: Exact,
    /// What that has become on the way to zero or one.
    pub now: Exact,
    /// Whether it is a margin's and not a cell of the table itself.
    pub in_margin: bool,
}

impl Edge {
    /// Whether nothing of it is left to round.
    pub fn is_settled(&self) -> bool {
        self.now.is_zero() || self.now.is_one()
    }

    /// The node at the other end.
    pub fn other(&self, node: usize) -> usize {
        if node == self.row { self.column } else { self.row }
    }
}

/// A table with its margins: in every row and column the fractions add up to a whole number.
#[derive(Debug)]
pub struct RoundingTable {
    /// The fractional cells, those of the margins last.
    pub edges: Vec<Edge>,
    /// How many nodes there are: rows, a margin, columns, a margin.
    pub nodes: usize,
    /// Which edge a cell became; `None` for one that is whole.
    places: Vec<Option<usize>>,
}

impl RoundingTable {
    /// Takes out the fractions and adds the margins.
    pub fn new(cells: &[RoundingCell]) -> Self {
        let rows = cells.iter().map(|cell| cell.row + 1).max().unwrap_or(0);
        let columns = cells.iter().map(|cell| cell.column + 1).max().unwrap_or(0);
        let mut table = Self { edges: Vec::new(), nodes: rows + columns + 2, places: Vec::new() };
        for cell in cells {
            let place = table.add(cell.row, rows + 1 + cell.column, fraction(&cell.value), false);
            table.places.push(place);
        }
        table.add_margins(rows, columns);
        table
    }

    /// A margin holds what its row or column lacks to be whole; the corner does so for the margins themselves.
    fn add_margins(&mut self, rows: usize, columns: usize) {
        let mut sums = vec![Exact::ZERO; self.nodes];
        let mut total = Exact::ZERO;
        for edge in &self.edges {
            for node in [edge.row, edge.column] {
                if let Some(sum) = sums.get_mut(node) {
                    *sum += &edge.fraction;
                }
            }
            total += &edge.fraction;
        }
        let (margin_row, margin_column) = (rows, rows + 1 + columns);
        for (node, sum) in sums.into_iter().enumerate() {
            let lacks = fraction(&-&sum);
            // The margins themselves are still empty, and lack nothing.
            let (row, column) = if node < margin_row { (node, margin_column) } else { (margin_row, node) };
            self.add(row, column, lacks, true);
        }
        self.add(margin_row, margin_column, fraction(&total), true);
    }

    fn add(&mut self, row: usize, column: usize, fraction: Exact, in_margin: bool) -> Option<usize> {
        if fraction.is_zero() {
            return None;
        }
        self.edges.push(Edge { row, column, now: fraction.clone(), fraction, in_margin });
        Some(self.edges.len() - 1)
    }

    /// Each cell's whole number and what became of its fraction.
    pub fn rounded(&self, cells: &[RoundingCell]) -> Vec<Exact> {
        let settled =
            |place: &Option<usize>| place.and_then(|edge| self.edges.get(edge)).map(|edge| &edge.now);
        let pairs = cells.iter().zip(&self.places);
        pairs
            .map(|(cell, place)| {
                let whole = cell.value.floor();
                settled(place).map_or_else(|| whole.clone(), |part| &whole + part)
            })
            .collect()
    }
}

/// What is above the whole number below.
fn fraction(value: &Exact) -> Exact {
    value - &value.floor()
}
