//! A walk along a graph that finds which nodes lean on each other (R. E. Tarjan, "Depth-First Search and Linear Graph
//! Algorithms", SIAM Journal on Computing 1 (1972) 146-160; from memory).
//!
//! It is not recursive: a chain of doughs or of stages may be long.

/// Tarjan's walk, with a stack of its own.
pub(crate) struct Walk {
    /// By node: the order in which it was entered.
    entered: Vec<Option<usize>>,
    /// By node: the earliest node on the stack that it reaches.
    reaches: Vec<usize>,
    on_stack: Vec<bool>,
    stack: Vec<usize>,
    count: usize,
    components: Vec<Vec<usize>>,
}

impl Walk {
    /// A walk over as many nodes, none of them entered.
    pub fn new(nodes: usize) -> Self {
        Self {
            entered: vec![None; nodes],
            reaches: vec![usize::MAX; nodes],
            on_stack: vec![false; nodes],
            stack: Vec::new(),
            count: 0,
            components: Vec::new(),
        }
    }

    /// Walks from a node. `neighbour` tells the n-th node that a node leans on: `None` past the last, and `Some(None)` where it
    /// leans on nothing that can be solved.
    pub fn from(&mut self, start: usize, neighbour: impl Fn(usize, usize) -> Option<Option<usize>>) {
        if self.is_entered(start) {
            return;
        }
        self.enter(start);
        let mut path: Vec<(usize, usize)> = vec![(start, 0)];
        while let Some((node, next)) = path.last_mut() {
            let (node, index) = (*node, *next);
            *next += 1;
            match neighbour(node, index) {
                Some(Some(other)) if !self.is_entered(other) => {
                    self.enter(other);
                    path.push((other, 0));
                }
                Some(Some(other)) if self.on_stack.get(other) == Some(&true) => {
                    let entered = self.entered.get(other).copied().flatten();
                    self.lower(node, entered.unwrap_or(usize::MAX));
                }
                Some(_) => {}
                None => {
                    path.pop();
                    let reached = self.reaches.get(node).copied().unwrap_or(usize::MAX);
                    if let Some((parent, _)) = path.last() {
                        self.lower(*parent, reached);
                    }
                    if self.entered.get(node).copied().flatten() == Some(reached) {
                        self.close(node);
                    }
                }
            }
        }
    }

    /// The groups of nodes that lean on each other, each after those that it leans on.
    pub fn into_components(self) -> Vec<Vec<usize>> {
        self.components
    }

    fn is_entered(&self, node: usize) -> bool {
        self.entered.get(node).is_some_and(Option::is_some)
    }

    fn enter(&mut self, node: usize) {
        if let (Some(entered), Some(reaches), Some(on_stack)) =
            (self.entered.get_mut(node), self.reaches.get_mut(node), self.on_stack.get_mut(node))
        {
            (*entered, *reaches, *on_stack) = (Some(self.count), self.count, true);
        }
        self.count += 1;
        self.stack.push(node);
    }

    fn lower(&mut self, node: usize, reached: usize) {
        if let Some(reaches) = self.reaches.get_mut(node) {
            *reaches = (*reaches).min(reached);
        }
    }

    /// Takes a finished group from the stack.
    fn close(&mut self, node: usize) {
        let from = self.stack.iter().rposition(|other| *other == node).unwrap_or(0);
        let component = self.stack.split_off(from);
        for node in &component {
            if let Some(on_stack) = self.on_stack.get_mut(*node) {
                *on_stack = false;
            }
        }
        self.components.push(component);
    }
}
