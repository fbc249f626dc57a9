//! A day's doughs as work for the timetable: when each is set, mixed, shaped and baked.
//!
//! The bread of a date is out by a time of that date; all that comes before it is counted back from there. What the
//! bakery does not say counts no time, and is told as a [`Gap`].

mod doughs;
mod house;
mod order;
mod reach;
mod stages;

use std::collections::BTreeMap;

use jiff::civil::DateTime;
use levamen_bakery::Bakery;
use levamen_quantity::{ClockTime, Duration};
use levamen_timetable::{Clock, Minutes, Moment, NoMoment, StepId, Work};

use crate::day::Day;
use crate::stages::DayStageId;
pub use house::House;
pub use order::in_mixing_order;

/// A day as work, and which of its steps is what.
#[derive(Debug, Clone)]
pub struct Hours {
    /// The work.
    pub work: Work,
    /// The clock on the wall.
    pub clock: Clock,
    /// When each stage of each dough is set, and each batch mixed.
    pub tasks: Vec<Task>,
    /// What the bakery does not say.
    pub gaps: Vec<Gap>,
}

/// A step of the work that something is weighed for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Task {
    /// The stage.
    pub id: DayStageId,
    /// The step.
    pub step: StepId,
}

/// Something that the bakery does not say, and what is taken in its place.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gap {
    /// When bread has to be out.
    OutBy(ClockTime),
    /// The steps of a product that it does not say, by their names; they count no time.
    Product(String, Vec<&'static str>),
    /// How long a dough is mixed.
    Mixing(String, Minutes),
    /// Who is at work: as many bakers as it takes, at any hour.
    Shifts,
    /// The oven: as many decks as it takes.
    Oven,
    /// A time of a day over which clocks go forward, and the first that exists after it.
    Skipped {
        /// What the time is for, as the bakery's cards have it.
        what: Timed,
        /// The time that is written.
        time: DateTime,
        /// The time that is taken.
        taken: DateTime,
    },
}

/// What a time of day in the bakery's cards is for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Timed {
    /// A shift begins, by its name.
    ShiftBegins(String),
    /// A shift ends, by its name.
    ShiftEnds(String),
    /// The bread of a product is out, by its name.
    Out(String),
}

/// Bread is out by this where the bakery names no time: early enough for a shop that opens at seven (our own choice).
const OUT_BY_HOUR: i64 = 6;

/// A dough is mixed for so long where its method does not say: common practice, no source.
pub(crate) const MIXING: Minutes = Minutes::new(12);

/// What is set by hand takes a baker so long: common practice, no source.
pub(crate) const SETTING: Minutes = Minutes::new(10);

/// How much sooner than it must the first stage may be set, where bakers, mixers or decks are taken: our own choice.
const ROOM: Minutes = Minutes::hours(18);

/// How many days before the bread's own its first stage may begin.
const DAYS_AHEAD: i64 = 4;

impl Hours {
    /// The work of a day.
    ///
    /// # Errors
    /// A date at the ends of the calendar.
    pub fn new(bakery: &Bakery, day: &Day, clock: Clock) -> Result<Self, NoMoment> {
        let widest = at(&clock, -DAYS_AHEAD, ClockTime::from_minutes(0))?;
        let first = Self::from(bakery, day, clock.clone(), widest)?;
        // No hour is looked at that nothing can begin in: the first start that would do if nothing stood in the way,
        // and room before it for what does.
        let from = reach::first_start(&first.work).map_or(widest, |start| (start - ROOM).max(widest));
        Self::from(bakery, day, clock, from)
    }

    fn from(bakery: &Bakery, day: &Day, clock: Clock, from: Moment) -> Result<Self, NoMoment> {
        let mut work = Work::new(from, at(&clock, 1, ClockTime::from_minutes(0))?);
        let mut gaps = Vec::new();
        let house = House::new(&mut work, bakery, &clock, &mut gaps)?;
        let mut doughs = doughs::Doughs::new(bakery, day, &house, &mut work, &mut gaps);
        doughs.add_all(&clock)?;
        let tasks = doughs.finish();
        gaps.sort();
        gaps.dedup();
        Ok(Self { work, clock, tasks, gaps })
    }

    /// When each stage of each dough is set, and each batch mixed, at the latest: as if nothing but windows and deadlines
    /// stood in the way.
    ///
    /// # Errors
    /// A date at the ends of the calendar.
    pub(crate) fn latest(bakery: &Bakery, day: &Day, clock: Clock) -> Result<Vec<(Task, Moment)>, NoMoment> {
        let widest = at(&clock, -DAYS_AHEAD, ClockTime::from_minutes(0))?;
        let hours = Self::from(bakery, day, clock, widest)?;
        let starts: BTreeMap<StepId, Moment> = reach::latest_starts(&hours.work).into_iter().collect();
        let tasks = hours.tasks.into_iter();
        Ok(tasks.filter_map(|task| starts.get(&task.step).map(|start| (task, *start))).collect())
    }

    /// The step in which a stage of a dough is set, or a batch mixed.
    #[must_use]
    pub fn step(&self, id: DayStageId) -> Option<StepId> {
        self.tasks.iter().find(|task| task.id == id).map(|task| task.step)
    }
}

/// A time of day on the date that is so many days from that of the bread.
pub(crate) fn on_wall(clock: &Clock, days: i64, time: ClockTime) -> Result<DateTime, NoMoment> {
    // The date is found first and the time put on it: in one span of time a negative day would turn the minutes negative too.
    let midnight = clock.date().to_datetime(jiff::civil::Time::midnight());
    let moved = |span: Result<jiff::Span, _>, from: DateTime| from.checked_add(span.ok()?).ok();
    let on = moved(jiff::Span::new().try_days(days), midnight);
    let at = on.and_then(|date| moved(jiff::Span::new().try_minutes(i64::from(time.minutes())), date));
    at.ok_or(NoMoment(midnight))
}

/// The moment of a time of day, so many days from that of the bread.
pub(crate) fn at(clock: &Clock, days: i64, time: ClockTime) -> Result<Moment, NoMoment> {
    clock.moment(on_wall(clock, days, time)?)
}

/// Says where clocks go forward over a time of day, so many days from that of the bread.
fn skipped(clock: &Clock, days: i64, time: ClockTime, what: Timed) -> Option<Gap> {
    let time = on_wall(clock, days, time).ok()?;
    clock.taken_for(time).map(|taken| Gap::Skipped { what, time, taken })
}

/// A time that something takes; where it is too long for a timetable to hold, the longest that it holds, which has no room in
/// any day.
pub(crate) fn least(duration: &Duration) -> Minutes {
    Minutes::no_less_than(duration).unwrap_or(Minutes::new(u32::MAX))
}

/// The most of a window, never under its least.
pub(crate) fn most(least: Minutes, duration: &Duration) -> Minutes {
    Minutes::no_more_than(duration).unwrap_or(least).max(least)
}
