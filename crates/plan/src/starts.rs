//! When what is set at the latest, for the store room.
//!
//! The same windows and deadlines as in the timetable's [`Hours`], but nothing waits for a mixer, a baker or a deck. The
//! store room goes by this to issue a stage that is set the evening before on the evening before; the bench goes by the
//! timetable, which may set it somewhat sooner.

use std::collections::BTreeMap;

use jiff::Zoned;
use levamen_bakery::Bakery;
use levamen_timetable::{Clock, NoMoment};

use crate::day::Day;
use crate::hours::Hours;
use crate::stages::DayStageId;

/// When the stages of a day's doughs are set, and their batches mixed, at the latest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Starts {
    of: BTreeMap<DayStageId, Zoned>,
}

impl Starts {
    /// Counts back over a day, from when its bread is out; the clock's date is that of the bread.
    ///
    /// # Errors
    /// A date at the ends of the calendar.
    pub fn new(bakery: &Bakery, day: &Day, clock: &Clock) -> Result<Self, NoMoment> {
        let latest = Hours::latest(bakery, day, clock.clone())?;
        let starts = latest.into_iter().filter_map(|(task, start)| {
            let at = clock.at(start)?;
            Some((task.id, at))
        });
        Ok(Self { of: starts.collect() })
    }

    /// When a stage of a dough is set; `None` where nothing of the day waits for it, and for a stage that is nothing but
    /// another dough.
    #[must_use]
    pub fn of(&self, id: DayStageId) -> Option<&Zoned> {
        self.of.get(&id)
    }
}
