//! Moments and lengths of time, in whole minutes.
//!
//! A baker's clock has minutes, so a timetable does. What is exact elsewhere (a ripening of 9 1/3 h) becomes whole
//! minutes here, on the side that the caller chooses.

use std::ops::{Add, Sub};

use levamen_quantity::{Duration, Exact, TimeUnit};

/// A length of time in whole minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Hash)]
pub struct Minutes(u32);

impl Minutes {
    /// No time at all.
    pub const ZERO: Self = Self(0);

    /// That many minutes.
    #[must_use]
    pub const fn new(minutes: u32) -> Self {
        Self(minutes)
    }

    /// That many hours.
    #[must_use]
    pub const fn hours(hours: u32) -> Self {
        Self(hours.saturating_mul(60))
    }

    /// The shortest whole minutes that are no less than this: for what something takes, or the least of a window.
    /// `None` below zero, and past some 8,000 years.
    #[must_use]
    pub fn no_less_than(duration: &Duration) -> Option<Self> {
        let minutes = duration.in_unit(TimeUnit::Minute);
        let whole = minutes.floor();
        let more = if whole == minutes { Exact::ZERO } else { Exact::ONE };
        u32::try_from((whole + more).to_i64()?).ok().map(Self)
    }

    /// The longest whole minutes that are no more than this: for the most of a window.
    /// `None` below zero, and past some 8,000 years.
    #[must_use]
    pub fn no_more_than(duration: &Duration) -> Option<Self> {
        u32::try_from(duration.in_unit(TimeUnit::Minute).floor().to_i64()?).ok().map(Self)
    }

    /// How many minutes.
    #[must_use]
    pub const fn count(self) -> u32 {
        self.0
    }

    /// The same as a signed number.
    #[must_use]
    pub fn signed(self) -> i64 {
        i64::from(self.0)
    }
}

/// `45 min`, `10 h`, `1 h 30 min`
impl std::fmt::Display for Minutes {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match (self.0 / 60, self.0 % 60) {
            (0, minutes) => write!(f, "{minutes} min"),
            (hours, 0) => write!(f, "{hours} h"),
            (hours, minutes) => write!(f, "{hours} h {minutes} min"),
        }
    }
}

/// A moment: real minutes since the midnight with which the day of the bread begins. Before it they are negative.
///
/// The hands of a clock come in only at the edge, see [`Clock`](crate::Clock): across a change of summer time a
/// proof still takes its minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Hash)]
pub struct Moment(i32);

impl Moment {
    /// The midnight with which the day of the bread begins.
    pub const MIDNIGHT: Self = Self(0);

    /// So many minutes after that midnight.
    #[must_use]
    pub const fn minute(minutes: i32) -> Self {
        Self(minutes)
    }

    /// Minutes since that midnight.
    #[must_use]
    pub const fn minutes(self) -> i32 {
        self.0
    }

    /// How much later than another moment; `None` if it is earlier.
    #[must_use]
    pub fn since(self, earlier: Self) -> Option<Minutes> {
        u32::try_from(i64::from(self.0) - i64::from(earlier.0)).ok().map(Minutes)
    }

    /// The same in more bits.
    #[must_use]
    pub fn signed(self) -> i64 {
        i64::from(self.0)
    }

    /// The moment of a signed count, at the ends of time if it is beyond them.
    #[must_use]
    pub fn clamped(minutes: i64) -> Self {
        let end = if minutes < 0 { i32::MIN } else { i32::MAX };
        Self(i32::try_from(minutes).unwrap_or(end))
    }
}

impl Add<Minutes> for Moment {
    type Output = Self;

    fn add(self, later: Minutes) -> Self {
        Self::clamped(self.signed() + later.signed())
    }
}

impl Sub<Minutes> for Moment {
    type Output = Self;

    fn sub(self, earlier: Minutes) -> Self {
        Self::clamped(self.signed() - earlier.signed())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_third_of_an_hour_more_goes_to_the_side_asked_for() {
        let long = Duration::from_unit(&Exact::ratio(101, 3).unwrap_or_default(), TimeUnit::Minute);
        assert_eq!(Minutes::no_less_than(&long), Some(Minutes::new(34)));
        assert_eq!(Minutes::no_more_than(&long), Some(Minutes::new(33)));
        let back = Duration::from_unit(&Exact::from(-1), TimeUnit::Minute);
        assert_eq!(Minutes::no_more_than(&back), None);
    }

    #[test]
    fn lengths_read_as_a_baker_says_them() {
        let said = [0, 45, 600, 90].map(|minutes| Minutes::new(minutes).to_string());
        assert_eq!(said, ["0 min", "45 min", "10 h", "1 h 30 min"]);
    }

    #[test]
    fn moments_stop_at_the_ends_of_time() {
        assert_eq!(Moment::minute(i32::MAX) + Minutes::new(u32::MAX), Moment::minute(i32::MAX));
        assert_eq!(Moment::minute(10).since(Moment::minute(11)), None);
        assert_eq!(Moment::minute(10).since(Moment::minute(-11)), Some(Minutes::new(21)));
    }
}
