//! Which fact gave each figure its value.

use levamen_formula::FigureId;

use super::elimination::trace;
use super::plan::Op;
use super::{Contradiction, Task};

/// Where the value of a figure comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum How {
    /// It was given beforehand.
    Known,
    /// From the fact of this index, of which the term `lead` was the only unknown one.
    Fact { fact: usize, lead: usize },
    /// From facts that are coupled: the block of this index.
    Block(usize),
}

/// Coupled facts, and the figures that they settle together.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Block {
    pub facts: Vec<usize>,
    pub figures: Vec<FigureId>,
}

/// Where every value comes from; no figure leans on itself.
#[derive(Debug, Clone, Default)]
pub(crate) struct Derivation {
    how: Vec<Option<How>>,
    blocks: Vec<Block>,
}

/// Solves facts and tells how. All facts of the task are used: it leaves none out and adds none.
///
/// # Errors
/// [`Contradiction`], where the facts cannot all hold.
pub(crate) fn derive(task: &Task<'_>) -> Result<Derivation, Contradiction> {
    let (plan, _) = trace(task)?;
    let mut derivation = Derivation { how: vec![None; task.facts.figures().len()], blocks: Vec::new() };
    for (figure, _) in task.known {
        derivation.learn(*figure, How::Known);
    }
    // The rows of a block are loaded one after the other before anything is done with them.
    let mut loading = false;
    for op in &plan.ops {
        match op {
            Op::Constant { row, .. } => {
                if !loading {
                    derivation.blocks.push(Block::default());
                    loading = true;
                }
                if let Some(block) = derivation.blocks.last_mut() {
                    block.facts.push(*row as usize);
                }
            }
            Op::Copy { .. } => {}
            Op::Back { figure, .. } => {
                loading = false;
                let index = derivation.blocks.len().saturating_sub(1);
                if let Some(block) = derivation.blocks.last_mut() {
                    block.figures.push(*figure);
                }
                derivation.learn(*figure, How::Block(index));
            }
            Op::Substitute { row, lead } => {
                loading = false;
                let facts = task.facts.facts().get(*row as usize).map(|fact| task.facts.terms(fact));
                if let Some((figure, _)) = facts.and_then(|terms| terms.get(*lead as usize)) {
                    derivation.learn(*figure, How::Fact { fact: *row as usize, lead: *lead as usize });
                }
            }
            _ => loading = false,
        }
    }
    derivation.name_single_facts(task);
    Ok(derivation)
}

impl Derivation {
    /// Where the value of a figure comes from; `None` where the facts leave it free.
    pub fn how(&self, figure: FigureId) -> Option<How> {
        self.how.get(figure.index()).copied().flatten()
    }

    pub fn block(&self, index: usize) -> Option<&Block> {
        self.blocks.get(index)
    }

    /// A block of one fact and one figure is no block.
    fn name_single_facts(&mut self, task: &Task<'_>) {
        let single = |block: &Block| match (block.facts.as_slice(), block.figures.as_slice()) {
            ([fact], [figure]) => Some((*fact, *figure)),
            _ => None,
        };
        for (fact, figure) in self.blocks.iter().filter_map(single).collect::<Vec<_>>() {
            let terms = task.facts.facts().get(fact).map(|fact| task.facts.terms(fact)).unwrap_or_default();
            if let Some(lead) = terms.iter().position(|(id, _)| *id == figure) {
                self.learn(figure, How::Fact { fact, lead });
            }
        }
    }

    fn learn(&mut self, figure: FigureId, how: How) {
        if let Some(slot) = self.how.get_mut(figure.index()) {
            *slot = Some(how);
        }
    }
}
