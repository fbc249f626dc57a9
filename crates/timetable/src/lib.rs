//! When what is done: a day's steps in windows of time, on mixers, bakers and oven decks.
//!
//! [`Work`] is what has to be done: jobs (a batch of dough, a pre-ferment, a feed) made of [`Step`]s of a fixed
//! length, [`TimeLag`]s between steps that may last from a least to a most, times by which bread is out, and what there
//! is to work with: machines that take one dough at a time, and pools of bakers or decks with their hours. It knows
//! nothing of bread beyond that.
//!
//! [`plan`] makes a [`Timetable`] of it with as little waiting as it finds, and a bound that no timetable is under.
//! What does not fit is late or left out; [`TimetableError`] says which limits are at fault, and [`remedies`] what would do. [`verify`]
//! checks any timetable again without a line of the search. `docs/timetable.md` has the model and the method.
//!
//! [`chart_rows`] lays it out as a picture: each mixer, each deck, each baker.
//!
//! Times are [`Moment`]s, real minutes from a midnight; a [`Clock`] turns them into times on the wall.
//!
//! ```
//! use levamen_timetable::{Effort, Minutes, Moment, LagFrom, Step, TimeLag, Work, plan};
//!
//! let mut work = Work::new(Moment::minute(-12 * 60), Moment::minute(12 * 60));
//! let bakers = work.pool("bakers", "baker", "bakers");
//! work.always(bakers, 2);
//! let loaf = work.job("Quayside loaf");
//! let shape = work.step(Step::new(loaf, "shape", Minutes::new(20)).with(bakers, 1));
//! let bake = work.step(Step::new(loaf, "bake", Minutes::new(45)).deadline(Moment::minute(6 * 60)));
//! let (least, most) = (Minutes::hours(1), Some(Minutes::new(90)));
//! work.time_lag(TimeLag { name: "proof".to_owned(), after: shape, since: LagFrom::End, before: bake, least, most });
//!
//! let timetable = plan(&work, Effort::default())?;
//! assert_eq!(timetable.placements[0].start, Moment::minute(6 * 60 - 45 - 60 - 20));
//! assert!(timetable.is_best());
//! # Ok::<(), levamen_timetable::TimetableError>(())
//! ```

mod annealing;
mod backward;
mod bits;
mod bound;
mod chart;
mod conflicts;
mod error;
mod error_text;
mod exhaustive;
mod grid;
mod id_vec;
mod lag_forest;
mod neighbourhood;
mod overload;
mod partial_schedule;
mod plan;
mod profile;
mod random;
mod remedy;
mod resource;
mod start_bounds;
mod timetable;
mod verify;
mod windows;
mod work;

pub use chart::{Bar, BarOf, ChartRow, ChartRowOf, chart_rows};
pub use error::{Cause, ConflictKind, LimitedResource, Overload, TimetableError, WindowConflict, WorkLimit};
pub use error::{LONGEST_SPAN, MOST_PLACES, MOST_STEPS, WorkError};
pub use error_text::ErrorText;
pub use levamen_calendar::{Clock, Minutes, Moment, NoMoment};
pub use plan::{Effort, plan};
pub use remedy::{Remedy, remedies};
pub use resource::{ClassId, Machine, MachineId, OnMachine, OpeningHours, Pool, PoolId, PoolNeed};
pub use timetable::{Placement, Timetable, Waiting};
pub use verify::{CheckError, verify};
pub use work::{JobId, LagFrom, Step, StepId, TimeLag, TimeLagId, Work};
