//! Which stages make up the dough's own matrix, and how much more is weighed than reaches the dough.

use levamen_quantity::Exact;

use super::Variable;
use crate::composition::Composition;
use crate::formula::Formula;
use crate::ingredient::{Ingredient, IngredientId};
use crate::pantry::Pantry;
use crate::stage::{Item, LeftOver, StageId};

/// The factors between what is weighed into each stage and what of it reaches the dough.
#[derive(Debug, Clone, Default)]
pub(crate) struct LossFactors {
    /// By stage; `None` for a separate batch and what goes into it.
    gross: Vec<Option<Exact>>,
    /// By stage: water weighed for a gram that stays.
    steam: Vec<Exact>,
    /// By stage: the one that goes into the final dough and that this one ends up in.
    goes_on_as: Vec<Option<StageId>>,
}

/// A line that takes a portion of something with a composition of its own.
#[derive(Debug, Clone)]
pub struct Intake {
    /// The stage that takes it.
    pub stage: StageId,
    /// The line's index in that stage.
    pub line: u32,
    /// What is taken.
    pub item: Item,
    /// Flour in a gram of it.
    pub flour: Exact,
    /// Added water in a gram of it.
    pub water: Exact,
    parts: Vec<(IngredientId, Exact)>,
    is_open: bool,
}

impl Intake {
    /// Whether what it takes has a composition that is still to be found.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        self.is_open
    }

    /// Whether its flour and water count in the dough.
    #[must_use]
    pub const fn stays(&self) -> bool {
        !self.item.is_given_back()
    }

    /// Grams of each ingredient in a gram of it.
    #[must_use]
    pub fn parts(&self) -> &[(IngredientId, Exact)] {
        &self.parts
    }

    pub(super) fn figure(&self) -> Variable {
        Variable::Intake(self.stage, self.line)
    }

    /// Adds its flour to the parts of a sum.
    pub(super) fn push_flour(&self, sum: &mut Vec<(Variable, Exact)>) {
        if self.is_open {
            sum.push((Variable::ContainedFlour(self.stage, self.line), Exact::ONE));
        } else if !self.flour.is_zero() {
            sum.push((self.figure(), self.flour.clone()));
        }
    }

    /// Adds its water to the parts of a sum.
    pub(super) fn push_water(&self, sum: &mut Vec<(Variable, Exact)>, pantry: &Pantry) {
        if self.is_open {
            let is_water = |id| pantry.get(id).is_some_and(Ingredient::is_water);
            sum.extend(self.holds().filter(|(id, _)| is_water(*id)).map(|(_, part)| part));
        } else if !self.water.is_zero() {
            sum.push((self.figure(), self.water.clone()));
        }
    }

    /// Each ingredient that it holds, and how much as the part of a sum.
    pub(super) fn holds(&self) -> impl Iterator<Item = (IngredientId, (Variable, Exact))> {
        self.parts.iter().map(|(id, share)| {
            let open = || (Variable::Contained(self.stage, self.line, *id), Exact::ONE);
            (*id, if self.is_open { open() } else { (self.figure(), share.clone()) })
        })
    }
}

impl LossFactors {
    pub(crate) fn new(formula: &Formula) -> Self {
        let mut gross: Vec<Option<Exact>> = vec![None; formula.stages.len()];
        if let Some(last) = gross.last_mut() {
            *last = Some(Exact::ONE);
        }
        let mut goes_on_as: Vec<Option<StageId>> = vec![None; formula.stages.len()];
        // From the final dough backwards: a stage stands after those that it takes in.
        for (index, stage) in formula.stages.iter().enumerate().rev() {
            let Some(own) = gross.get(index).cloned().flatten() else { continue };
            let top = goes_on_as.get(index).copied().flatten();
            for line in &stage.lines {
                let Item::Stage(child) = line.item else { continue };
                let Some(made) = formula.stage(child).filter(|child| !child.separate) else { continue };
                if let Some(slot) = gross.get_mut(child.index()) {
                    *slot = Some(&own / &kept(made.left_over.as_ref()));
                }
                if let Some(slot) = goes_on_as.get_mut(child.index()) {
                    *slot = top.or(Some(child));
                }
            }
        }
        let steam = formula.stages.iter().map(|stage| match &stage.steam {
            Some((share, _)) => Exact::ONE.checked_div(share.rest().fraction()).unwrap_or(Exact::ONE),
            None => Exact::ONE,
        });
        let steam = steam.collect();
        Self { gross, steam, goes_on_as }
    }

    pub(crate) fn goes_on_as(&self, stage: StageId) -> Option<StageId> {
        self.goes_on_as.get(stage.index()).copied().flatten()
    }

    pub(crate) fn gross(&self, stage: StageId) -> Option<&Exact> {
        self.gross.get(stage.index())?.as_ref()
    }

    pub(crate) fn steam(&self, stage: StageId) -> Option<&Exact> {
        self.steam.get(stage.index())
    }

    /// The portions that the dough's own stages take, each with what it is made of.
    ///
    /// # Errors
    /// The first item that has no composition.
    pub(crate) fn intakes<'c>(
        &self,
        formula: &Formula,
        composition: impl Fn(Item) -> Option<&'c Composition>,
    ) -> Result<Vec<Intake>, Item> {
        let mut intakes = Vec::new();
        for (stage, made) in formula.stages().filter(|(stage, _)| self.gross(*stage).is_some()) {
            for (line, weighed) in (0..).zip(&made.lines) {
                let item = weighed.item;
                let separate = match item {
                    Item::Ingredient(_) => false,
                    Item::Stage(child) => formula.stage(child).is_some_and(|child| child.separate),
                    Item::Seed(..) | Item::Piece(_) | Item::OwnPiece => true,
                };
                if separate {
                    let composition = composition(item).ok_or(item)?;
                    intakes.push(Intake {
                        stage,
                        line,
                        item,
                        flour: composition.flour().clone(),
                        water: composition.water().clone(),
                        parts: composition.parts().to_vec(),
                        is_open: composition.is_open(),
                    });
                }
            }
        }
        Ok(intakes)
    }
}

/// The share of what is made that goes on. The parser keeps what is left over below the whole.
fn kept(left_over: Option<&LeftOver>) -> Exact {
    match left_over {
        Some(LeftOver::Share(share, _)) if share.rest().fraction().is_positive() => {
            share.rest().fraction().clone()
        }
        _ => Exact::ONE,
    }
}
