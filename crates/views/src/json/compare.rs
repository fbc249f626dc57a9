//! Two doughs side by side. In every list of two the first dough stands first.

use levamen_balance::{Amount, Compared, ComparedStage, Comparison};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Figure;

/// Two doughs side by side.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Comparison")]
pub struct ComparisonJson {
    /// Their names.
    pub doughs: [String; 2],
    /// All flour in each.
    pub total_flour_g: [Figure; 2],
    /// The figures of the whole.
    pub figures: Vec<FigureJson>,
    /// The ingredients of the whole, on all flour.
    pub overall: Vec<ComparedJson>,
    /// The whole doughs, on all flour.
    pub dough: ComparedJson,
    /// The stages; the final dough is the last.
    pub stages: Vec<ComparedStageJson>,
}

/// A figure of the whole.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct FigureJson {
    /// Its name.
    pub figure: String,
    /// On all flour.
    pub pct: [Figure; 2],
}

/// Something that is weighed in one of the doughs or in both.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ComparedJson {
    /// What it is.
    pub name: String,
    /// How much of it there is in each dough; null where there is none.
    pub amounts: [Option<AmountJson>; 2],
    /// How much more the second has, in percent; null where there is no flour to reckon it by.
    pub difference_pct: Option<Figure>,
    /// How much more the second has.
    pub difference_g: Figure,
}

/// How much there is of something.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct AmountJson {
    /// On all flour in the whole, on the stage's own flour in a stage; null without flour.
    pub pct: Option<Figure>,
    /// Its weight.
    pub grams: Figure,
}

/// A stage of one of the doughs or of both.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ComparedStageJson {
    /// What each dough calls it; null where it has no such stage.
    pub names: [Option<String>; 2],
    /// What it is: poolish, levain, final dough, and so on.
    pub kind: String,
    /// Water on flour of all that is in it.
    pub hydration_pct: [Option<Figure>; 2],
    /// What is weighed into it.
    pub lines: Vec<ComparedJson>,
    /// What stands in the tub when it is made.
    pub made: ComparedJson,
}

impl From<&Comparison> for ComparisonJson {
    fn from(comparison: &Comparison) -> Self {
        let figures = comparison.figures.iter().map(|(name, shares)| FigureJson {
            figure: (*name).to_owned(),
            pct: shares.each_ref().map(Figure::percent),
        });
        Self {
            doughs: comparison.doughs.clone(),
            total_flour_g: comparison.flour.each_ref().map(Figure::grams),
            figures: figures.collect(),
            overall: comparison.rows.iter().map(ComparedJson::from).collect(),
            dough: ComparedJson::from(&comparison.dough),
            stages: comparison.stages.iter().map(ComparedStageJson::from).collect(),
        }
    }
}

impl From<&Compared> for ComparedJson {
    fn from(compared: &Compared) -> Self {
        let (share, weight) = compared.difference();
        Self {
            name: compared.name.clone(),
            amounts: compared.amounts.each_ref().map(|amount| amount.as_ref().map(AmountJson::from)),
            difference_pct: share.as_ref().map(Figure::percent),
            difference_g: Figure::grams(&weight),
        }
    }
}

impl From<&Amount> for AmountJson {
    fn from(amount: &Amount) -> Self {
        Self { pct: amount.share.as_ref().map(Figure::percent), grams: Figure::grams(&amount.weight) }
    }
}

impl From<&ComparedStage> for ComparedStageJson {
    fn from(stage: &ComparedStage) -> Self {
        Self {
            names: stage.names.clone(),
            kind: stage.kind.name().to_owned(),
            hydration_pct: stage.hydration.each_ref().map(|share| share.as_ref().map(Figure::percent)),
            lines: stage.lines.iter().map(ComparedJson::from).collect(),
            made: ComparedJson::from(&stage.made),
        }
    }
}
