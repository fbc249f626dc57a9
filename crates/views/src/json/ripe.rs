//! When a pre-ferment is ripe.

use levamen::{RipenAnswer, RipenQuestion, RipenReport};
use levamen_ferment::{Leaven, RipeningEstimate};
use levamen_quantity::Temperature;
use levamen_sheets::{ClockEstimate, TimeEstimate};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{DecimalJson, DoughCautionJson, RemarkJson};

/// One stage, what was asked about its ripening, and what was found.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Ripe")]
pub struct RipeJson {
    /// The dough's name.
    pub dough: String,
    /// The stage's name.
    pub stage: String,
    /// What it is started with: `seed`, or the yeast by its name in the book.
    pub leaven: String,
    /// How much of it, on the stage's own flour, in the dough's file.
    pub leaven_pct: DecimalJson,
    /// After how many minutes it is ripe, in the dough's file.
    pub reference_min: DecimalJson,
    /// At how many degrees Celsius, in the dough's file.
    pub reference_c: Option<DecimalJson>,
    /// What was given.
    pub given: GivenJson,
    /// What was asked for: `time_min`, `temperature_c`, `leaven_pct`, `ready_at`, `set_at`.
    pub asked: String,
    /// What was found; several where times at several temperatures are told.
    pub found: Vec<FoundJson>,
    /// What to look at again.
    pub remarks: Vec<RemarkJson>,
    /// What can make ill.
    pub cautions: Vec<DoughCautionJson>,
}

/// What a question gives; null where it does not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct GivenJson {
    /// How warm all the time, in degrees Celsius.
    pub at_c: Option<DecimalJson>,
    /// How long, in minutes.
    pub time_min: Option<DecimalJson>,
    /// Seed or yeast, on the stage's own flour.
    pub leaven_pct: Option<DecimalJson>,
    /// How warm by the clock.
    pub room: Vec<RoomJson>,
    /// When it is set, as `HH:MM`.
    pub set_at: Option<String>,
    /// When it shall be ripe, as `HH:MM`.
    pub ready_at: Option<String>,
}

/// How warm a room is at a time of day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct RoomJson {
    /// The time, as `HH:MM`.
    pub at: String,
    /// Degrees Celsius.
    pub temperature_c: DecimalJson,
}

/// An answer by two paces.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct FoundJson {
    /// For which temperature, where several are told.
    pub at_c: Option<DecimalJson>,
    /// The answer to go by, in the unit of what was asked for.
    pub value: String,
    /// How long it ripens, where a time of day was asked for.
    pub ripens_min: Option<DecimalJson>,
    /// Whose pace that is.
    pub by: String,
    /// The answer by the other pace, for comparison.
    pub other: Option<String>,
    /// Whose pace the other is.
    pub other_by: String,
}

impl From<&RipenReport> for RipeJson {
    fn from(view: &RipenReport) -> Self {
        let leaven = match &view.leaven {
            Leaven::Seed(_) => "seed",
            Leaven::Yeast(yeast) => &yeast.name,
        };
        let (asked, found) = answer(&view.answer);
        Self {
            dough: view.dough.clone(),
            stage: view.stage.clone(),
            leaven: leaven.to_owned(),
            leaven_pct: DecimalJson::percent(view.leaven.of_flour()),
            reference_min: DecimalJson::minutes(&view.reference.least),
            reference_c: view.reference.temperature.as_ref().map(DecimalJson::celsius),
            given: GivenJson::from(&view.given),
            asked: asked.to_owned(),
            found,
            remarks: view.remarks().map(RemarkJson::from).collect(),
            cautions: DoughCautionJson::all(&view.cautions),
        }
    }
}

impl From<&RipenQuestion> for GivenJson {
    fn from(given: &RipenQuestion) -> Self {
        Self {
            at_c: given.at.as_ref().map(DecimalJson::celsius),
            time_min: given.time.as_ref().map(DecimalJson::minutes),
            leaven_pct: given.amount().map(DecimalJson::percent),
            room: given
                .room
                .iter()
                .map(|(clock, at)| RoomJson {
                    at: clock.to_string(),
                    temperature_c: DecimalJson::celsius(at),
                })
                .collect(),
            set_at: given.set.map(|clock| clock.to_string()),
            ready_at: given.ready.map(|clock| clock.to_string()),
        }
    }
}

fn answer(answer: &RipenAnswer) -> (&'static str, Vec<FoundJson>) {
    let written = |figure: DecimalJson| figure.as_str().to_owned();
    let time = |time: &TimeEstimate| written(DecimalJson::minutes(&time.exact));
    let clock = |found: &RipeningEstimate<ClockEstimate>| FoundJson {
        ripens_min: Some(DecimalJson::minutes(&found.value.ripens.exact)),
        ..one(found, |clocked| clocked.exact.to_string())
    };
    match answer {
        RipenAnswer::Time(found, _) => ("time_min", vec![one(found, time)]),
        RipenAnswer::Temperature(found) => {
            ("temperature_c", vec![one(found, |at| written(DecimalJson::celsius(at)))])
        }
        RipenAnswer::Amount(found) => {
            ("leaven_pct", vec![one(found, |leaven| written(DecimalJson::percent(leaven.of_flour())))])
        }
        RipenAnswer::Ready(found) => ("ready_at", vec![clock(found)]),
        RipenAnswer::Set(found) => ("set_at", vec![clock(found)]),
        RipenAnswer::Table(rows) => {
            let row = |(at, found): &(Temperature, RipeningEstimate<TimeEstimate>)| FoundJson {
                at_c: Some(DecimalJson::celsius(at)),
                ..one(found, time)
            };
            ("time_min", rows.iter().map(row).collect())
        }
    }
}

fn one<T>(found: &RipeningEstimate<T>, written: impl Fn(&T) -> String) -> FoundJson {
    FoundJson {
        at_c: None,
        value: written(&found.value),
        ripens_min: None,
        by: found.by.to_owned(),
        other: found.other.as_ref().map(written),
        other_by: found.other_by.to_owned(),
    }
}
