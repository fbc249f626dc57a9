//! The time of day, to the minute.

use std::fmt;

const MINUTES_OF_AN_HOUR: u16 = 60;
const MINUTES_OF_A_DAY: u16 = 24 * MINUTES_OF_AN_HOUR;

/// A time of day on a clock of 24 hours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ClockTime(u16);

impl ClockTime {
    /// A time by hour and minute; `None` for one that no clock shows.
    ///
    /// ```
    /// use levamen_quantity::ClockTime;
    ///
    /// assert_eq!(ClockTime::new(4, 30).unwrap().to_string(), "04:30");
    /// assert_eq!(ClockTime::new(24, 0), None);
    /// ```
    #[must_use]
    pub fn new(hour: u16, minute: u16) -> Option<Self> {
        (hour < 24 && minute < 60).then_some(Self(hour * MINUTES_OF_AN_HOUR + minute))
    }

    /// Reads `4:30` or `04:30`; `None` for anything else.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let (hour, minute) = text.trim().split_once(':')?;
        let digits = |part: &str, most| {
            let fits =
                !part.is_empty() && part.len() <= most && part.bytes().all(|byte| byte.is_ascii_digit());
            fits.then(|| part.parse().ok()).flatten()
        };
        Self::new(digits(hour, 2)?, digits(minute, 2).filter(|_| minute.len() == 2)?)
    }

    /// Minutes since midnight.
    #[must_use]
    pub const fn minutes(self) -> u16 {
        self.0
    }

    /// The time so many minutes after midnight of some day: a day later the clock shows the same.
    #[must_use]
    pub fn from_minutes(minutes: i64) -> Self {
        let of_the_day = minutes.rem_euclid(i64::from(MINUTES_OF_A_DAY));
        // A remainder by the minutes of a day is not below zero and fits; without the assertion it would be midnight.
        let minute = u16::try_from(of_the_day);
        debug_assert!(minute.is_ok(), "a minute of the day is below 1440");
        Self(minute.unwrap_or_default())
    }
}

impl fmt::Display for ClockTime {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{:02}:{:02}", self.0 / MINUTES_OF_AN_HOUR, self.0 % MINUTES_OF_AN_HOUR)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_clock_shows_is_read_and_nothing_else() {
        for (text, shown) in [("4:30", "04:30"), ("00:00", "00:00"), (" 23:59 ", "23:59")] {
            assert_eq!(ClockTime::read(text).unwrap().to_string(), shown);
        }
        for text in ["", "4", "4:3", "24:00", "4:60", "-1:00", "+4:30", "4:30 pm", "004:30"] {
            assert_eq!(ClockTime::read(text), None, "{text}");
        }
    }

    #[test]
    fn the_clock_goes_round() {
        let morning = ClockTime::new(4, 30).unwrap();
        assert_eq!(ClockTime::from_minutes(i64::from(morning.minutes()) + 3 * 1440), morning);
        assert_eq!(ClockTime::from_minutes(-30), ClockTime::new(23, 30).unwrap());
    }
}
