//! A dough with another pre-ferment.

use levamen_convert::{Dose, YeastCount};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Comparison, Figure};
use levamen_sheets::ConversionSheet;

/// A dough with another pre-ferment, or with none.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Conversion {
    /// The new dough's name.
    pub dough: String,
    /// The new dough, in canonical layout.
    pub text: String,
    /// What the pre-ferment became: straight, poolish, biga, and so on.
    pub to: String,
    /// The pre-ferment that is gone; null where there was none.
    pub replaced: Option<String>,
    /// The flour in the new pre-ferment, on all flour; 0 in a straight dough.
    pub share_pct: Figure,
    /// Its yeast; null where there is none before and after.
    pub yeast: Option<YeastJson>,
    /// What was chosen where nothing was asked for, and what deserves another look.
    pub remarks: Vec<String>,
    /// The dough as it was and as it is, from the same flour.
    pub comparison: Comparison,
}

/// The commercial yeast of a converted dough.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct YeastJson {
    /// Which yeast.
    pub name: String,
    /// In the whole dough as it was, on all flour; another yeast counted as so much of this.
    pub before_pct: Figure,
    /// In the whole dough as it is, on all flour.
    pub after_pct: Figure,
    /// In the final dough, on all flour.
    pub final_dough_pct: Figure,
    /// How the final dough's yeast was come to.
    pub rule: String,
    /// In the pre-ferment; null where no yeast raises it.
    pub dose: Option<DoseJson>,
}

/// The yeast of a pre-ferment, on its own flour.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct DoseJson {
    /// What is written.
    pub pct: Figure,
    /// The least and the most that printed pre-ferments have; null where the baker said how much.
    pub printed_pct: Option<[Figure; 2]>,
    /// What deserves another look.
    pub remarks: Vec<String>,
}

impl From<&ConversionSheet<'_>> for Conversion {
    fn from(sheet: &ConversionSheet<'_>) -> Self {
        let converted = sheet.done;
        Self {
            dough: converted.after.dough.clone(),
            text: converted.text.clone(),
            to: converted.target.name().to_owned(),
            replaced: converted.replaced.clone(),
            share_pct: Figure::percent(&converted.share),
            yeast: converted.yeast.as_ref().map(YeastJson::from),
            remarks: converted.remarks.clone(),
            comparison: Comparison::from(&sheet.comparison),
        }
    }
}

impl From<&YeastCount> for YeastJson {
    fn from(count: &YeastCount) -> Self {
        Self {
            name: count.name.clone(),
            before_pct: Figure::percent(&count.before),
            after_pct: Figure::percent(&count.whole),
            final_dough_pct: Figure::percent(&count.final_dough),
            rule: count.rule.clone(),
            dose: count.dose.as_ref().map(DoseJson::from),
        }
    }
}

impl From<&Dose> for DoseJson {
    fn from(dose: &Dose) -> Self {
        let printed =
            dose.printed.as_ref().map(|(least, most)| [Figure::percent(least), Figure::percent(most)]);
        Self { pct: Figure::percent(&dose.share), printed_pct: printed, remarks: dose.remarks.clone() }
    }
}
