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

use levamen_quantity::Exact;

use crate::rounding_error::RoundingError;

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
    settle(&mut table);
    improve(&mut table);
    if !table.edges.iter().all(Edge::is_settled) {
        return Err(RoundingError::internal("a cell of a table was left between two whole numbers"));
    }
    Ok(table.rounded(cells))
}

/// A fractional cell: an edge between its row and its column.
#[derive(Debug, Clone)]
struct Edge {
    /// The node of its row.
    row: usize,
    /// The node of its column.
    column: usize,
    /// What is above its whole number: over zero, below one.
    fraction: Exact,
    /// What that has become on the way to zero or one.
    now: Exact,
    /// Whether it is a margin's and not a cell of the table itself.
    in_margin: bool,
}

impl Edge {
    /// Whether nothing of it is left to round.
    fn is_settled(&self) -> bool {
        self.now.is_zero() || self.now.is_one()
    }

    /// The node at the other end.
    fn other(&self, node: usize) -> usize {
        if node == self.row { self.column } else { self.row }
    }
}

/// A table with its margins: in every row and column the fractions add up to a whole number.
#[derive(Debug)]
struct RoundingTable {
    /// The fractional cells, those of the margins last.
    edges: Vec<Edge>,
    /// How many nodes there are: rows, a margin, columns, a margin.
    nodes: usize,
    /// Which edge a cell became; `None` for one that is whole.
    places: Vec<Option<usize>>,
}

impl RoundingTable {
    /// Takes out the fractions and adds the margins.
    fn new(cells: &[RoundingCell]) -> Self {
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
    fn rounded(&self, cells: &[RoundingCell]) -> Vec<Exact> {
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

/// Moves fractions around cycles until none is left.
///
/// A node's fractions add up to a whole number, so none has exactly one: a walk along fractions never ends, and
/// closes a cycle. Adding to every other edge of it what the edges between lose changes no sum, and settles at
/// least one edge.
fn settle(table: &mut RoundingTable) {
    while let Some(cycle) = unsettled_cycle(table) {
        if shift(table, &cycle).is_none() {
            // A cycle has edges; were there one without, the check at the end finds what is left unsettled.
            return;
        }
    }
}

/// A cycle of unsettled edges; `None` where all is settled.
fn unsettled_cycle(table: &RoundingTable) -> Option<Vec<usize>> {
    let first = table.edges.iter().position(|edge| !edge.is_settled())?;
    let mut walk = vec![first];
    let start = table.edges.get(first)?;
    let mut nodes = vec![start.row, start.column];
    loop {
        let (node, last) = (*nodes.last()?, *walk.last()?);
        let next = table.edges.iter().enumerate().position(|(index, edge)| {
            index != last && !edge.is_settled() && (edge.row == node || edge.column == node)
        })?;
        let reached = table.edges.get(next)?.other(node);
        walk.push(next);
        if let Some(closed) = nodes.iter().position(|&seen| seen == reached) {
            return walk.get(closed..).map(<[usize]>::to_vec);
        }
        nodes.push(reached);
    }
}

/// Moves along a cycle, the shorter way of the two, as far as the first edge allows; `None` of a cycle without edges.
fn shift(table: &mut RoundingTable, cycle: &[usize]) -> Option<()> {
    let room = |table: &RoundingTable, up_at: usize| {
        let rooms = cycle
            .iter()
            .enumerate()
            .filter_map(|(at, &index)| table.edges.get(index).map(|edge| room(edge, at % 2 == up_at)));
        rooms.min()
    };
    let (even_up, odd_up) = (room(table, 0)?, room(table, 1)?);
    let (step, up_at) = if even_up <= odd_up { (even_up, 0) } else { (odd_up, 1) };
    for (at, &index) in cycle.iter().enumerate() {
        if let Some(edge) = table.edges.get_mut(index) {
            edge.now = if at % 2 == up_at { &edge.now + &step } else { &edge.now - &step };
        }
    }
    Some(())
}

/// How far an edge can go up to one, or down to zero.
fn room(edge: &Edge, up: bool) -> Exact {
    if up { &Exact::ONE - &edge.now } else { edge.now.clone() }
}

/// A way to turn an edge over, as a step from one node to another: edges at zero lead from row to column, edges at
/// one back. A closed walk then turns edges up and down by turns and changes no sum.
struct EdgeStep {
    from: usize,
    to: usize,
    edge: usize,
    /// What the squared changes of the table gain by it: (1 - f)² - f² = 1 - 2f upwards, the opposite downwards. A
    /// margin costs nothing: it holds its sum to less than one, and within that the cells come first.
    cost: Exact,
}

/// Turns edges over along cycles that lower the sum of squared changes, until there is none: then it is the
/// smallest, as in any flow of least cost. Each cycle lowers a sum that has finitely many values, so this ends.
fn improve(table: &mut RoundingTable) {
    while let Some(cycle) = cheaper_cycle(table) {
        for index in cycle {
            if let Some(edge) = table.edges.get_mut(index) {
                edge.now = &Exact::ONE - &edge.now;
            }
        }
    }
}

fn steps(table: &RoundingTable) -> Vec<EdgeStep> {
    let step = |(index, edge): (usize, &Edge)| {
        let up = if edge.in_margin { Exact::ZERO } else { &Exact::ONE - &(&edge.fraction + &edge.fraction) };
        if edge.now.is_zero() {
            EdgeStep { from: edge.row, to: edge.column, edge: index, cost: up }
        } else {
            EdgeStep { from: edge.column, to: edge.row, edge: index, cost: -&up }
        }
    };
    table.edges.iter().enumerate().map(step).collect()
}

/// A cycle of negative cost, by the method of Bellman and Ford; `None` where there is none.
fn cheaper_cycle(table: &RoundingTable) -> Option<Vec<usize>> {
    let steps = steps(table);
    let mut costs = vec![Exact::ZERO; table.nodes];
    let mut came_by: Vec<Option<usize>> = vec![None; table.nodes];
    let mut last = None;
    for _ in 0..table.nodes {
        last = None;
        for (index, step) in steps.iter().enumerate() {
            let cost = costs.get(step.from)? + &step.cost;
            let known = costs.get_mut(step.to)?;
            if cost < *known {
                *known = cost;
                *came_by.get_mut(step.to)? = Some(index);
                last = Some(step.to);
            }
        }
        last?;
    }
    trace(&steps, &came_by, last?)
}

/// Goes back from a node that still got cheaper after as many rounds as there are nodes: the way there holds a
/// cycle of negative cost.
fn trace(steps: &[EdgeStep], came_by: &[Option<usize>], from: usize) -> Option<Vec<usize>> {
    let before = |node: usize| -> Option<&EdgeStep> { steps.get((*came_by.get(node)?)?) };
    let mut node = from;
    for _ in came_by {
        node = before(node)?.from;
    }
    let on_cycle = node;
    let mut cycle = Vec::new();
    loop {
        let step = before(node)?;
        cycle.push(step.edge);
        node = step.from;
        if node == on_cycle {
            return Some(cycle);
        }
    }
}

#[cfg(test)]
mod tests;
