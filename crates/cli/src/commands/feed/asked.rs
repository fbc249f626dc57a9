//! What was asked for: days, hours, zone, what is on hand.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use levamen_calendar::{MOST_DAYS, NotADate, NotATime, ZonedDays, read_date, read_time};
use levamen_quantity::{Mass, Temperature};

use crate::args::FeedArguments;
use crate::failure::Failure;
use crate::measure::temperature;
use crate::size::mass;

/// The most hours of a day that are looked at.
const MOST_HOURS: usize = 24;

/// The arguments, read.
#[derive(Debug)]
pub struct Asked {
    /// The days.
    pub days: ZonedDays,
    /// When culture is needed where a row says no time.
    pub at: Time,
    /// When somebody can feed, where it was said.
    pub feed_at: Option<Vec<Time>>,
    /// How warm the culture is kept, where that is not as the book says.
    pub kept_at: Option<Temperature>,
    /// Ripe culture at the start.
    pub on_hand: Option<Mass>,
}

impl Asked {
    /// Reads the arguments; `zone` is what the book says.
    ///
    /// # Errors
    /// What cannot be read, and how to write it.
    pub fn read(feed: &FeedArguments, zone: Option<&str>) -> Result<Self, Failure> {
        let feed_at = feed.feed_at.iter().map(|words| time("--feed-at", words));
        let feed_at = feed_at.collect::<Result<Vec<Time>, Failure>>()?;
        if feed_at.len() > MOST_HOURS {
            return Err(Failure::usage(format!(
                "`--feed-at` has {} hours; at most {MOST_HOURS}",
                feed_at.len()
            )));
        }
        Ok(Self {
            days: days(
                feed.from.as_deref().unwrap_or_default(),
                &feed.days,
                self::zone(feed.zone.as_deref(), zone)?,
            )?,
            at: time("--at", &feed.at)?,
            feed_at: (!feed_at.is_empty()).then_some(feed_at),
            kept_at: feed.kept_at.as_deref().map(|words| temperature("--kept-at", words)).transpose()?,
            on_hand: feed.on_hand.as_deref().map(|words| mass("--on-hand", words)).transpose()?,
        })
    }
}

/// Days in a row, of which the first and their number were typed.
///
/// # Errors
/// What cannot be read, and how to write it.
pub fn days(from: &str, count: &str, zone: TimeZone) -> Result<ZonedDays, Failure> {
    let first = date(from)?;
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

fn date(words: &str) -> Result<Date, Failure> {
    read_date(words.trim()).map_err(|why| match why {
        NotADate::Form(_) => Failure::usage(format!("`--from {words}` is not a date"))
            .help("write year, month and day: --from 2026-12-01"),
        _ => Failure::usage(format!("`--from {words}`: there is no such day"))
            .help("look at the month and at how many days it has"),
    })
}

fn time(option: &str, words: &str) -> Result<Time, Failure> {
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
