//! Dates as ISO 8601 writes them, 2026-11-27, and times of day.

use jiff::civil::{Date, Time};

/// Why words are no date.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotADate {
    /// They are written in another way; the dates that they may mean, none where none can be.
    Form(Vec<Date>),
    /// There is no year 0.
    NoYear,
    /// There is no such month.
    NoMonth(i8),
    /// The month is shorter, or the day is 0: how many days it has.
    NoDay {
        /// Days of the month.
        days: i8,
        /// The month, its first day.
        month: Date,
    },
}

/// Why words are no time of day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotATime {
    /// They are written in another way.
    Form,
    /// The clock never shows it.
    NoTime,
}

/// Reads a date as ISO 8601 writes it, such as `2026-12-01`.
///
/// # Errors
/// Another form, or a date that is in no calendar.
pub fn read_date(words: &str) -> Result<Date, NotADate> {
    let Some((year, month, day)) = iso(words) else { return Err(NotADate::Form(meant(words))) };
    if year == 0 {
        return Err(NotADate::NoYear);
    }
    let Ok(first) = Date::new(year, month, 1) else { return Err(NotADate::NoMonth(month)) };
    Date::new(year, month, day).map_err(|_| NotADate::NoDay { days: first.days_in_month(), month: first })
}

/// Reads a time of day from 00:00 to 23:59, such as `04:00` or `4:00`.
///
/// # Errors
/// Another form, or a time that does not exist.
pub fn read_time(words: &str) -> Result<Time, NotATime> {
    let (hour, minute) = words.split_once(':').ok_or(NotATime::Form)?;
    let hour = number(hour, 2).or_else(|| number(hour, 1)).ok_or(NotATime::Form)?;
    let minute = number(minute, 2).ok_or(NotATime::Form)?;
    let part = |number: i16| i8::try_from(number).map_err(|_| NotATime::NoTime);
    Time::new(part(hour)?, part(minute)?, 0, 0).map_err(|_| NotATime::NoTime)
}

/// The numbers of `yyyy-mm-dd`.
fn iso(words: &str) -> Option<(i16, i8, i8)> {
    let mut parts = words.split('-');
    let year = number(parts.next()?, 4)?;
    let (month, day) = (number(parts.next()?, 2)?, number(parts.next()?, 2)?);
    parts.next().is_none().then_some(())?;
    Some((year, month.try_into().ok()?, day.try_into().ok()?))
}

/// A number of so many digits.
fn number(digits: &str, count: usize) -> Option<i16> {
    let is_plain = digits.len() == count && digits.bytes().all(|byte| byte.is_ascii_digit());
    is_plain.then(|| digits.parse().ok()).flatten()
}

/// The dates that other forms may mean: with a time, with other marks, day or month first.
fn meant(words: &str) -> Vec<Date> {
    let date = words.split(['T', ' ']).next().unwrap_or_default();
    let groups: Vec<&str> = date.split(['-', '/', '.']).collect();
    let mut found = Vec::new();
    let mut try_with = |year: &str, month: &str, day: &str| {
        let small = |digits: &str| (digits.len() <= 2).then(|| digits.parse::<i8>().ok()).flatten();
        let date = number(year, 4).zip(small(month).zip(small(day)));
        let date = date.and_then(|(year, (month, day))| Date::new(year, month, day).ok());
        found.extend(date.filter(|date| date.year() > 0 && !found.contains(date)));
    };
    match *groups.as_slice() {
        [year, month, day] if year.len() == 4 => try_with(year, month, day),
        [first, second, year] => {
            try_with(year, second, first);
            try_with(year, first, second);
        }
        [digits] if digits.len() == 8 && digits.is_ascii() => {
            let (year, rest) = digits.split_at(4);
            let (month, day) = rest.split_at(2);
            try_with(year, month, day);
        }
        _ => {}
    }
    found
}

#[cfg(test)]
mod tests {
    use jiff::civil::{date, time};

    use super::*;

    #[test]
    fn dates_are_those_of_the_calendar() {
        assert_eq!(read_date("2026-11-27"), Ok(date(2026, 11, 27)));
        assert_eq!(read_date("2028-02-29"), Ok(date(2028, 2, 29)));
        assert_eq!(read_date("2026-02-29"), Err(NotADate::NoDay { days: 28, month: date(2026, 2, 1) }));
        assert_eq!(read_date("2026-11-00"), Err(NotADate::NoDay { days: 30, month: date(2026, 11, 1) }));
        assert_eq!(read_date("2026-13-01"), Err(NotADate::NoMonth(13)));
        assert_eq!(read_date("0000-11-27"), Err(NotADate::NoYear));
        assert_eq!(read_date("0000/11/27"), Err(NotADate::Form(Vec::new())));
    }

    #[test]
    fn other_forms_are_known_by_what_they_may_mean() {
        let form = |words: &str| match read_date(words) {
            Err(NotADate::Form(meant)) => meant.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "),
            other => panic!("{other:?}"),
        };
        assert_eq!(form("27.11.2026"), "2026-11-27");
        assert_eq!(form("3/4/2026"), "2026-04-03 2026-03-04");
        assert_eq!(form("5/5/2026"), "2026-05-05");
        assert_eq!(form("2026-11-27T06:00"), "2026-11-27");
        assert_eq!(form("2026/1/5"), "2026-01-05");
        assert_eq!(form("20261127"), "2026-11-27");
        assert_eq!(form("27.11.26"), "");
        assert_eq!(form("tomorrow"), "");
        assert_eq!(form("+026-11-27"), "");
        assert_eq!(form(""), "");
        assert_eq!(form("aé-éa-éé.ü"), "");
    }

    #[test]
    fn times_are_those_of_the_clock() {
        assert_eq!(read_time("4:00"), Ok(time(4, 0, 0, 0)));
        assert_eq!(read_time("04:30"), Ok(time(4, 30, 0, 0)));
        assert_eq!(read_time("24:00"), Err(NotATime::NoTime));
        for other in ["4 am", "4:0", "004:00", ":30", "4:000", "-4:00", ""] {
            assert_eq!(read_time(other), Err(NotATime::Form), "{other}");
        }
    }
}
