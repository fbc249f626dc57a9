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

pub use begun::{Begun, BegunDay};
pub use caution::DoughCautionJson;
pub use compare::{AmountJson, ComparedJson, ComparedStageJson, Comparison, FigureJson};
pub use conversion::{Conversion, DoseJson, YeastJson};
pub use cost::{
    Costs, CustomerCostJson, DoughCostJson, IngredientCostJson, OrderCostJson, OrdersCostJson, PieceCostJson,
};
pub use day::{Day, DayDough, DayIssue, DayProduct, DaySeed, DaySetting, DayTaken};
pub use feed::{Feed, FeedPart, FeedStep};
pub use figure::Figure;
pub use formula::{Formula, FormulaLine, FormulaStage, OverallRow, PiecesJson, RipensJson, SeedJson, What};
pub use housed::{Housed, HousedJson};
pub use list::{ListItem, ListStage};
pub use poured::{CautionJson, Poured, WayJson};
pub use problem::{ProblemJson, ProblemPlace, problems};
pub use ripe::{FoundJson, GivenJson, RemarkJson, Ripe, RoomJson};
pub use schema::schemas;
pub use sheet::{DilutionJson, LargestChange, Sheet, SheetLine, SheetRow, SheetStage};
pub use store::{IssueJson, StockJson, Store};
pub use timetable::{NeedJson, NoTimetableJson, StepJson, TimetableJson, WaitJson, WaitingJson};
pub use why::{CoupledJson, ReasonJson, SettledJson, SpotJson, TermJson, TogetherJson, Why};
