//! JSON: the types behind every `--json`, and the schemas made from them.
//!
//! Weights are in grams and shares in percent; a name that ends in `_g` or `_pct` says which. Every figure is a
//! decimal string, see [`DecimalJson`]. A field without a value is `null`, never left out.
//!
//! The schemas in `docs/schemas` are made from these types; the tests compare the two, and write the files again when
//! they are run with `LEVAMEN_REWRITE=1`.

mod caution;
mod compare;
mod cost;
mod culture;
mod day;
mod ferment;
mod figure;
mod formula;
mod problem;
mod ripe;
mod sheet;
mod store;
mod timetable;
mod why;
mod work;

pub use caution::{CautionJson, DoughCautionJson, RemarkJson};
pub use compare::{
    AmountJson, ComparedJson, ComparedStageJson, ComparisonJson, ConversionJson, DoseJson, FigureJson,
    YeastJson,
};
pub use cost::{
    CostsJson, CustomerCostJson, DoughCostJson, IngredientCostJson, OrderCostJson, OrdersCostJson,
    PieceCostJson,
};
pub use culture::{FeedJson, FeedPartJson, FeedStepJson, NewCultureDaysJson, NewCultureJson};
pub use day::{
    DayDoughJson, DayIssueJson, DayJson, DayProductJson, DaySeedJson, DaySettingJson, DayTakenJson,
};
pub use ferment::{TubPlanJson, TubPlanStageJson, WaterJson, WayJson};
pub use figure::DecimalJson;
pub use formula::{
    FormulaJson, FormulaLineJson, FormulaStageJson, LineKindJson, ListItemJson, ListStageJson,
    OverallRowJson, PiecesJson, RipensJson, SeedJson,
};
pub use problem::{ProblemJson, ProblemPlaceJson, problems};
pub use ripe::{FoundJson, GivenJson, RipeJson, RoomJson};
pub use sheet::{DilutionJson, LargestChangeJson, SheetJson, SheetLineJson, SheetRowJson, SheetStageJson};
pub use store::{IssueJson, StockJson, StoreJson};
pub use timetable::{NeedJson, NoTimetableJson, StepJson, TimetableJson, WaitJson, WaitingJson};
pub use why::{CoupledJson, ReasonJson, SettledJson, SpotJson, TermJson, TogetherJson, WhyJson};
pub use work::{LagJson, ResourceJson, WorkJson, WorkNeedJson, WorkStepJson};

use levamen_language::{Problem, first_invisible};
use schemars::{JsonSchema, Schema, generate::SchemaSettings};
use serde::Serialize;

/// A value as JSON, with a line end. What could steer a terminal is escaped as JSON does, and is the same when it is read.
///
/// # Errors
/// It has no form in JSON.
pub fn written(value: &impl Serialize) -> Result<String, Problem> {
    let text = serde_json::to_string_pretty(value)
        .map_err(|error| Problem::error("not-written", format!("the result has no form in JSON: {error}")))?;
    // Outside of strings JSON has nothing but ASCII and line ends.
    let escaped = |character: char| match first_invisible(character.encode_utf8(&mut [0; 4])) {
        Some(_) if character != '\n' => format!("\\u{:04x}", u32::from(character)),
        _ => character.to_string(),
    };
    let is_plain = text.bytes().all(|byte| matches!(byte, b' '..=b'~' | b'\n'));
    Ok(if is_plain { text } else { text.chars().map(escaped).collect() } + "\n")
}

/// The schema of one type, in the draft of 2020-12.
fn schema<T: JsonSchema>() -> Schema {
    SchemaSettings::draft2020_12().for_serialize().into_generator().into_root_schema_for::<T>()
}

/// The schema of each command's JSON, by the name of the command.
#[must_use]
pub fn schemas() -> Vec<(&'static str, Schema)> {
    vec![
        ("formula", schema::<FormulaJson>()),
        ("sheet", schema::<SheetJson>()),
        ("store", schema::<StoreJson>()),
        ("cost", schema::<CostsJson>()),
        ("list", schema::<Vec<ListItemJson>>()),
        ("check", schema::<Vec<ProblemJson>>()),
        ("why", schema::<WhyJson>()),
        ("compare", schema::<ComparisonJson>()),
        ("ripen", schema::<RipeJson>()),
        ("water", schema::<WaterJson>()),
        ("tub", schema::<TubPlanJson>()),
        ("convert", schema::<ConversionJson>()),
        ("feed", schema::<Vec<FeedJson>>()),
        ("day", schema::<DayJson>()),
        ("feed-new", schema::<NewCultureJson>()),
        ("timetable", schema::<TimetableJson>()),
        ("no-timetable", schema::<NoTimetableJson>()),
    ]
}
