//! The doughs of a book.

use levamen::ListedDough;
use levamen_balance::Balance;
use levamen_quantity::Share;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::DecimalJson;

/// One dough of a book. Its figures are null where the dough has problems and no balance.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "ListItem")]
pub struct ListItemJson {
    /// The dough's name.
    pub dough: String,
    /// The file that it stands in.
    pub file: String,
    /// Added water on all flour.
    pub hydration_pct: Option<DecimalJson>,
    /// Added water and the water inside other ingredients, on all flour.
    pub effective_hydration_pct: Option<DecimalJson>,
    /// Flour that ferments ahead of the final dough, on all flour.
    pub prefermented_flour_pct: Option<DecimalJson>,
    /// The stages in the order in which they are made; the final dough is the last.
    pub stages: Vec<ListStageJson>,
}

/// One stage of a dough.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "ListStage")]
pub struct ListStageJson {
    /// What the dough calls it.
    pub name: String,
    /// What it is.
    pub kind: String,
}

impl From<&ListedDough> for ListItemJson {
    fn from(entry: &ListedDough) -> Self {
        let figure = |share: fn(&Balance) -> &Share| {
            entry.balance.as_ref().map(|balance| DecimalJson::percent(share(balance)))
        };
        let stages = entry.balance.iter().flat_map(|balance| &balance.stages);
        Self {
            dough: entry.dough.clone(),
            file: entry.file.clone(),
            hydration_pct: figure(|balance| &balance.hydration),
            effective_hydration_pct: figure(|balance| &balance.effective_hydration),
            prefermented_flour_pct: figure(|balance| &balance.prefermented_flour),
            stages: stages
                .map(|stage| ListStageJson { name: stage.name.clone(), kind: stage.kind.name().to_owned() })
                .collect(),
        }
    }
}
