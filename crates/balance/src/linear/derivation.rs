//! Which equation gave each variable its value.

use levamen_formula::VariableId;

use super::elimination::trace;
use super::plan::Op;
use super::{Contradiction, System};

/// Where the value of a variable comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum ValueSource {
    /// It was given beforehand.
    Known,
    /// From the equation of this index, of which the term `lead` was the only unknown one.
    Equation { equation: usize, lead: usize },
    /// From equations that are coupled: the block of this index.
    Block(usize),
}

/// Coupled equations, and the variables that they settle together.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct CoupledBlock {
    pub equations: Vec<usize>,
    pub variables: Vec<VariableId>,
}

/// Where every value comes from; no variable depends on itself.
#[derive(Debug, Clone, Default)]
pub(crate) struct Derivation {
    how: Vec<Option<ValueSource>>,
    blocks: Vec<CoupledBlock>,
}

/// Solves equations and says how. All equations of the system are used: it leaves none out and adds none.
///
/// # Errors
/// [`Contradiction`], where the equations cannot all hold.
pub(crate) fn derive(system: &System<'_>) -> Result<Derivation, Contradiction> {
    let (plan, _) = trace(system)?;
    let mut derivation =
        Derivation { how: vec![None; system.equations.variables().len()], blocks: Vec::new() };
    for (variable, _) in system.known {
        derivation.learn(*variable, ValueSource::Known);
    }
    // The rows of a block are loaded one after the other before anything is done with them.
    let mut loading = false;
    for op in &plan.ops {
        match op {
            Op::Constant { row, .. } => {
                if !loading {
                    derivation.blocks.push(CoupledBlock::default());
                    loading = true;
                }
                if let Some(block) = derivation.blocks.last_mut() {
                    block.equations.push(*row as usize);
                }
            }
            Op::Copy { .. } => {}
            Op::Back { variable, .. } => {
                loading = false;
                let index = derivation.blocks.len().saturating_sub(1);
                if let Some(block) = derivation.blocks.last_mut() {
                    block.variables.push(*variable);
                }
                derivation.learn(*variable, ValueSource::Block(index));
            }
            Op::Substitute { row, lead } => {
                loading = false;
                let equations = system
                    .equations
                    .all()
                    .get(*row as usize)
                    .map(|equation| system.equations.terms(equation));
                if let Some((variable, _)) = equations.and_then(|terms| terms.get(*lead as usize)) {
                    derivation.learn(
                        *variable,
                        ValueSource::Equation { equation: *row as usize, lead: *lead as usize },
                    );
                }
            }
            _ => loading = false,
        }
    }
    derivation.name_single_facts(system);
    Ok(derivation)
}

impl Derivation {
    /// Where the value of a variable comes from; `None` where the equations leave it free.
    pub fn how(&self, variable: VariableId) -> Option<ValueSource> {
        self.how.get(variable.index()).copied().flatten()
    }

    pub fn block(&self, index: usize) -> Option<&CoupledBlock> {
        self.blocks.get(index)
    }

    /// A block of one equation and one variable is no block.
    fn name_single_facts(&mut self, system: &System<'_>) {
        let single = |block: &CoupledBlock| match (block.equations.as_slice(), block.variables.as_slice()) {
            ([equation], [variable]) => Some((*equation, *variable)),
            _ => None,
        };
        for (equation, variable) in self.blocks.iter().filter_map(single).collect::<Vec<_>>() {
            let terms = system
                .equations
                .all()
                .get(equation)
                .map(|equation| system.equations.terms(equation))
                .unwrap_or_default();
            if let Some(lead) = terms.iter().position(|(id, _)| *id == variable) {
                self.learn(variable, ValueSource::Equation { equation, lead });
            }
        }
    }

    fn learn(&mut self, variable: VariableId, how: ValueSource) {
        if let Some(slot) = self.how.get_mut(variable.index()) {
            *slot = Some(how);
        }
    }
}
