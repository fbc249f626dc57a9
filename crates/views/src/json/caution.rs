//! What can hurt or make ill, and what to look at again.

use levamen_ferment::{Caution, Hazard, Remark, longest_unheld};
use levamen_sheets::DoughCaution;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::DecimalJson;

/// A caution about one stage of a dough.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct DoughCautionJson {
    /// The stage.
    pub stage: String,
    /// What it is about: `hot water` or `spoiling`.
    pub hazard: String,
    /// The foods that spoil.
    pub foods: Vec<String>,
    /// How long they have stood neither cold nor hot by the end of the stage, in minutes, as far as anything says; null
    /// where it is not about food.
    pub stood_min: Option<DecimalJson>,
    /// How long they may, in minutes; null where it is not about food.
    pub longest_min: Option<DecimalJson>,
    /// Whether some time that counts is said nowhere.
    pub is_unsaid: bool,
    /// What to do, and why.
    pub words: String,
    /// Who says so.
    pub source: String,
}

impl DoughCautionJson {
    /// Each of these.
    pub(crate) fn all(cautions: &[DoughCaution]) -> Vec<Self> {
        cautions.iter().map(Self::from).collect()
    }
}

impl From<&DoughCaution> for DoughCautionJson {
    fn from(caution: &DoughCaution) -> Self {
        let stood = caution.stood.as_ref();
        Self {
            stage: caution.name.clone(),
            hazard: if caution.hazard == Hazard::Spoiling { "spoiling" } else { "hot water" }.to_owned(),
            foods: caution.foods.clone(),
            stood_min: stood.map(DecimalJson::minutes),
            longest_min: stood.map(|_| DecimalJson::minutes(&longest_unheld())),
            is_unsaid: caution.is_unsaid,
            words: caution.words(),
            source: caution.source().to_owned(),
        }
    }
}

/// A caution, and who says so.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct CautionJson {
    /// What to do.
    pub words: String,
    /// Who says so.
    pub source: String,
}

impl From<&Caution> for CautionJson {
    fn from(caution: &Caution) -> Self {
        Self { words: caution.words.to_owned(), source: caution.source.to_owned() }
    }
}

/// Something to look at again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct RemarkJson {
    /// A stable name for this kind of remark.
    pub code: String,
    /// What to look at, and why.
    pub message: String,
}

impl From<&Remark> for RemarkJson {
    fn from(remark: &Remark) -> Self {
        Self { code: remark.code.to_owned(), message: remark.message.clone() }
    }
}
