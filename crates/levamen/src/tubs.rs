//! The tubs for the pre-ferments of a dough, with room to rise.

use levamen_balance::Batch;
use levamen_ferment::{Headroom, Tubs};
use levamen_formula::FormulaId;
use levamen_plan::RisingStage;
use levamen_quantity::{Exact, Mass, Volume};
use levamen_sheets::Weight;

use crate::error::{Error, QuestionError};
use crate::size::BatchSize;
use crate::workspace::Workspace;

/// The tubs for a dough's pre-ferments.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TubPlan {
    /// The dough's name.
    pub dough: String,
    /// Each stage that ferments, in the order in which they are made.
    pub stages: Vec<StageTubs>,
}

/// One pre-ferment and its tubs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StageTubs {
    /// The stage's name.
    pub name: String,
    /// What stands in the tub.
    pub made: Mass,
    /// The same in whole grams.
    pub shown: Weight,
    /// Its volume when it is fresh.
    pub volume: Volume,
    /// How much room it takes.
    pub room: Headroom,
    /// The tubs for it.
    pub tubs: Tubs,
}

impl StageTubs {
    /// Whether the tubs hold less than the better of the usual room.
    #[must_use]
    pub fn is_snug(&self) -> bool {
        let holds = self.tubs.size.millilitres() * &Exact::from(self.tubs.count);
        holds < self.volume.millilitres() * &Exact::from(self.room.better)
    }
}

/// Picks tubs for the pre-ferments of a dough, from those that are given or else from those of the bakery; `dough` is how much
/// of it is mixed, where it is not what the file says.
///
/// # Errors
/// The dough does not balance or has no pre-ferment; there are no tubs, or none that hold it.
pub fn tubs(
    workspace: &Workspace,
    id: FormulaId,
    tubs: Option<Vec<Volume>>,
    dough: Option<Mass>,
) -> Result<TubPlan, Error> {
    let balance = BatchSize::dough(dough).apply(workspace.balance(id)?.as_ref().clone())?;
    let tubs = match tubs {
        Some(tubs) => tubs,
        None => workspace.sound_bakery()?.tubs.iter().map(|tub| tub.volume.clone()).collect(),
    };
    if tubs.is_empty() {
        return Err(QuestionError::NoTubs.into());
    }
    plan(&balance.batch(), &tubs)
}

fn plan(batch: &Batch<'_>, tubs: &[Volume]) -> Result<TubPlan, Error> {
    let balance = batch.balance();
    let mut stages = Vec::new();
    for stage in &balance.stages {
        let Some(rising) = RisingStage::of(stage, batch.flour()) else { continue };
        let tubs = rising.tubs(tubs);
        let tubs = tubs.ok_or_else(|| QuestionError::TubsTooSmall { stage: stage.name.clone() })?;
        let RisingStage { made, volume, room } = rising;
        let shown = Weight::in_grams(&made)?;
        stages.push(StageTubs { name: stage.name.clone(), made, shown, volume, room, tubs });
    }
    if stages.is_empty() {
        return Err(QuestionError::NothingForTubs { dough: balance.dough.clone() }.into());
    }
    Ok(TubPlan { dough: balance.dough.clone(), stages })
}
