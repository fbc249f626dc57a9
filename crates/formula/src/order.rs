//! The order in which things are solved that take from each other: each after all that it takes from, and those that
//! take from each other in a circle together.
//!
//! In terms of graphs these groups are the strongly connected components, in reverse topological order. They are found
//! by Tarjan's algorithm (R. E. Tarjan, "Depth-First Search and Linear Graph Algorithms", SIAM Journal on Computing 1
//! (1972) 146-160; from memory). It is not recursive here: a chain of doughs or of stages may be long.

use rustc_hash::FxHashMap;

use crate::book::Book;
use crate::formula::Formula;
use crate::stage::FormulaId;

/// What a node takes from, as the caller of [`strongly_connected`] says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Neighbour {
    /// Another node, or the node itself.
    Node(usize),
    /// Something that is not part of the search.
    Outside,
    /// There are no more.
    End,
}

/// The strongly connected components of a graph that can be reached from some nodes, each component after those that it
/// takes from. Nodes are numbered from zero and below `nodes`; `neighbour` gives the n-th node that a node takes from.
///
/// Without circles every component is one node, and the components are in the order of a depth-first search: the order
/// of `starts` and of the neighbours is kept where it can be.
#[must_use]
pub fn strongly_connected(
    nodes: usize,
    starts: impl IntoIterator<Item = usize>,
    neighbour: impl Fn(usize, usize) -> Neighbour,
) -> Vec<Vec<usize>> {
    let mut search = TarjanSearch::new(nodes);
    for start in starts {
        search.from(start, &neighbour);
    }
    search.components
}

/// Tarjan's search, with a stack of its own.
struct TarjanSearch {
    /// By node: when it was visited first.
    index: Vec<Option<usize>>,
    /// By node: the smallest index on the stack that it reaches, its low link.
    low_link: Vec<usize>,
    on_stack: Vec<bool>,
    stack: Vec<usize>,
    /// How many nodes were visited.
    count: usize,
    components: Vec<Vec<usize>>,
}

impl TarjanSearch {
    fn new(nodes: usize) -> Self {
        Self {
            index: vec![None; nodes],
            low_link: vec![usize::MAX; nodes],
            on_stack: vec![false; nodes],
            stack: Vec::new(),
            count: 0,
            components: Vec::new(),
        }
    }

    fn from(&mut self, start: usize, neighbour: &impl Fn(usize, usize) -> Neighbour) {
        if start >= self.index.len() || self.is_visited(start) {
            return;
        }
        // 1. Visit the start. The path holds each node with the next of its neighbours to look at.
        self.visit(start);
        let mut path: Vec<(usize, usize)> = vec![(start, 0)];
        while let Some((node, next)) = path.last_mut() {
            let (node, nth) = (*node, *next);
            *next += 1;
            match neighbour(node, nth) {
                // 2. A neighbour that is new: go down to it.
                Neighbour::Node(other) if other < self.index.len() && !self.is_visited(other) => {
                    self.visit(other);
                    path.push((other, 0));
                }
                // 3. A neighbour on the stack closes a circle: lower the low link.
                Neighbour::Node(other) if self.on_stack.get(other) == Some(&true) => {
                    let index = self.index.get(other).copied().flatten();
                    self.lower(node, index.unwrap_or(usize::MAX));
                }
                Neighbour::Node(_) | Neighbour::Outside => {}
                // 4. No more neighbours: go back up. A node whose low link is its own index is the root of a component.
                Neighbour::End => {
                    path.pop();
                    let low_link = self.low_link.get(node).copied().unwrap_or(usize::MAX);
                    if let Some((parent, _)) = path.last() {
                        self.lower(*parent, low_link);
                    }
                    if self.index.get(node).copied().flatten() == Some(low_link) {
                        self.pop_component(node);
                    }
                }
            }
        }
    }

    fn is_visited(&self, node: usize) -> bool {
        self.index.get(node).is_some_and(Option::is_some)
    }

    fn visit(&mut self, node: usize) {
        if let (Some(index), Some(low_link), Some(on_stack)) =
            (self.index.get_mut(node), self.low_link.get_mut(node), self.on_stack.get_mut(node))
        {
            (*index, *low_link, *on_stack) = (Some(self.count), self.count, true);
        }
        self.count += 1;
        self.stack.push(node);
    }

    fn lower(&mut self, node: usize, index: usize) {
        if let Some(low_link) = self.low_link.get_mut(node) {
            *low_link = (*low_link).min(index);
        }
    }

    /// Takes the component of a root from the stack.
    fn pop_component(&mut self, root: usize) {
        let from = self.stack.iter().rposition(|other| *other == root);
        debug_assert!(from.is_some(), "a root is on the stack until its component is taken");
        let component = self.stack.split_off(from.unwrap_or(self.stack.len()));
        for node in &component {
            if let Some(on_stack) = self.on_stack.get_mut(*node) {
                *on_stack = false;
            }
        }
        self.components.push(component);
    }
}

impl Book {
    /// The formula of a dough or a culture; `None` of one with errors.
    #[must_use]
    pub fn formula(&self, id: FormulaId) -> Option<&Formula> {
        self.entry(id)?.formula.as_ref()
    }

    /// Some formulas and all those that they take from, in groups, each after those that it takes from. The formulas of
    /// a group take from each other in a circle; they come in the order of their places, whichever of them is asked
    /// for. Only formulas that are `wanted` are looked at.
    #[must_use]
    pub fn solving_order(
        &self,
        starts: &[FormulaId],
        wanted: impl Fn(FormulaId) -> bool,
    ) -> Vec<Vec<FormulaId>> {
        let mut found: Vec<FormulaId> = Vec::new();
        let mut number: FxHashMap<FormulaId, usize> = FxHashMap::default();
        let mut numbered = |id: FormulaId, found: &mut Vec<FormulaId>| {
            *number.entry(id).or_insert_with(|| {
                found.push(id);
                found.len() - 1
            })
        };
        for start in starts.iter().filter(|id| wanted(**id)) {
            numbered(*start, &mut found);
        }
        let mut sources: Vec<Vec<usize>> = Vec::new();
        while let Some(id) = found.get(sources.len()).copied() {
            let taken = self.formula(id).into_iter().flat_map(Formula::sources).map(|(source, _)| source);
            let taken = taken.filter(|source| wanted(*source)).map(|source| numbered(source, &mut found));
            sources.push(taken.collect());
        }
        let neighbour = |node: usize, nth: usize| {
            let source = sources.get(node).and_then(|own| own.get(nth));
            source.map_or(Neighbour::End, |source| Neighbour::Node(*source))
        };
        let named = |group: Vec<usize>| {
            let mut group: Vec<FormulaId> =
                group.iter().filter_map(|node| found.get(*node)).copied().collect();
            group.sort_by_key(|id| self.entry(*id).map(|entry| entry.place));
            group
        };
        strongly_connected(found.len(), 0..found.len(), neighbour).into_iter().map(named).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn components(graph: &[&[usize]]) -> Vec<Vec<usize>> {
        let neighbour = |node: usize, nth: usize| {
            graph[node].get(nth).map_or(Neighbour::End, |other| Neighbour::Node(*other))
        };
        strongly_connected(graph.len(), 0..graph.len(), neighbour)
    }

    #[test]
    fn each_comes_after_what_it_takes_from_and_otherwise_in_order() {
        assert_eq!(components(&[&[], &[2], &[0], &[1, 2]]), [vec![0], vec![2], vec![1], vec![3]]);
    }

    #[test]
    fn a_circle_is_one_component() {
        assert_eq!(components(&[&[1], &[2, 3], &[1], &[]]), [vec![3], vec![1, 2], vec![0]]);
        assert_eq!(components(&[&[0]]), [vec![0]]);
    }

    #[test]
    fn what_is_outside_or_no_node_is_passed_over() {
        let neighbour = |_: usize, nth: usize| match nth {
            0 => Neighbour::Outside,
            1 => Neighbour::Node(7),
            _ => Neighbour::End,
        };
        assert_eq!(strongly_connected(2, [1, 9], neighbour), [vec![1]]);
    }

    #[test]
    fn a_long_chain_does_not_use_up_the_stack() {
        let neighbour = |node: usize, nth: usize| {
            if nth == 0 && node < 99_999 { Neighbour::Node(node + 1) } else { Neighbour::End }
        };
        assert_eq!(strongly_connected(100_000, [0], neighbour).len(), 100_000);
    }
}
