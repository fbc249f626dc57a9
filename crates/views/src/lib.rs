//! Reports as text, JSON, CSV, SVG and iCalendar. A view shows: it computes nothing, prints nothing and opens no file.
//!
//! What comes in is finished: a report of the library `levamen`, or a sheet of `levamen-sheets`, in which weights and sums
//! of money are rounded already. A view chooses words, columns and order. A figure that adds up to nothing, such as a
//! temperature, is written with as many digits as are meant.
//!
//! | | text | CSV | JSON |
//! |---|---|---|---|
//! | formula | [`text::formula`] | | [`json::FormulaJson`] |
//! | sheet | [`text::sheet`] | [`csv::sheet`] | [`json::SheetJson`] |
//! | list | [`text::list`] | | [`json::ListItemJson`] |
//! | why a figure is what it is | [`text::why`] | | [`json::WhyJson`] |
//! | two doughs side by side | [`text::compare`] | | [`json::ComparisonJson`] |
//! | when a pre-ferment is ripe | [`text::ripe`] | | [`json::RipeJson`] |
//! | what grows in it | [`plot::terminal`], [`plot::svg`] | | |
//! | a dough with another pre-ferment | [`text::conversion`] | | [`json::ConversionJson`] |
//! | the water for a dough's temperature | [`text::water`] | | [`json::WaterJson`] |
//! | the tubs for its pre-ferments | [`text::tubs`] | | [`json::TubPlanJson`] |
//! | feeding of a culture | [`text::feed`] | | [`json::FeedJson`] |
//! | a new culture | [`text::new_culture`] | | [`json::NewCultureJson`] |
//! | what the store room needs and buys | [`text::store`] | [`csv::store`] | [`json::StoreJson`] |
//! | a day | [`text::day`] | | [`json::DayJson`] |
//! | the day's timetable | [`text::timetable`] | | [`json::TimetableJson`] |
//! | why there is none | [`text::no_timetable`] | | [`json::NoTimetableJson`] |
//! | what doughs cost | [`text::costs`], [`text::cost`] | | [`json::CostsJson`] |
//! | what orders cost | [`text::orders_cost`] | | [`json::CostsJson`] |
//! | problems | | | [`json::ProblemJson`] |
//!
//! A timetable is a calendar file too, [`ics::timetable`], and a picture, [`svg::timetable`].
//!
//! ```
//! use levamen_balance::Balance;
//! use levamen_formula::Scale;
//! use levamen_sheets::{FormulaSheet, RoundingError, Sheet};
//! use levamen_views::text;
//!
//! fn print_twice(dough: &Balance, scales: &[Scale]) -> Result<String, RoundingError> {
//!     let batch = dough.batch();
//!     let sheet = text::sheet(&Sheet::new(&batch, scales)?);
//!     Ok(text::formula(&FormulaSheet::new(batch)?) + &sheet)
//! }
//! ```

pub mod csv;
mod drawing;
pub mod ics;
pub mod json;
pub mod plot;
pub mod svg;
pub mod text;
