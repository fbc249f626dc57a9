//! The first days of a new culture.

use levamen_quantity::TemperatureUnit;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{FeedPart, Figure};
use levamen_sheets::BegunSheet;

/// How a culture is started from flour and water.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Begun {
    /// The culture's name.
    pub culture: String,
    /// How warm it ripens at the bakery, in degrees Celsius; null where the book does not say it.
    pub warm_c: Option<Figure>,
    /// Its days in order.
    pub days: Vec<BegunDay>,
    /// What stands for what the book does not say.
    pub notes: Vec<String>,
}

/// Some days on which the same is done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BegunDay {
    /// The first of them; the day on which it is mixed is 1.
    pub first: u32,
    /// The last of them; null: until it is ready.
    pub last: Option<u32>,
    /// What is kept of it at each feeding.
    pub old_g: Figure,
    /// What is added.
    pub parts: Vec<FeedPart>,
    /// What stands in the jar then.
    pub made_g: Figure,
    /// What to do and to look for, a line each.
    pub words: Vec<String>,
}

impl From<&BegunSheet> for Begun {
    fn from(sheet: &BegunSheet) -> Self {
        let days = sheet.days.iter().map(|days| BegunDay {
            first: days.plan.first,
            last: days.plan.last,
            old_g: Figure::weight(days.old),
            parts: FeedPart::all(&sheet.parts, &days.parts),
            made_g: Figure::weight(days.made),
            words: days.plan.words.clone(),
        });
        let celsius =
            |warm: &levamen_quantity::Temperature| Figure::number(&warm.in_unit(TemperatureUnit::Celsius));
        Self {
            culture: sheet.culture.clone(),
            warm_c: sheet.warm.as_ref().map(celsius),
            days: days.collect(),
            notes: sheet.notes.clone(),
        }
    }
}
