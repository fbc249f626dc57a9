//! JSON: the types behind every `--json`, and the schemas made from them.
//!
//! Weights are in grams and shares in percent; a name that ends in `_g` or `_pct` says which. Every figure is a
//! decimal string, see [`Figure`]. A field without a value is `null`, never left out.
//!
//! The schemas in `docs/schemas` are made from these types; the tests compare the two, and write the files anew when
//! they are run with `LEVAMEN_REWRITE=1`.

mod begun;
mod caution;
mod compare;
mod conversion;
mod cost;
mod day;
mod feed;
mod figure;
mod formula;
mod housed;
mod list;
mod poured;
mod problem;
mod ripe;
mod schema;
mod sheet;
mod store;
mod timetable;
mod why;

pub use begun::{NewCultureDaysJson, NewCultureJson};
pub use caution::DoughCautionJson;
pub use compare::{AmountJson, ComparedJson, ComparedStageJson, ComparisonJson, FigureJson};
pub use conversion::{ConversionJson, DoseJson, YeastJson};
pub use cost::{
    CostsJson, CustomerCostJson, DoughCostJson, IngredientCostJson, OrderCostJson, OrdersCostJson,
    PieceCostJson,
};
pub use day::{
    DayDoughJson, DayIssueJson, DayJson, DayProductJson, DaySeedJson, DaySettingJson, DayTakenJson,
};
pub use feed::{FeedJson, FeedPartJson, FeedStepJson};
pub use figure::Figure;
pub use formula::{
    FormulaJson, FormulaLineJson, FormulaStageJson, LineKindJson, OverallRowJson, PiecesJson, RipensJson,
    SeedJson,
};
pub use housed::{TubPlanJson, TubPlanStageJson};
pub use list::{ListItemJson, ListStageJson};
pub use poured::{CautionJson, WaterJson, WayJson};
pub use problem::{ProblemJson, ProblemPlaceJson};
pub use ripe::{FoundJson, GivenJson, RemarkJson, RipeJson, RoomJson};
pub use schema::schemas;
pub use sheet::{DilutionJson, LargestChangeJson, SheetJson, SheetLineJson, SheetRowJson, SheetStageJson};
pub use store::{IssueJson, StockJson, StoreJson};
pub use timetable::{NeedJson, NoTimetableJson, StepJson, TimetableJson, WaitJson, WaitingJson};
pub use why::{CoupledJson, ReasonJson, SettledJson, SpotJson, TermJson, TogetherJson, WhyJson};
