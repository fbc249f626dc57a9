//! A timetable by the clock on the wall, with all that a page or a picture of it shows.

use jiff::civil::DateTime;
use levamen_timetable::{ChartRow, Clock, Placement, Remedy, Step, Timetable, Work, chart_rows};

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
    pub by_time: Vec<(&'t Step, &'t Placement)>,
    /// What the wall shows before and after each change of clocks between the first step and the last: times on the wall then
    /// tell no lengths.
    pub clock_changes: Vec<(DateTime, DateTime)>,
    /// What would make room for what is late or left out; each was tried.
    pub remedies: &'t [Remedy],
    /// A row of bars for each machine and place.
    pub rows: Vec<ChartRow>,
}

impl<'t> TimetableSheet<'t> {
    /// What follows from a timetable of some work.
    #[must_use]
    pub fn new(work: &'t Work, timetable: &'t Timetable, clock: &'t Clock) -> Self {
        let mut by_time: Vec<(&Step, &Placement)> = timetable.placed(work).collect();
        by_time.sort_by_key(|(_, placement)| (placement.start, placement.end, placement.step));
        let first = timetable.placements.iter().map(|placement| placement.start).min();
        let last = timetable.placements.iter().map(|placement| placement.end).max();
        let changes = first.zip(last).map(|(first, last)| clock.changes(first, last));
        Self {
            work,
            timetable,
            clock,
            by_time,
            clock_changes: changes.unwrap_or_default(),
            remedies: &[],
            rows: chart_rows(work, timetable),
        }
    }

    /// This with what would make room for what is late or left out.
    #[must_use]
    pub const fn with_remedies(mut self, remedies: &'t [Remedy]) -> Self {
        self.remedies = remedies;
        self
    }
}
