//! The hands of the clock: moments to civil times and back, across changes of summer time.

use jiff::civil::{Date, DateTime};
use jiff::tz::{AmbiguousOffset, TimeZone};
use jiff::{SignedDuration, Timestamp, Zoned};

use crate::Moment;

/// Which day is the bread's, and what the clock on the wall shows.
///
/// Bread is out at a time on the wall, and a proof takes real minutes. In the night in which clocks go forward, 04:00
/// is three hours after midnight, and everything before it begins an hour sooner by the wall.
#[derive(Debug, Clone)]
pub struct Clock {
    date: Date,
    zone: TimeZone,
    midnight: Timestamp,
}

/// A time on the wall that there is no moment for: it is thousands of years away.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoMoment(pub DateTime);

impl std::fmt::Display for NoMoment {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} is too far away for a timetable", self.0)
    }
}

impl std::error::Error for NoMoment {}

impl Clock {
    /// The clock of a place on the day of the bread.
    ///
    /// # Errors
    /// On a date at the ends of the calendar. Where a day begins after midnight, it begins at its first minute.
    pub fn new(date: Date, zone: TimeZone) -> Result<Self, NoMoment> {
        let midnight = date.to_datetime(jiff::civil::Time::midnight());
        let first = first_instant(&zone, midnight).ok_or(NoMoment(midnight))?;
        Ok(Self { date, zone, midnight: first })
    }

    /// The day of the bread.
    #[must_use]
    pub const fn date(&self) -> Date {
        self.date
    }

    /// The name of the place's time zone, such as `Europe/Paris`, if it has one.
    #[must_use]
    pub fn zone(&self) -> Option<&str> {
        self.zone.iana_name()
    }

    /// The moment of a time on the wall: the first at which the wall shows it or a later one.
    ///
    /// So where clocks go forward over it, the first minute that exists is taken, and [`Clock::taken_for`] says so;
    /// where clocks go back over it, it comes twice and the first is meant: bread that is out by the first is out by
    /// the second.
    ///
    /// # Errors
    /// If it is thousands of years away.
    pub fn moment(&self, time: DateTime) -> Result<Moment, NoMoment> {
        let instant = first_instant(&self.zone, time).ok_or(NoMoment(time))?;
        let minutes = instant.duration_since(self.midnight).as_secs().div_euclid(60);
        i32::try_from(minutes).map(Moment::minute).map_err(|_| NoMoment(time))
    }

    /// What the wall shows at the moment that is taken for a time, where clocks go forward over it; `None` for a time that
    /// exists.
    #[must_use]
    pub fn taken_for(&self, time: DateTime) -> Option<DateTime> {
        let is_skipped =
            matches!(self.zone.to_ambiguous_timestamp(time).offset(), AmbiguousOffset::Gap { .. });
        let first = first_instant(&self.zone, time).filter(|_| is_skipped)?;
        Some(self.zone.to_datetime(first))
    }

    /// What the wall shows at a moment; `None` beyond the calendar.
    #[must_use]
    pub fn at(&self, moment: Moment) -> Option<Zoned> {
        let instant = self.midnight.checked_add(SignedDuration::from_mins(moment.signed())).ok()?;
        Some(instant.to_zoned(self.zone.clone()))
    }

    /// What the wall shows before and after each change of clocks between two moments.
    #[must_use]
    pub fn changes(&self, from: Moment, until: Moment) -> Vec<(DateTime, DateTime)> {
        let (Some(from), Some(until)) = (self.at(from), self.at(until)) else { return Vec::new() };
        let changes = self.zone.following(from.timestamp());
        let within = changes.take_while(|change| change.timestamp() < until.timestamp());
        let shown = within.filter_map(|change| {
            let at = change.timestamp();
            let last = at.checked_sub(SignedDuration::from_secs(1)).ok()?;
            let [before, after] = [last, at].map(|when| self.zone.to_offset(when).to_datetime(at));
            (before != after).then_some((before, after))
        });
        shown.collect()
    }

    /// `04:30`, and on another day `Wed 22:10`.
    #[must_use]
    pub fn words(&self, moment: Moment) -> String {
        let Some(at) = self.at(moment) else { return format!("minute {}", moment.minutes()) };
        let pattern = if at.date() == self.date { "%H:%M" } else { "%a %H:%M" };
        at.strftime(pattern).to_string()
    }
}

/// The first instant at which the wall of a zone shows a time or a later one; `None` beyond the calendar.
pub(crate) fn first_instant(zone: &TimeZone, time: DateTime) -> Option<Timestamp> {
    match zone.to_ambiguous_timestamp(time).offset() {
        // By the offset that holds after the change, the time lies before it, and no other change between.
        AmbiguousOffset::Gap { after, .. } => {
            let before = after.to_timestamp(time).ok()?;
            zone.following(before).next().map(|change| change.timestamp())
        }
        AmbiguousOffset::Unambiguous { offset } | AmbiguousOffset::Fold { before: offset, .. } => {
            offset.to_timestamp(time).ok()
        }
    }
}
