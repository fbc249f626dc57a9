//! The days of a plan, and the hours at which somebody can feed.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp, Zoned};

use crate::keeping::Keeping;
use crate::need::Need;

/// The most days that are planned at once.
pub const MOST_DAYS: u32 = 366;

/// Some days in a row, from midnight to midnight in the bakery's time zone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Days {
    first: Date,
    count: u32,
    zone: TimeZone,
}

impl Days {
    /// Days from the first on; `None` of none, of more than [`MOST_DAYS`], or past the end of the calendar.
    #[must_use]
    pub fn new(first: Date, count: u32, zone: TimeZone) -> Option<Self> {
        let days = Self { first, count, zone };
        ((1..=MOST_DAYS).contains(&count) && days.date(count).is_some()).then_some(days)
    }

    /// The first day.
    #[must_use]
    pub const fn first(&self) -> Date {
        self.first
    }

    /// The last day.
    #[must_use]
    pub fn last(&self) -> Date {
        self.date(self.count - 1).unwrap_or(self.first)
    }

    /// A time on a day, in the bakery's zone. A time that the clock skips is taken after the change, one that it
    /// repeats the first time.
    #[must_use]
    pub fn at(&self, day: Date, time: Time) -> Option<Zoned> {
        day.to_datetime(time).to_zoned(self.zone.clone()).ok()
    }

    /// The day that is so many after the first.
    fn date(&self, after: u32) -> Option<Date> {
        self.first.checked_add(Span::new().try_days(after).ok()?).ok()
    }

    /// Midnight before the first day.
    pub(crate) fn start(&self) -> Option<Zoned> {
        self.at(self.first, Time::midnight())
    }

    /// Midnight after the last day.
    pub(crate) fn end(&self) -> Option<Zoned> {
        self.at(self.date(self.count)?, Time::midnight())
    }

    /// The same days and some more after them.
    pub(crate) fn longer(&self, by: u32) -> Option<Self> {
        let days = Self { count: self.count.checked_add(by)?, ..self.clone() };
        days.date(days.count).is_some().then_some(days)
    }

    /// Every moment between start and end at one of the times.
    pub(crate) fn moments(&self, times: &[Time]) -> Vec<Zoned> {
        let days = (0..self.count).filter_map(|after| self.date(after));
        days.flat_map(|day| times.iter().filter_map(move |time| self.at(day, *time))).collect()
    }

    /// A moment in the bakery's zone.
    pub(crate) fn zoned(&self, at: Timestamp) -> Zoned {
        at.to_zoned(self.zone.clone())
    }
}

/// The times of day at which somebody can feed, the preferred ones first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Hours(Vec<Time>);

impl Hours {
    /// Times that the baker gave.
    #[must_use]
    pub fn given(times: Vec<Time>) -> Self {
        Self(times)
    }

    /// Times that suit the needs: for each time of day at which culture is needed, that at which it must be fed to be
    /// ripe then; and from there on every shortest rhythm that fits before the next day.
    #[must_use]
    pub fn suiting(keeping: &Keeping, needs: &[Need], otherwise: Time) -> Self {
        let mut wanted: Vec<Time> = needs.iter().map(|need| need.at.time()).collect();
        wanted.sort();
        wanted.dedup();
        if wanted.is_empty() {
            wanted.push(otherwise);
        }
        let mut times = Vec::new();
        let step = keeping.rhythm().least;
        for rank in 0..=(24 * 60 / step.max(60)) {
            for time in &wanted {
                let after = rank * step - keeping.ripens().most;
                let time = time.wrapping_add(Span::new().minutes(after.rem_euclid(24 * 60)));
                if rank * step < 24 * 60 && !times.contains(&time) {
                    times.push(time);
                }
            }
        }
        Self(times)
    }

    /// The times.
    #[must_use]
    pub fn times(&self) -> &[Time] {
        &self.0
    }
}
