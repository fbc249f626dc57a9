//! A feeding plan, and the first days of a new culture.

use jiff::Zoned;
use levamen_sheets::{FeedingRow, FeedingSheet, NewCultureSheet, Weight};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::DecimalJson;

/// The feeding plan of a culture. Weights are rounded to the bakery's scales, but those that are called exact.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Feed")]
pub struct FeedJson {
    /// The culture's name.
    pub culture: String,
    /// The first day, as in ISO 8601.
    pub from: String,
    /// The last day.
    pub to: String,
    /// Ripe culture at the start.
    pub on_hand_g: DecimalJson,
    /// Whether it stands in the cold until the first feeding.
    pub begins_cold: bool,
    /// What is done, in order of time.
    pub steps: Vec<FeedStepJson>,
    /// What is taken for levains in all.
    pub taken_g: DecimalJson,
    /// What is thrown away in all.
    pub discarded_g: DecimalJson,
    /// What stands in the tub at the end.
    pub left_g: DecimalJson,
    /// Whether it was shown that no choice among the hours discards less; for the moments of the plan none does.
    pub is_least: bool,
    /// What stands for what the book does not say.
    pub notes: Vec<String>,
}

/// One thing that is done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "what", rename_all = "lowercase")]
#[schemars(rename = "FeedStep")]
pub enum FeedStepJson {
    /// Ripe culture is taken for a levain.
    Take {
        /// When, as in RFC 3339.
        at: String,
        /// How much.
        grams: DecimalJson,
        /// What stays in the tub.
        stays_g: DecimalJson,
    },
    /// The culture is fed.
    Feed {
        /// When, as in RFC 3339.
        at: String,
        /// What is thrown away.
        discard_g: DecimalJson,
        /// The old culture that is kept.
        old_g: DecimalJson,
        /// What is added.
        parts: Vec<FeedPartJson>,
        /// What stands in the tub then.
        made_g: DecimalJson,
        /// The share of old culture in it.
        old_pct: DecimalJson,
        /// When it is ripe for certain.
        ripe: String,
        /// Whether it goes into the cold when it is ripe.
        goes_cold: bool,
        /// Old culture and what is thrown away and added, before rounding.
        exact_old_g: DecimalJson,
        /// The same, thrown away.
        exact_discard_g: DecimalJson,
        /// The same, added.
        exact_new_g: DecimalJson,
    },
}

/// One thing that a culture is fed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "FeedPart")]
pub struct FeedPartJson {
    /// What it is called.
    pub name: String,
    /// How much.
    pub grams: DecimalJson,
}

impl FeedPartJson {
    /// Each part by its name.
    pub(super) fn all(names: &[String], parts: &[Weight]) -> Vec<Self> {
        let part = |(name, weight): (&String, &Weight)| Self {
            name: name.clone(),
            grams: DecimalJson::weight(*weight),
        };
        names.iter().zip(parts).map(part).collect()
    }
}

impl From<&FeedingSheet> for FeedJson {
    fn from(sheet: &FeedingSheet) -> Self {
        Self {
            culture: sheet.culture.clone(),
            from: sheet.first.to_string(),
            to: sheet.last.to_string(),
            on_hand_g: DecimalJson::weight(sheet.on_hand),
            begins_cold: sheet.begins_cold,
            steps: sheet.rows.iter().map(|row| step(row, &sheet.parts)).collect(),
            taken_g: DecimalJson::weight(sheet.taken),
            discarded_g: DecimalJson::weight(sheet.discarded),
            left_g: DecimalJson::weight(sheet.left),
            is_least: sheet.is_least,
            notes: sheet.notes.iter().map(ToString::to_string).collect(),
        }
    }
}

fn step(row: &FeedingRow, names: &[String]) -> FeedStepJson {
    match row {
        FeedingRow::Take { at, weight, stays } => FeedStepJson::Take {
            at: moment(at),
            grams: DecimalJson::weight(*weight),
            stays_g: DecimalJson::weight(*stays),
        },
        FeedingRow::Feed { weighed, exact } => FeedStepJson::Feed {
            at: moment(&exact.at),
            discard_g: DecimalJson::weight(weighed.discard),
            old_g: DecimalJson::weight(weighed.old),
            parts: FeedPartJson::all(names, &weighed.parts),
            made_g: DecimalJson::weight(weighed.made),
            old_pct: DecimalJson::percent(&weighed.share_old()),
            ripe: moment(&exact.ripe),
            goes_cold: exact.goes_cold,
            exact_old_g: DecimalJson::grams(&exact.old),
            exact_discard_g: DecimalJson::grams(&exact.discard),
            exact_new_g: DecimalJson::grams(&exact.new),
        },
    }
}

/// The clock on the wall with its distance from universal time.
fn moment(at: &Zoned) -> String {
    at.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
}

/// How a culture is started from flour and water.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Begun")]
pub struct NewCultureJson {
    /// The culture's name.
    pub culture: String,
    /// How warm it ripens at the bakery, in degrees Celsius; null where the book does not say it.
    pub warm_c: Option<DecimalJson>,
    /// Its days in order.
    pub days: Vec<NewCultureDaysJson>,
    /// What stands for what the book does not say.
    pub notes: Vec<String>,
}

/// Some days on which the same is done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "BegunDay")]
pub struct NewCultureDaysJson {
    /// The first of them; the day on which it is mixed is 1.
    pub first: u32,
    /// The last of them; null: until it is ready.
    pub last: Option<u32>,
    /// What is kept of it at each feeding.
    pub old_g: DecimalJson,
    /// What is added.
    pub parts: Vec<FeedPartJson>,
    /// What stands in the jar then.
    pub made_g: DecimalJson,
    /// What to do and to look for, a line each.
    pub words: Vec<String>,
}

impl From<&NewCultureSheet> for NewCultureJson {
    fn from(sheet: &NewCultureSheet) -> Self {
        let days = sheet.days.iter().map(|days| NewCultureDaysJson {
            first: days.plan.first,
            last: days.plan.last,
            old_g: DecimalJson::weight(days.old),
            parts: FeedPartJson::all(&sheet.parts, &days.parts),
            made_g: DecimalJson::weight(days.made),
            words: days.plan.words.clone(),
        });
        Self {
            culture: sheet.culture.clone(),
            warm_c: sheet.warm.as_ref().map(DecimalJson::celsius),
            days: days.collect(),
            notes: sheet.notes.clone(),
        }
    }
}
