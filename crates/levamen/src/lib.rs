//! The library that answers: a [`Workspace`] in memory, and one function for each question of a baker.
//!
//! It opens no file, prints nothing and never asks what time it is: a command, a page and an editor each bring in texts and
//! take out a report, and give the same answers. Of the machine it knows the time zone alone, for a bakery whose card
//! names none. A report is a finished value; `levamen-views` shows it.
//!
//! A [`Workspace`] reads its texts once and balances each dough once, when it is first asked for. [`Workspace::edit`] gives a
//! text other words, and only what follows from them is worked out again. A question is what a
//! function takes beside it: a name, a date, [`Wishes`], a [`BatchSize`], an [`OrdersQuestion`]. What it leaves open is as the
//! bakery's cards say. Orders come as an [`OrderSource`] each, and a long run reports to a [`Progress`].
//!
//! | question | function | report |
//! |---|---|---|
//! | which doughs are there | [`list`] | [`ListedDough`] |
//! | what is wrong with the book | [`check`] | [`Problem`] |
//! | a dough, as it is or should be, at a size | [`formula`], [`scaled`] | [`FormulaReport`] |
//! | what to weigh for it | [`sheet`] | [`Sheet`](levamen_sheets::Sheet) |
//! | why a figure is what it is | [`why`] | [`Explanation`] |
//! | two doughs side by side | [`compare`] | [`Comparison`](levamen_balance::Comparison) |
//! | a dough with another pre-ferment | [`convert`] | [`ConversionSheet`](levamen_sheets::ConversionSheet) |
//! | when a pre-ferment is ripe | [`ripen`] | [`RipenReport`] |
//! | how warm the water has to be | [`water`] | [`WaterAnswer`] |
//! | which tubs to take | [`tubs`] | [`TubPlan`] |
//! | the day's work | [`day`] | [`DayReport`] |
//! | how cultures are fed | [`feed`], [`new_culture`] | [`FeedingSheet`](levamen_sheets::FeedingSheet) |
//! | what the store room needs | [`store`] | [`StoreReport`] |
//! | what it costs | [`dough_costs`], [`orders_costs`] | [`DoughCosts`], [`OrdersCosts`] |
//! | a recipe in weights as a dough text | [`import`] | the text |
//!
//! What keeps a question from being answered is an [`Error`]: problems of the texts, with their places, or a
//! [`QuestionError`], which knows nothing of options and fields. Each edge says in its own words how to mend it.
//!
//! ```
//! use levamen::{BatchSize, InputText, Wishes, Workspace, sheet};
//!
//! let text = "
//! dough Tin loaf
//!
//! make 10 pieces of 1000 g
//!
//! final dough
//!   white flour  100 %
//!   water         62 %
//!   salt           2 %
//!   fresh yeast    2 %
//! ";
//! let text = text.to_owned();
//! let workspace = Workspace::read(vec![InputText { name: "tin.dough".to_owned(), text: Ok(text) }], None);
//! let loaf = workspace.find("tin loaf").unwrap();
//! let sheet = sheet(&workspace, loaf, &Wishes::default(), &BatchSize::default()).unwrap();
//! assert_eq!(sheet.pieces.unwrap().count, 10);
//! ```

mod advice;
mod cost;
mod day;
mod days;
mod defaults;
mod dough_text;
mod error;
mod feed;
mod formula;
mod kept_book;
mod measured_batches;
mod orders;
mod progress;
mod ripen;
mod size;
mod sound;
mod stage_ripening;
mod store;
mod tubs;
pub mod typed;
mod water;
mod wishes;
mod workspace;

pub use cost::{DoughCosts, OrdersCosts, cost_orders, dough_costs, orders_costs};
pub use day::{DayReport, day, day_orders};
pub use defaults::RoomWarmth;
pub use dough_text::{LayoutReport, convert, import, lay_out};
pub use error::{Error, Field, QuestionError};
pub use feed::{FeedQuestion, feed, new_culture};
pub use formula::{Explanation, FormulaReport, ListedDough, compare, formula, list, scaled, sheet, why};
pub use measured_batches::{MeasuredBatch, read_measured_batches};
pub use orders::OrdersQuestion;
pub use progress::{Progress, Silent};
pub use ripen::{GrowthReport, RipenAnswer, RipenQuestion, RipenReport, ripen};
pub use size::{BatchSize, SizeAmount};
pub use sound::check;
pub use store::{StoreQuestion, StoreReport, store, store_orders};
pub use tubs::{StageTubs, TubPlan, tubs};
pub use water::{WaterAnswer, WaterQuestion, water};
pub use wishes::{Extreme, WishNames, Wishes};
pub use workspace::{InputText, Workspace};

/// What a book's files have to be read by, before there is a workspace.
pub use levamen_bakery::{Folder, folders};
pub use levamen_calendar::{MOST_DAYS, NotADate, NotATime, ZonedDays, read_date, read_time};
pub use levamen_convert::{
    Conversion, ConversionRequest, ConversionTarget, FIELD_UNNEEDED, RipeningTemperature, RipeningTime,
};
pub use levamen_formula::{FormulaId, key};
/// The words of texts, and what is wrong with them.
pub use levamen_language::{
    AmountKind, AskedField, Hint, MAX_BYTES, NO_FIGURE, Place, Problem, Severity, Statement, TextId, Texts,
    decode, first_invisible, nearest, read_clock, read_duration, read_fact, read_mass, read_ripening,
    read_share, read_temperature, read_temperature_difference, read_volume, tidy, visible, visible_lines,
};
pub use levamen_orders::{Files as OrderSources, OrderSource, Orders};
/// Exact numbers with a unit.
pub use levamen_quantity as quantity;
pub use levamen_timetable::Effort;
