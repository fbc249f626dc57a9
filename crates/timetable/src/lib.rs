//! When what is done: a day's steps in windows of time, on mixers, bakers and oven decks.
//!
//! [`Work`] is what has to be done: jobs (a batch of dough, a pre-ferment, a feed) made of [`Step`]s of a fixed
//! length, [`Wait`]s between steps that may last from a least to a most, times by which bread is out, and what there
//! is to work with: machines that take one dough at a time, and pools of bakers or decks with their hours. It knows
//! nothing of bread beyond that.
//!
//! [`plan`] makes a [`Timetable`] of it with as little waiting as it finds, and a bound that no timetable is under.
//! Where there is none, [`Trouble`] says which limits are at fault, and [`remedies`] what would do. [`verify`]
//! checks any timetable again without a line of the search. `docs/timetable.md` tells the model and the method.
//!
//! [`lanes`] lays it out as a picture: each mixer, each deck, each baker.
//!
//! Times are [`Moment`]s, real minutes from a midnight; a [`Clock`] turns them into times on the wall.
//!
//! ```
//! use levamen_timetable::{Effort, Minutes, Moment, Since, Step, Wait, Work, plan};
//!
//! let mut work = Work::new(Moment::minute(-12 * 60), Moment::minute(12 * 60));
//! let bakers = work.pool("bakers", "baker", "bakers");
//! work.always(bakers, 2);
//! let loaf = work.job("Quayside loaf");
//! let shape = work.step(Step::new(loaf, "shape", Minutes::new(20)).with(bakers, 1));
//! let bake = work.step(Step::new(loaf, "bake", Minutes::new(45)).out_by(Moment::minute(6 * 60)));
//! let (least, most) = (Minutes::hours(1), Some(Minutes::new(90)));
//! work.wait(Wait { name: "proof".to_owned(), after: shape, since: Since::End, before: bake, least, most });
//!
//! let timetable = plan(&work, Effort::default())?;
//! assert_eq!(timetable.entries[0].start, Moment::minute(6 * 60 - 45 - 60 - 20));
//! assert!(timetable.is_best());
//! # Ok::<(), levamen_timetable::Trouble>(())
//! ```

mod board;
mod bound;
mod chance;
mod exhaust;
mod grid;
mod lanes;
mod mistake;
mod plan;
mod profile;
mod remedy;
mod resource;
mod search;
mod timetable;
mod tree;
mod trouble;
mod units;
mod verify;
mod windows;
mod work;

pub use lanes::{Bar, BarOf, Lane, LaneOf, lanes};
pub use levamen_calendar::{Clock, Minutes, Moment, NoMoment};
pub use mistake::{LONGEST_SPAN, MOST_PLACES, MOST_STEPS, Mistake};
pub use plan::{Effort, plan};
pub use remedy::{Remedy, remedies};
pub use resource::{ClassId, Machine, MachineId, Need, OnMachine, Open, Pool, PoolId};
pub use timetable::{Entry, Timetable, Waiting};
pub use trouble::words::Told;
pub use trouble::{Cause, Clash, Holds, Limit, Overload, Room, Trouble};
pub use verify::{Violation, verify};
pub use work::{JobId, Since, Step, StepId, Wait, WaitId, Work};
