//! One published formula as its file holds it.

use std::collections::BTreeMap;
use std::path::PathBuf;

use levamen_quantity::{Exact, MassUnit};
use serde::Deserialize;
use serde_json::Value;

/// A published formula: its weights as printed, and the figures that its source prints beside them.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Example {
    /// What it is.
    pub name: String,
    /// Where it was read.
    pub source: String,
    /// `seen` or `computed`.
    pub how_sure: String,
    /// The symbol of the unit of every weight.
    pub unit: String,
    /// What each stage is.
    pub kinds: BTreeMap<String, String>,
    /// What becomes of the seed: `stays`, `given back`; `None` without a culture.
    pub seed: Option<String>,
    /// What cultures are made of, in parts, where it is known.
    #[serde(default)]
    pub cultures: BTreeMap<String, Vec<(String, String)>>,
    /// What the pantry does not know, and of which only the weight counts.
    #[serde(default)]
    pub plain: Vec<String>,
    /// Every weight: stage, ingredient, figure.
    pub rows: Vec<Row>,
    /// The printed figures, by their keys.
    pub printed: Value,
    /// Paths of printed figures that the rows give within their own rounding only.
    #[serde(default)]
    pub within_rounding: Vec<String>,
    /// The same formula in percentages.
    pub percent_form: Option<PercentForm>,
    /// Figures that are worked out and not printed.
    #[serde(default)]
    pub computed: Value,
    /// What is wrong in the print.
    #[serde(default)]
    pub known_misprints: Vec<String>,
    /// What else a reader should know.
    #[serde(default)]
    pub note: String,
}

/// A weight: stage, ingredient or earlier stage, figure as printed.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct Row(pub String, pub String, pub String);

/// A percentage: ingredient, figure as printed.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
pub struct PercentRow(pub String, pub String);

/// A formula in percentages.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PercentForm {
    /// The whole flour, where that is the size.
    pub total_flour: Option<String>,
    /// The whole dough, where that is the size.
    pub dough: Option<String>,
    /// On all flour.
    pub overall: Vec<PercentRow>,
    /// The share of all flour that is fermented ahead.
    pub prefermented_flour_pct: String,
    /// Each stage on its own flour.
    pub stages: BTreeMap<String, Vec<PercentRow>>,
    /// What the percentages do not give at printed precision: stage and ingredient, `overall` for the whole.
    #[serde(default)]
    pub differs: Vec<(String, String)>,
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("published")
}

/// The names of all examples, in order.
///
/// # Errors
/// Where the folder cannot be listed.
pub fn names() -> Result<Vec<String>, String> {
    let listed = std::fs::read_dir(folder()).map_err(|error| error.to_string())?;
    let paths = listed.filter_map(|entry| Some(entry.ok()?.path()));
    let json = paths.filter(|path| path.extension().is_some_and(|ending| ending == "json"));
    let mut names: Vec<String> =
        json.filter_map(|path| Some(path.file_stem()?.to_str()?.to_owned())).collect();
    names.sort_unstable();
    Ok(names)
}

/// The example of a name.
///
/// # Errors
/// Where its file cannot be read or is not what an example is.
pub fn load(name: &str) -> Result<Example, String> {
    let path = folder().join(format!("{name}.json"));
    let text = std::fs::read_to_string(&path).map_err(|error| format!("{name}: {error}"))?;
    serde_json::from_str(&text).map_err(|error| format!("{name}: {error}"))
}

impl Example {
    /// The unit of every weight.
    ///
    /// # Errors
    /// Where no unit has this symbol.
    pub fn mass_unit(&self) -> Result<MassUnit, String> {
        let found = MassUnit::ALL.into_iter().find(|unit| unit.symbol() == self.unit);
        found.ok_or_else(|| format!("no unit is written `{}`", self.unit))
    }

    /// The stages ahead of the final dough, in the order of the rows.
    #[must_use]
    pub fn stages(&self) -> Vec<&str> {
        let mut stages: Vec<&str> = Vec::new();
        for Row(stage, ..) in &self.rows {
            if self.is_stage(stage) && !stages.contains(&stage.as_str()) {
                stages.push(stage);
            }
        }
        stages
    }

    /// Whether a name is that of a stage ahead of the final dough.
    #[must_use]
    pub fn is_stage(&self, name: &str) -> bool {
        self.kinds.contains_key(name)
    }

    /// Whether a name is that of a culture: one whose composition is listed, or one that is given back. A culture
    /// that stays and is not listed is a row of its own in the print, so it is an ingredient.
    #[must_use]
    pub fn is_culture(&self, name: &str) -> bool {
        self.cultures.contains_key(name) || (self.gives_back() && is_culture_name(name))
    }

    /// Whether a name is that of a culture which the print counts as an ingredient.
    #[must_use]
    pub fn is_culture_as_ingredient(&self, name: &str) -> bool {
        !self.is_culture(name) && self.seed.is_some() && is_culture_name(name)
    }

    /// Whether the seed is given back before mixing.
    #[must_use]
    pub fn gives_back(&self) -> bool {
        self.seed.as_deref() == Some("given back")
    }

    /// The names of all that is weighed but stages.
    #[must_use]
    pub fn weighed(&self) -> Vec<&str> {
        let mut names: Vec<&str> = self.rows.iter().map(|row| row.1.as_str()).collect();
        names.retain(|name| !self.is_stage(name));
        names.sort_unstable();
        names.dedup();
        names
    }

    /// What the rows weigh into a stage.
    pub fn rows_of<'e>(&'e self, stage: &'e str) -> impl Iterator<Item = &'e Row> {
        self.rows.iter().filter(move |row| row.0 == stage)
    }

    /// The printed figures, each with its path: `overall/water`, `stage_pct/levain/water`.
    #[must_use]
    pub fn printed_figures(&self) -> Vec<(String, String)> {
        leaves(&self.printed)
    }

    /// The figures that are worked out and not printed, each with its path.
    #[must_use]
    pub fn computed_figures(&self) -> Vec<(String, String)> {
        leaves(&self.computed)
    }
}

/// Cultures keep a name of their own in the files; these words tell them from ingredients.
fn is_culture_name(name: &str) -> bool {
    ["culture", "starter", "levain"].iter().any(|word| name.ends_with(word))
}

/// The strings in a tree of objects, each with the keys that lead to it.
fn leaves(value: &Value) -> Vec<(String, String)> {
    match value {
        Value::Object(fields) => {
            let deeper = fields.iter().flat_map(|(key, value)| {
                let join =
                    move |path: String| if path.is_empty() { key.clone() } else { format!("{key}/{path}") };
                leaves(value).into_iter().map(move |(path, figure)| (join(path), figure))
            });
            deeper.collect()
        }
        Value::String(figure) => vec![(String::new(), figure.clone())],
        _ => Vec::new(),
    }
}

/// A figure as it is printed.
///
/// # Errors
/// Where it is not a plain decimal.
pub(super) fn exact(figure: &str) -> Result<Exact, String> {
    Exact::from_literal(figure).map_err(|error| format!("`{figure}`: {error}"))
}

/// How many decimals a figure is printed with.
pub(super) fn places(figure: &str) -> usize {
    figure.split_once('.').map_or(0, |(_, decimals)| decimals.len())
}

/// Half of the last printed decimal: how far a rounded figure may be off.
pub(super) fn half_unit(figure: &str) -> Exact {
    let tenth = &Exact::ONE / &Exact::from(10);
    let unit = (0..places(figure)).fold(Exact::ONE, |unit, _| &unit * &tenth);
    &unit / &Exact::from(2)
}
