//! Two doughs side by side, and a dough with another pre-ferment. In every list of two the first dough stands first.

use levamen_balance::{Compared, ComparedAmount, ComparedStage, Comparison};
use levamen_convert::{Dose, YeastCount};
use levamen_sheets::ConversionSheet;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::DecimalJson;

/// Two doughs side by side.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Comparison")]
pub struct ComparisonJson {
    /// Their names.
    pub doughs: [String; 2],
    /// All flour in each.
    pub total_flour_g: [DecimalJson; 2],
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
    pub pct: [DecimalJson; 2],
}

/// Something that is weighed in one of the doughs or in both.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ComparedJson {
    /// What it is.
    pub name: String,
    /// How much of it there is in each dough; null where there is none.
    pub amounts: [Option<AmountJson>; 2],
    /// How much more the second has, in percent; null where there is no flour to reckon it by.
    pub difference_pct: Option<DecimalJson>,
    /// How much more the second has.
    pub difference_g: DecimalJson,
}

/// How much there is of something.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct AmountJson {
    /// On all flour in the whole, on the stage's own flour in a stage; null without flour.
    pub pct: Option<DecimalJson>,
    /// Its weight.
    pub grams: DecimalJson,
}

/// A stage of one of the doughs or of both.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ComparedStageJson {
    /// What each dough calls it; null where it has no such stage.
    pub names: [Option<String>; 2],
    /// What it is: poolish, levain, final dough, and so on.
    pub kind: String,
    /// Water on flour of all that is in it.
    pub hydration_pct: [Option<DecimalJson>; 2],
    /// What is weighed into it.
    pub lines: Vec<ComparedJson>,
    /// What stands in the tub when it is made.
    pub made: ComparedJson,
}

impl From<&Comparison> for ComparisonJson {
    fn from(comparison: &Comparison) -> Self {
        let figures = comparison.figures.iter().map(|(name, shares)| FigureJson {
            figure: (*name).to_owned(),
            pct: shares.each_ref().map(DecimalJson::percent),
        });
        Self {
            doughs: comparison.doughs.clone(),
            total_flour_g: comparison.flour.each_ref().map(DecimalJson::grams),
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
            difference_pct: share.as_ref().map(DecimalJson::percent),
            difference_g: DecimalJson::grams(&weight),
        }
    }
}

impl From<&ComparedAmount> for AmountJson {
    fn from(amount: &ComparedAmount) -> Self {
        Self {
            pct: amount.share.as_ref().map(DecimalJson::percent),
            grams: DecimalJson::grams(&amount.weight),
        }
    }
}

impl From<&ComparedStage> for ComparedStageJson {
    fn from(stage: &ComparedStage) -> Self {
        Self {
            names: stage.names.clone(),
            kind: stage.kind.name().to_owned(),
            hydration_pct: stage.hydration.each_ref().map(|share| share.as_ref().map(DecimalJson::percent)),
            lines: stage.lines.iter().map(ComparedJson::from).collect(),
            made: ComparedJson::from(&stage.made),
        }
    }
}

/// A dough with another pre-ferment, or with none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Conversion")]
pub struct ConversionJson {
    /// The new dough's name.
    pub dough: String,
    /// The new dough, in canonical layout.
    pub text: String,
    /// What the pre-ferment became: straight, poolish, biga, and so on.
    pub to: String,
    /// The pre-ferment that is gone; null where there was none.
    pub replaced: Option<String>,
    /// The flour in the new pre-ferment, on all flour; 0 in a straight dough.
    pub share_pct: DecimalJson,
    /// Its yeast; null where there is none before and after.
    pub yeast: Option<YeastJson>,
    /// What was chosen where nothing was asked for, and what deserves another look.
    pub remarks: Vec<String>,
    /// The dough as it was and as it is, from the same flour.
    pub comparison: ComparisonJson,
}

/// The commercial yeast of a converted dough.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct YeastJson {
    /// Which yeast.
    pub name: String,
    /// In the whole dough as it was, on all flour; another yeast counted as so much of this.
    pub before_pct: DecimalJson,
    /// In the whole dough as it is, on all flour.
    pub after_pct: DecimalJson,
    /// In the final dough, on all flour.
    pub final_dough_pct: DecimalJson,
    /// How the final dough's yeast was come to.
    pub rule: String,
    /// In the pre-ferment; null where no yeast raises it.
    pub dose: Option<DoseJson>,
}

/// The yeast of a pre-ferment, on its own flour.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct DoseJson {
    /// What is written.
    pub pct: DecimalJson,
    /// The least and the most that printed pre-ferments have; null where the baker said how much.
    pub printed_pct: Option<[DecimalJson; 2]>,
    /// What deserves another look.
    pub remarks: Vec<String>,
}

impl From<&ConversionSheet> for ConversionJson {
    fn from(sheet: &ConversionSheet) -> Self {
        let converted = &sheet.done;
        Self {
            dough: converted.after.dough.clone(),
            text: converted.text.clone(),
            to: converted.target.name().to_owned(),
            replaced: converted.replaced.clone(),
            share_pct: DecimalJson::percent(&converted.share),
            yeast: converted.yeast.as_ref().map(YeastJson::from),
            remarks: converted.remarks.clone(),
            comparison: ComparisonJson::from(&sheet.comparison),
        }
    }
}

impl From<&YeastCount> for YeastJson {
    fn from(count: &YeastCount) -> Self {
        Self {
            name: count.name.clone(),
            before_pct: DecimalJson::percent(&count.before),
            after_pct: DecimalJson::percent(&count.whole),
            final_dough_pct: DecimalJson::percent(&count.final_dough),
            rule: count.rule.clone(),
            dose: count.dose.as_ref().map(DoseJson::from),
        }
    }
}

impl From<&Dose> for DoseJson {
    fn from(dose: &Dose) -> Self {
        let printed = dose
            .printed
            .as_ref()
            .map(|(least, most)| [DecimalJson::percent(least), DecimalJson::percent(most)]);
        Self { pct: DecimalJson::percent(&dose.share), printed_pct: printed, remarks: dose.remarks.clone() }
    }
}
