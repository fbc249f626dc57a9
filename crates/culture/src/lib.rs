//! Keeping a culture alive: when to feed it and with how much, so that enough is ripe whenever it is needed and as
//! little as possible is thrown away.
//!
//! A [`CultureKeeping`] is what a baker declares of a culture, found to agree with itself. A [`FeedingTask`] adds what is
//! on hand, the [`CultureNeed`]s of some [`ZonedDays`](levamen_calendar::ZonedDays), and the [`FeedingHours`] at which
//! somebody can feed. [`plan()`] makes a [`FeedingPlan`] of it, or a [`PlanError`] that says what cannot be and what would do.
//!
//! # How a plan is found
//!
//! 1. `slots`: the moments at which it can be fed, and what is taken between them;
//! 2. `bounds`: looking forward, the most that there can be by each moment; looking backward, how much may stand in the tub
//!    after each feeding so that no more is thrown away than must be, exactly, with its proof;
//! 3. `feeding_times`: of all ways to choose moments, those that no other dominates;
//! 4. `plan`: the way from what is on hand to the end, as near to the usual share as the bands allow;
//! 5. `replay`: the plan carried out by a checker that knows none of this. No plan leaves the crate that it does not
//!    accept.
//!
//! [`new_culture`] is how there comes to be one at all.
//!
//! Masses are exact throughout; what is weighed is rounded in `levamen-sheets`, and not here.
//!
//! ```
//! use jiff::civil::{date, time};
//! use jiff::tz::TimeZone;
//! use levamen_calendar::ZonedDays;
//! use levamen_culture::{Declared, FeedingHours, CultureKeeping, CultureNeed, Interval, FeedingTask, plan};
//! use levamen_quantity::{Duration, Exact, Mass, TimeUnit};
//!
//! let hours = |figure: i32| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
//! let keeping = CultureKeeping::new(Declared::usual(Interval::new(hours(8), hours(10)))).unwrap();
//! let days = ZonedDays::new(date(2026, 12, 1), 2, TimeZone::UTC).unwrap();
//! let at = days.at(date(2026, 12, 2), time(4, 0, 0, 0)).unwrap();
//! let needs = [CultureNeed { at, mass: Mass::from_grams(Exact::from(900)), place: None }];
//! let feed_at = FeedingHours::suiting(&keeping, &needs, time(4, 0, 0, 0));
//! let on_hand = Some(Mass::from_grams(Exact::from(400)));
//! let task = FeedingTask { keeping: &keeping, needs: &needs, days: &days, hours: &feed_at, on_hand };
//!
//! let plan = plan(&task).unwrap();
//! let first = plan.feedings().next().unwrap();
//! assert_eq!(first.at.strftime("%a %H:%M").to_string(), "Tue 18:00");
//! assert_eq!(first.made().grams().to_i64(), Some(980));
//! assert!(plan.discarded().grams().is_zero());
//! ```

mod bounds;
mod feeding_plan;
mod feeding_times;
mod figure_text;
mod keeping;
mod needs;
mod new_culture;
mod plan;
mod plan_error;
mod replay;
mod slots;

pub use feeding_plan::{Feeding, FeedingPlan, FeedingStep, FeedingTask, Take};
pub use keeping::{CultureKeeping, Declared, Interval, KeepingError, USUAL_OLD_PARTS};
pub use needs::{CultureNeed, MAX_ROWS, NeedRow, read_needs};
pub use new_culture::{NewDays, new_culture};
pub use plan::plan;
pub use plan_error::{PlanError, Shortfall};
pub use replay::{ReplayError, replay};
pub use slots::FeedingHours;
