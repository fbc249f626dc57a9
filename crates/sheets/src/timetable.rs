//! A timetable by the clock on the wall, with all that a page or a picture of it shows.

use jiff::civil::DateTime;
use levamen_timetable::{Clock, Entry, Lane, Step, Timetable, Work, lanes};

/// A timetable and what follows from it.
#[derive(Debug, Clone)]
pub struct TimetableSheet<'t> {
    /// The work.
    pub work: &'t Work,
    /// When what is done.
    pub timetable: &'t Timetable,
    /// The clock on the wall.
    pub clock: &'t Clock,
    /// Each step with its time, in the order of time.
    pub by_time: Vec<(&'t Step, &'t Entry)>,
    /// What the wall shows before and after each change of clocks between the first step and the last: times on the wall then
    /// tell no lengths.
    pub clock_changes: Vec<(DateTime, DateTime)>,
    /// A row of bars for each machine and place.
    pub lanes: Vec<Lane>,
}

impl<'t> TimetableSheet<'t> {
    /// What follows from a timetable of some work.
    #[must_use]
    pub fn new(work: &'t Work, timetable: &'t Timetable, clock: &'t Clock) -> Self {
        let mut by_time: Vec<(&Step, &Entry)> = work.steps().iter().zip(&timetable.entries).collect();
        by_time.sort_by_key(|(_, entry)| (entry.start, entry.end, entry.step));
        let first = timetable.entries.iter().map(|entry| entry.start).min();
        let last = timetable.entries.iter().map(|entry| entry.end).max();
        let changes = first.zip(last).map(|(first, last)| clock.changes(first, last));
        Self {
            work,
            timetable,
            clock,
            by_time,
            clock_changes: changes.unwrap_or_default(),
            lanes: lanes(work, timetable),
        }
    }
}
