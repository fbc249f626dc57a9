//! Formulas that follow from a formula: the parts that are solved before the whole.

use crate::formula::{Formula, Item, Line, Stage, StageId};
use crate::kind::StageKind;

impl Formula {
    /// A stage that is built apart, as a formula of its own: the stage is the last, after all that goes into it.
    #[must_use]
    pub fn apart(&self, stage: StageId) -> Option<Self> {
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
        (last.left_over, last.takes, last.weighs, last.apart) = (None, None, None, false);
        part.name = last.name.clone();
        part.place = last.place;
        Some(part)
    }

    /// The batches built apart of which the dough's own stages take a portion. A batch that goes only into other such
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
                    let apart = self.stage(child).is_some_and(|child| child.apart);
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
        let whole = |line: &Line| Line { amount: None, ..line.clone() };
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
                    *id = new_ids.get(id.index()).copied().unwrap_or_default();
                }
            }
            stage
        });
        Self { overall: None, make: None, wants: Vec::new(), stages: stages.collect(), ..self.clone() }
    }
}

fn stage_of(line: &Line) -> Option<StageId> {
    match line.item {
        Item::Stage(id) => Some(id),
        _ => None,
    }
}
