//! A formula as the book means it: names are resolved, volumes weighed, and every percentage knows what it is a
//! percentage of. Also the formulas that follow from one: the parts that are solved before the whole.

use std::sync::Arc;

use levamen_language::Place;
use levamen_quantity::{Mass, Share};

use crate::stage::{FormulaId, Item, ResolvedAmount, Stage, StageId, StageKind, WeighedLine};
use crate::want::Want;

/// A dough, a culture, or a separate batch of a dough.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    /// Its name as it is written.
    pub name: Arc<str>,
    /// Where its name is.
    pub place: Place,
    /// What it is.
    pub role: Role,
    /// The percentages of the whole, where the text states them.
    pub overall: Option<Overall>,
    /// Its stages; each is after all those that it takes in, and the final dough stands last.
    pub stages: Vec<Stage>,
    /// How much to bake.
    pub make: Option<ResolvedMake>,
    /// The share of the dough lost in mixing and dividing, whatever else says how much to bake.
    pub loss: Share,
    /// Figures that it must have.
    pub wants: Vec<Want>,
    /// Whether its weights count proportions alone and the wants say how much is made.
    pub is_resized: bool,
    /// What the baker noted for the whole.
    pub notes: Vec<Arc<str>>,
}

/// What a formula is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Something to bake.
    Dough,
    /// A culture that is kept; its formula is its feeding, which is its steady composition.
    Culture,
}

/// The `overall` section.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Overall {
    /// Where its heading is.
    pub place: Place,
    /// The ingredients of the whole dough.
    pub lines: Vec<WeighedLine>,
    /// Added water to flour, where it is stated as such.
    pub hydration: Option<ResolvedAmount>,
}

/// How much to bake.
#[derive(Debug, Clone, PartialEq)]
pub struct ResolvedMake {
    /// How much.
    pub size: ResolvedMakeSize,
    /// Where it is said.
    pub place: Place,
}

/// The ways to say how much to bake.
#[derive(Debug, Clone, PartialEq)]
pub enum ResolvedMakeSize {
    /// So many pieces of this weight before baking.
    Pieces(u64, Mass),
    /// So much dough, as it is mixed.
    Dough(Mass),
    /// So much dough to divide: what is left of it after the loss.
    ToDivide(Mass),
    /// Dough from so much flour.
    Flour(Mass),
}

impl Formula {
    /// The stages with their ids, in the order in which they are made.
    pub fn stages(&self) -> impl Iterator<Item = (StageId, &Stage)> {
        (0..).map(StageId).zip(&self.stages)
    }

    /// The stage with an id of this formula.
    #[must_use]
    pub fn stage(&self, id: StageId) -> Option<&Stage> {
        self.stages.get(id.index())
    }

    /// The final dough's id.
    #[must_use]
    pub fn final_dough(&self) -> StageId {
        StageId(u32::try_from(self.stages.len().saturating_sub(1)).unwrap_or(u32::MAX))
    }

    /// By stage: whether flour in it ferments ahead of the final dough. The stage does, or one that it goes into
    /// whole; of a separate batch, a portion may go into a stage that ferments and another into one that does not.
    #[must_use]
    pub fn ferments(&self) -> Vec<bool> {
        let mut ferments: Vec<bool> = self.stages.iter().map(|stage| stage.kind.ferments()).collect();
        for (index, stage) in self.stages.iter().enumerate().rev() {
            if ferments.get(index) == Some(&true) {
                for child in stage.children() {
                    let is_separate = self.stage(child).is_some_and(|child| child.separate);
                    if let Some(slot) = ferments.get_mut(child.index()).filter(|_| !is_separate) {
                        *slot = true;
                    }
                }
            }
        }
        ferments
    }

    /// The formulas from which this one takes seeds and pieces of dough.
    pub fn sources(&self) -> impl Iterator<Item = (FormulaId, Place)> {
        self.stages.iter().flat_map(|stage| &stage.lines).filter_map(|line| match line.item {
            Item::Seed(source, _) | Item::Piece(source) => Some((source, line.place)),
            _ => None,
        })
    }
}

impl Formula {
    /// A separate batch as a formula of its own: the stage is the last, after all that goes into it.
    #[must_use]
    pub fn separate_batch(&self, stage: StageId) -> Option<Self> {
        let mut wanted = vec![false; self.stages.len()];
        *wanted.get_mut(stage.index())? = true;
        for (index, made) in self.stages.iter().enumerate().rev() {
            if wanted.get(index) == Some(&true) {
                for child in made.lines.iter().filter_map(stage_of) {
                    if let Some(slot) = wanted.get_mut(child.index()) {
                        *slot = true;
                    }
                }
            }
        }
        let mut part = self.keep_stages(&wanted);
        let last = part.stages.last_mut()?;
        last.kind = StageKind::FinalDough;
        (last.left_over, last.takes, last.weighs, last.separate) = (None, None, None, false);
        part.name = last.name.clone();
        part.place = last.place;
        Some(part)
    }

    /// The separate batches of which the dough's own stages take a portion. A batch that goes only into other such
    /// batches is none of the dough's business: it comes with those.
    #[must_use]
    pub fn portioned(&self) -> Vec<(StageId, &Stage)> {
        let mut own = vec![false; self.stages.len()];
        let mut portioned = vec![false; self.stages.len()];
        if let Some(last) = own.last_mut() {
            *last = true;
        }
        for (index, made) in self.stages.iter().enumerate().rev() {
            if own.get(index) == Some(&true) {
                for child in made.lines.iter().filter_map(stage_of) {
                    let apart = self.stage(child).is_some_and(|child| child.separate);
                    let marks = if apart { &mut portioned } else { &mut own };
                    if let Some(slot) = marks.get_mut(child.index()) {
                        *slot = true;
                    }
                }
            }
        }
        self.stages().zip(portioned).filter(|(_, portioned)| *portioned).map(|(stage, _)| stage).collect()
    }

    /// The whole dough from its overall formula alone; `None` where there is none.
    #[must_use]
    pub fn overall_alone(&self) -> Option<Self> {
        let overall = self.overall.clone()?;
        let mut mixed = self.stages.last()?.clone();
        let whole = |line: &WeighedLine| WeighedLine { amount: None, ..line.clone() };
        mixed.lines = overall.lines.iter().map(whole).collect();
        Some(Self {
            overall: Some(overall),
            stages: vec![mixed],
            make: None,
            wants: Vec::new(),
            ..self.clone()
        })
    }

    /// Whether a piece of the dough's own last batch goes into it.
    #[must_use]
    pub fn takes_own_piece(&self) -> bool {
        self.stages.iter().flat_map(|stage| &stage.lines).any(|line| line.item == Item::OwnPiece)
    }

    /// The formula with some of its stages, which get new ids.
    fn keep_stages(&self, kept: &[bool]) -> Self {
        let mut next = 0;
        let new_ids: Vec<StageId> = kept
            .iter()
            .map(|keep| {
                let id = StageId(next);
                next += u32::from(*keep);
                id
            })
            .collect();
        let stages = self.stages.iter().zip(kept).filter(|(_, keep)| **keep).map(|(stage, _)| {
            let mut stage: Stage = stage.clone();
            for line in &mut stage.lines {
                if let Item::Stage(id) = &mut line.item {
                    let new_id = new_ids.get(id.index());
                    debug_assert!(new_id.is_some(), "a line takes in a stage of its own formula");
                    *id = new_id.copied().unwrap_or_default();
                }
            }
            stage
        });
        Self { overall: None, make: None, wants: Vec::new(), stages: stages.collect(), ..self.clone() }
    }
}

fn stage_of(line: &WeighedLine) -> Option<StageId> {
    match line.item {
        Item::Stage(id) => Some(id),
        _ => None,
    }
}
