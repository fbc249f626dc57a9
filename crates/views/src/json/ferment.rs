//! The water for a dough's temperature, and the tubs for its pre-ferments.

use levamen::{StageTubs, TubPlan, WaterAnswer};
use levamen_ferment::{Answer, FermentError};
use levamen_sheets::PouredWater;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{CautionJson, DecimalJson, RemarkJson};

/// What to pour, found in two ways.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Poured")]
pub struct WaterJson {
    /// The dough's name.
    pub dough: String,
    /// How warm the dough shall be, in degrees Celsius.
    pub wanted_c: DecimalJson,
    /// The water that is weighed into the final dough.
    pub water_g: DecimalJson,
    /// The tap's temperature, in degrees Celsius.
    pub tap_c: Option<DecimalJson>,
    /// How many factors the trade's rule has here, three or four.
    pub factors: u8,
    /// How much mixing warms the whole dough, in kelvins.
    pub rise_k: DecimalJson,
    /// The better founded of the two ways: `by_heats` or `by_rule`.
    pub leads: String,
    /// By the trade's rule.
    pub by_rule: WayJson,
    /// By the balance of heats.
    pub by_heats: WayJson,
    /// What was not said and is counted with, and how the friction is known.
    pub counted_with: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<CautionJson>,
}

/// What one way finds. Its figures are null where it refuses.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct WayJson {
    /// How warm the water has to be, in degrees Celsius.
    pub water_c: Option<DecimalJson>,
    /// How much of the water is ice; null where no ice is needed.
    pub ice_g: Option<DecimalJson>,
    /// How much of the water comes from the tap beside the ice.
    pub tap_g: Option<DecimalJson>,
    /// What to look at again; why it refuses.
    pub remarks: Vec<RemarkJson>,
}

impl From<&WaterAnswer> for WaterJson {
    fn from(view: &WaterAnswer) -> Self {
        Self {
            dough: view.dough.clone(),
            wanted_c: DecimalJson::celsius(&view.wanted),
            water_g: DecimalJson::grams(&view.water),
            tap_c: view.tap.as_ref().map(DecimalJson::celsius),
            factors: view.factors,
            rise_k: DecimalJson::kelvins(&view.rise),
            leads: if view.heats_lead { "by_heats" } else { "by_rule" }.to_owned(),
            by_rule: WayJson::from(&view.by_rule),
            by_heats: WayJson::from(&view.by_heats),
            counted_with: view.counted_with.iter().map(ToString::to_string).collect(),
            cautions: view.hazards.iter().map(|hazard| CautionJson::from(hazard.caution())).collect(),
        }
    }
}

impl From<&Result<Answer<PouredWater>, FermentError>> for WayJson {
    fn from(found: &Result<Answer<PouredWater>, FermentError>) -> Self {
        match found {
            Ok(Answer { found: PouredWater { exact, .. }, remarks }) => Self {
                water_c: Some(DecimalJson::celsius(&exact.at)),
                ice_g: exact.iced.as_ref().map(|iced| DecimalJson::grams(&iced.ice)),
                tap_g: exact.iced.as_ref().map(|iced| DecimalJson::grams(&iced.tap)),
                remarks: remarks.iter().map(RemarkJson::from).collect(),
            },
            Err(refusal) => Self {
                water_c: None,
                ice_g: None,
                tap_g: None,
                remarks: vec![RemarkJson { code: refusal.code.to_owned(), message: refusal.message.clone() }],
            },
        }
    }
}

/// The tubs for a dough's pre-ferments.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Housed")]
pub struct TubPlanJson {
    /// The dough's name.
    pub dough: String,
    /// Each stage that ferments, in the order in which they are made.
    pub stages: Vec<TubPlanStageJson>,
}

/// One pre-ferment and its tubs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "HousedJson")]
pub struct TubPlanStageJson {
    /// The stage's name.
    pub name: String,
    /// What stands in the tub.
    pub made_g: DecimalJson,
    /// Its volume when it is fresh, in litres.
    pub fresh_l: DecimalJson,
    /// How firm it is: `liquid`, `soft` or `stiff`.
    pub kind: String,
    /// How many times its fresh volume it rises to at least.
    pub rises_least: i64,
    /// How many times its fresh volume it rises to at most.
    pub rises_most: i64,
    /// What one of the tubs holds to the brim, in litres.
    pub tub_l: DecimalJson,
    /// How many of them.
    pub tubs: u32,
    /// Whether they hold less than the most that it rises to.
    pub snug: bool,
}

impl From<&TubPlan> for TubPlanJson {
    fn from(view: &TubPlan) -> Self {
        Self { dough: view.dough.clone(), stages: view.stages.iter().map(TubPlanStageJson::from).collect() }
    }
}

impl From<&StageTubs> for TubPlanStageJson {
    fn from(stage: &StageTubs) -> Self {
        Self {
            name: stage.name.clone(),
            made_g: DecimalJson::grams(&stage.made),
            fresh_l: DecimalJson::litres(&stage.volume),
            kind: stage.room.kind.to_owned(),
            rises_least: stage.room.least,
            rises_most: stage.room.better,
            tub_l: DecimalJson::litres(&stage.tubs.size),
            tubs: stage.tubs.count,
            snug: stage.is_snug(),
        }
    }
}
