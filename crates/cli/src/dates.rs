//! Dates, hours and time zones as they are written on the command line.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use levamen::{MOST_DAYS, NotADate, NotATime, ZonedDays, read_date, read_time};

use crate::failure::Failure;

/// A date as it is typed.
///
/// # Errors
/// It is none.
pub fn date(what: &str, text: &str) -> Result<Date, Failure> {
    let refused = |why: &str| Failure::usage(format!("`{text}` is no date for {what}{why}"));
    let form = || "write year, month and day, such as 2026-11-27".to_owned();
    read_date(text.trim()).map_err(|why| match why {
        NotADate::Form(_) => {
            refused("").help(dashed(text.trim()).map_or_else(form, |date| format!("write {date}")))
        }
        _ => refused(": there is no such day").help(form()),
    })
}

/// The date that eight digits in a row may mean.
fn dashed(digits: &str) -> Option<Date> {
    let (year, month, day) = (digits.get(..4)?, digits.get(4..6)?, digits.get(6..)?);
    read_date(&format!("{year}-{month}-{day}")).ok()
}

/// Days in a row, of which the first and their number were typed.
///
/// # Errors
/// What cannot be read, and how to write it.
pub fn days(from: &str, count: &str, zone: TimeZone) -> Result<ZonedDays, Failure> {
    let first = first_day(from)?;
    let words = count.trim();
    let form = format!("write how many days, from 1 to {MOST_DAYS}: --days 7");
    let Ok(count) = words.parse::<u32>() else {
        let digits = !words.is_empty() && words.bytes().all(|byte| byte.is_ascii_digit());
        let what = if digits { "are too many to plan" } else { "is no whole number of days" };
        return Err(Failure::usage(format!("`--days {words}` {what}")).help(form));
    };
    ZonedDays::new(first, count, zone).ok_or_else(|| {
        let message = match count {
            0 => "`--days 0` is nothing to plan".to_owned(),
            count if count > MOST_DAYS => format!("`--days {count}` is more than can be planned at once"),
            _ => "the days end after the year 9999".to_owned(),
        };
        Failure::usage(message).help(form)
    })
}

fn first_day(words: &str) -> Result<Date, Failure> {
    read_date(words.trim()).map_err(|why| match why {
        NotADate::Form(_) => Failure::usage(format!("`--from {words}` is not a date"))
            .help("write year, month and day: --from 2026-12-01"),
        _ => Failure::usage(format!("`--from {words}`: there is no such day"))
            .help("look at the month and at how many days it has"),
    })
}

/// A time of day.
///
/// # Errors
/// It is none, and how to write it.
pub fn time(option: &str, words: &str) -> Result<Time, Failure> {
    read_time(words.trim()).map_err(|why| {
        let what = match why {
            NotATime::Form => "is not a time of day",
            NotATime::NoTime => "is a time that the clock never shows",
        };
        Failure::usage(format!("`{option} {words}` {what}"))
            .help(format!("write hours and minutes from 00:00 to 23:59: {option} 04:00"))
    })
}

/// The zone that was asked for, that of the book, that of the machine, or one whose clocks never change.
///
/// # Errors
/// There is no such zone.
pub fn zone(asked: Option<&str>, book: Option<&str>) -> Result<TimeZone, Failure> {
    let Some(name) = asked.or(book) else { return Ok(TimeZone::try_system().unwrap_or(TimeZone::UTC)) };
    TimeZone::get(name).map_err(|_| {
        let whose = if asked.is_some() { "`--zone`" } else { "the book's `time zone`" };
        Failure::usage(format!("{whose} `{name}` is not a time zone"))
            .help("write it as the IANA database does, by continent and city: Europe/Lisbon")
    })
}
