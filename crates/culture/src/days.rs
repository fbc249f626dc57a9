//! The days of a plan, and the hours at which somebody can feed.

use jiff::civil::{Date, Time};
use jiff::tz::{AmbiguousOffset, TimeZone};
use jiff::{Span, Timestamp, Zoned};

use crate::keeping::Keeping;
use crate::need::Need;

/// The most days that are planned at once.
pub const MOST_DAYS: u32 = 366;
/// The minutes of a day.
const DAY: i64 = 24 * 60;
/// Feedings that nobody gave an hour for begin with a quarter of an hour.
const QUARTER: i64 = 15;
/// Needs within so many minutes are met by one feeding.
const TOGETHER: i64 = 4 * 60;

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

    /// A time on a day, in the bakery's zone. Of a time that the clock skips the first minute that exists is taken, as in a
    /// timetable; one that it repeats is taken the first time.
    #[must_use]
    pub fn at(&self, day: Date, time: Time) -> Option<Zoned> {
        let at = self.zone.to_ambiguous_zoned(day.to_datetime(time));
        if matches!(at.offset(), AmbiguousOffset::Gap { .. }) {
            let before = at.earlier().ok()?.timestamp();
            let change = self.zone.following(before).next()?.timestamp();
            return Some(change.to_zoned(self.zone.clone()));
        }
        at.compatible().ok()
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

    /// Times that suit the needs: for each time of day at which culture is needed, the quarter of an hour in which
    /// it must be fed to be ripe then; and from there on every shortest rhythm that fits before the next day.
    #[must_use]
    pub fn suiting(keeping: &Keeping, needs: &[Need], otherwise: Time) -> Self {
        let wanted = together(needs.iter().map(|need| need.at.time()).collect(), otherwise);
        let mut times = Vec::new();
        let step = keeping.rhythm().least;
        for rank in 0..=(DAY / step.max(60)) {
            for time in &wanted {
                let minute = i64::from(time.hour()) * 60 + i64::from(time.minute());
                let early = (minute - keeping.ripens().most).div_euclid(QUARTER) * QUARTER;
                let time =
                    Time::midnight().wrapping_add(Span::new().minutes((early + rank * step).rem_euclid(DAY)));
                if rank * step < DAY && !times.contains(&time) {
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

/// The first of the times that lie close together, each: what is ripe at the first is ripe at the others.
fn together(mut times: Vec<Time>, otherwise: Time) -> Vec<Time> {
    times.sort();
    let mut firsts: Vec<Time> = Vec::new();
    for time in times {
        if firsts.last().is_none_or(|first| first.duration_until(time).as_mins() >= TOGETHER) {
            firsts.push(time);
        }
    }
    if firsts.is_empty() {
        firsts.push(otherwise);
    }
    firsts
}
