//! From a controlled rounding to the nearest one.

use levamen_quantity::Exact;

use super::table::{Edge, RoundingTable};

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
pub fn improve(table: &mut RoundingTable) {
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
