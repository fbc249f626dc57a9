//! Dates, days in a row, and the clock on a wall.
//!
//! Every date that a file or an option writes is read here ([`read_date`]), so that all of them accept the same. What the
//! wall shows and what time passes come apart where clocks change; one rule for it is here, in [`Clock`] and
//! [`ZonedDays`]: a time that is skipped is the first moment that exists after it, and a time that comes twice is its first.
//!
//! ```
//! use jiff::civil::{date, time};
//! use jiff::tz::TimeZone;
//! use levamen_calendar::{ZonedDays, read_date};
//!
//! let day = read_date("2026-03-29").unwrap();
//! let days = ZonedDays::new(day, 1, TimeZone::get("Europe/Lisbon").unwrap()).unwrap();
//! let skipped = days.at(day, time(1, 30, 0, 0)).unwrap();
//! assert_eq!(skipped.datetime(), date(2026, 3, 29).at(2, 0, 0, 0));
//! ```

mod clock;
mod date;
mod days;
mod moment;

pub use clock::{Clock, NoMoment};
pub use date::{NotADate, NotATime, read_date, read_time};
pub use days::{Days, MOST_DAYS, ZonedDays};
pub use moment::{Minutes, Moment};
