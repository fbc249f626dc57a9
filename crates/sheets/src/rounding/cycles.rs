//! From fractions to zeros and ones, a cycle at a time.

use levamen_quantity::Exact;

use super::table::{Edge, RoundingTable};

/// Moves fractions around cycles until none is left.
///
/// A node's fractions add up to a whole number, so none has exactly one: a walk along fractions never ends, and
/// closes a cycle. Adding to every other edge of it what the edges between lose changes no sum, and settles at
/// least one edge.
pub fn settle(table: &mut RoundingTable) {
    while let Some(cycle) = find(table) {
        shift(table, &cycle);
    }
}

/// A cycle of unsettled edges; `None` where all is settled.
fn find(table: &RoundingTable) -> Option<Vec<usize>> {
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

/// Moves along a cycle, the shorter way of the two, as far as the first edge allows.
fn shift(table: &mut RoundingTable, cycle: &[usize]) {
    let room = |table: &RoundingTable, up_at: usize| {
        let rooms = cycle
            .iter()
            .enumerate()
            .filter_map(|(at, &index)| table.edges.get(index).map(|edge| room(edge, at % 2 == up_at)));
        // A cycle has edges.
        rooms.min().unwrap_or_default()
    };
    let (even_up, odd_up) = (room(table, 0), room(table, 1));
    let (step, up_at) = if even_up <= odd_up { (even_up, 0) } else { (odd_up, 1) };
    for (at, &index) in cycle.iter().enumerate() {
        if let Some(edge) = table.edges.get_mut(index) {
            edge.now = if at % 2 == up_at { &edge.now + &step } else { &edge.now - &step };
        }
    }
}

/// How far an edge can go up to one, or down to zero.
fn room(edge: &Edge, up: bool) -> Exact {
    if up { &Exact::ONE - &edge.now } else { edge.now.clone() }
}
