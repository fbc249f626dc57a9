//! What is weighed: figures rounded once, to the bakery's scales and to money.
//!
//! Rounded figures are types of their own: a [`Weight`] is what a scale shows, and [`Money`] what a till shows. Both are decimals
//! whose sums are exact, or an error; neither has a sum with an exact figure.
//!
//! | | |
//! |---|---|
//! | [`FormulaSheet`] | a dough with all that follows from its size; exact, for reading |
//! | [`Sheet`] | a dough to weigh from |
//! | [`DaySheets`] | all doughs of a day, with their batches; what each scale weighs, what the store room issues |
//! | [`FeedingSheet`], [`NewCultureSheet`] | the feedings of a culture |
//! | [`StoreSheet`] | what is needed and bought |
//! | [`DoughCost`], [`OrdersCost`] | prices that add up to what is shown of their sum |
//! | [`TimeEstimate`], [`ClockEstimate`] | what a model of a ferment says of time, to five minutes |
//! | [`PouredWater`] | water, with its ice to the gram |
//! | [`ConversionSheet`], [`TimetableSheet`] | what a page of these shows, found before it is shown |
//! | [`cautions`] | what can hurt, and food that stands too warm |
//!
//! A [`Batch`](levamen_balance::Batch) of a balanced dough and the bakery's [`Scale`](levamen_formula::Scale)s come in, and a
//! [`Sheet`] comes out. [`Sheet::new`] rounds every weight once, so that lines still add up to their stage and stages to
//! the batch; `docs/rounding.md` says how. The same holds for the sheets of a day, of a culture's feedings, of the store
//! room, and for costs. `levamen-views` shows them.
//!
//! ```
//! use levamen_balance::Balance;
//! use levamen_formula::Scale;
//! use levamen_sheets::{RoundingError, Sheet};
//!
//! fn rounded(dough: &Balance, scales: &[Scale]) -> Result<Sheet, RoundingError> {
//!     Sheet::new(&dough.batch(), scales)
//! }
//! ```

mod batch_remarks;
mod cautions;
mod cost;
mod culture;
mod day;
mod dough_sheet;
mod estimate;
mod formula;
mod money;
mod pieces;
mod portions;
mod rounding;
mod rounding_error;
mod scales;
mod sheet;
mod store;
mod timetable;
mod weight;

pub use batch_remarks::{BatchRemark, BatchRemarkKind};
pub use cautions::{DoughCaution, cautions};
pub use cost::{CustomerCost, DoughCost, IngredientCost, OrderCost, Ordered, OrdersCost, PieceCost};
pub use culture::{FeedingRow, FeedingSheet, NewCultureDays, NewCultureSheet};
pub use day::{DaySeeds, DaySheets, Issued, Pick, ScalePicks, SeedNeed, ToppingSheet};
pub use dough_sheet::{DoughSheet, GoesInto};
pub use estimate::{ClockEstimate, IceAndTap, PouredWater, SettingSheet, TimeEstimate};
pub use formula::{ConversionSheet, FormulaSheet, StageSeed};
pub use money::Money;
pub use pieces::BatchPieces;
pub use portions::{FeedPart, FeedingWeights};
pub use rounding_error::RoundingError;
pub use scales::OnScale;
pub use sheet::{
    Dilution, LineSheet, LineSource, RoundingChange, Sheet, SheetRow, SmallWeightRemedy, StageSheet, mixed,
};
pub use store::{Action, StoreGroup, StoreLine, StoreSheet};
pub use timetable::TimetableSheet;
pub use weight::Weight;
