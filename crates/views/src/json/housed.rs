//! The tubs for a dough's pre-ferments.

use levamen_quantity::{Exact, Volume};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Figure;
use levamen::{StageTubs, TubPlan as View};

/// The tubs for a dough's pre-ferments.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Housed {
    /// The dough's name.
    pub dough: String,
    /// Each stage that ferments, in the order in which they are made.
    pub stages: Vec<HousedJson>,
}

/// One pre-ferment and its tubs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct HousedJson {
    /// The stage's name.
    pub name: String,
    /// What stands in the tub.
    pub made_g: Figure,
    /// Its volume when it is fresh, in litres.
    pub fresh_l: Figure,
    /// How firm it is: `liquid`, `soft` or `stiff`.
    pub kind: String,
    /// How many times its fresh volume it rises to at least.
    pub rises_least: i64,
    /// How many times its fresh volume it rises to at most.
    pub rises_most: i64,
    /// What one of the tubs holds to the brim, in litres.
    pub tub_l: Figure,
    /// How many of them.
    pub tubs: u32,
    /// Whether they hold less than the most that it rises to.
    pub snug: bool,
}

impl From<&View> for Housed {
    fn from(view: &View) -> Self {
        Self { dough: view.dough.clone(), stages: view.stages.iter().map(HousedJson::from).collect() }
    }
}

impl From<&StageTubs> for HousedJson {
    fn from(stage: &StageTubs) -> Self {
        Self {
            name: stage.name.clone(),
            made_g: Figure::grams(&stage.made),
            fresh_l: litres(&stage.volume),
            kind: stage.room.kind.to_owned(),
            rises_least: stage.room.least,
            rises_most: stage.room.better,
            tub_l: litres(&stage.tubs.size),
            tubs: stage.tubs.count,
            snug: stage.is_snug(),
        }
    }
}

fn litres(volume: &Volume) -> Figure {
    Figure::number(&(volume.millilitres() / &Exact::from(1000)))
}
