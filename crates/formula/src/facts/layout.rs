//! Which stages make up the dough's own matrix, and how much more is weighed than reaches the dough.

use levamen_quantity::Exact;

use super::Figure;
use crate::composition::Composition;
use crate::formula::{Formula, Item, LeftOver, StageId};
use crate::pantry::IngredientId;

/// The factors between what is weighed into each stage and what of it reaches the dough.
#[derive(Debug, Clone, Default)]
pub(crate) struct Layout {
    /// By stage; `None` for a batch built apart and what goes into it.
    gross: Vec<Option<Exact>>,
    /// By stage: water weighed for a gram that stays.
    steam: Vec<Exact>,
    /// By stage: the one that goes into the final dough and that this one ends up in.
    goes_on_as: Vec<Option<StageId>>,
}

/// A line that takes a portion of something whose composition is known.
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
}

impl Intake {
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

    pub(super) fn figure(&self) -> Figure {
        Figure::Intake(self.stage, self.line)
    }
}

impl Layout {
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
                let Some(made) = formula.stage(child).filter(|child| !child.apart) else { continue };
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
    /// The first item whose composition is not known.
    pub(crate) fn intakes<'c>(
        &self,
        formula: &Formula,
        composition: impl Fn(Item) -> Option<&'c Composition>,
    ) -> Result<Vec<Intake>, Item> {
        let mut intakes = Vec::new();
        for (stage, made) in formula.stages().filter(|(stage, _)| self.gross(*stage).is_some()) {
            for (line, weighed) in (0..).zip(&made.lines) {
                let item = weighed.item;
                let apart = match item {
                    Item::Ingredient(_) => false,
                    Item::Stage(child) => formula.stage(child).is_some_and(|child| child.apart),
                    Item::Seed(..) | Item::Piece(_) | Item::OwnPiece => true,
                };
                if apart {
                    let composition = composition(item).ok_or(item)?;
                    intakes.push(Intake {
                        stage,
                        line,
                        item,
                        flour: composition.flour().clone(),
                        water: composition.water().clone(),
                        parts: composition.parts().to_vec(),
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
