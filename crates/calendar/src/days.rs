//! Days in a row: dates alone, or in a time zone.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp, Zoned};

use crate::clock::first_instant;

/// The most days that are planned at once.
pub const MOST_DAYS: u32 = 366;

/// Some days in a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Days {
    first: Date,
    last: Date,
}

impl Days {
    /// The days from `first` to `last`, both included; `None` where the last is before the first.
    #[must_use]
    pub fn new(first: Date, last: Date) -> Option<Self> {
        (first <= last).then_some(Self { first, last })
    }

    /// One day.
    #[must_use]
    pub fn one(day: Date) -> Self {
        Self { first: day, last: day }
    }

    /// Whether a day is among them.
    #[must_use]
    pub fn has(self, day: Date) -> bool {
        self.first <= day && day <= self.last
    }

    /// The days in order.
    pub fn iter(self) -> impl Iterator<Item = Date> {
        let next = |day: &Date| day.tomorrow().ok();
        std::iter::successors(Some(self.first), next).take_while(move |day| *day <= self.last)
    }
}

/// Some days in a row, from midnight to midnight in a time zone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ZonedDays {
    first: Date,
    count: u32,
    zone: TimeZone,
}

impl ZonedDays {
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

    /// A time on a day, by the rule of [`Clock`](crate::Clock): of a time that the clock skips the first moment that exists is
    /// taken, and one that it repeats is taken the first time.
    #[must_use]
    pub fn at(&self, day: Date, time: Time) -> Option<Zoned> {
        first_instant(&self.zone, day.to_datetime(time)).map(|at| at.to_zoned(self.zone.clone()))
    }

    /// The day that is so many after the first.
    fn date(&self, after: u32) -> Option<Date> {
        self.first.checked_add(Span::new().try_days(after).ok()?).ok()
    }

    /// Midnight before the first day.
    #[must_use]
    pub fn start(&self) -> Option<Zoned> {
        self.at(self.first, Time::midnight())
    }

    /// Midnight after the last day.
    #[must_use]
    pub fn end(&self) -> Option<Zoned> {
        self.at(self.date(self.count)?, Time::midnight())
    }

    /// The same days and some more after them.
    #[must_use]
    pub fn longer(&self, by: u32) -> Option<Self> {
        let days = Self { count: self.count.checked_add(by)?, ..self.clone() };
        days.date(days.count).is_some().then_some(days)
    }

    /// Every moment between start and end at one of the times.
    #[must_use]
    pub fn moments(&self, times: &[Time]) -> Vec<Zoned> {
        let days = (0..self.count).filter_map(|after| self.date(after));
        days.flat_map(|day| times.iter().filter_map(move |time| self.at(day, *time))).collect()
    }

    /// An instant as the zone's clocks show it.
    #[must_use]
    pub fn zoned(&self, at: Timestamp) -> Zoned {
        at.to_zoned(self.zone.clone())
    }
}
