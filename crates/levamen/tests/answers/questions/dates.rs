//! From which date on, and for how many days.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use levamen::ZonedDays;

use crate::question::Question;

/// Some days, a week unless another count is asked for.
pub struct Dates {
    from: Option<Date>,
    count: u32,
    zone: &'static str,
}

impl Default for Dates {
    fn default() -> Self {
        Self { from: None, count: 7, zone: "Europe/Lisbon" }
    }
}

impl Dates {
    pub fn days(&self) -> ZonedDays {
        ZonedDays::new(self.from.unwrap(), self.count, TimeZone::get(self.zone).unwrap()).unwrap()
    }
}

/// What is asked of some days.
pub trait Dated {
    fn dates(&mut self) -> &mut Dates;
}

impl<R: Dated> Question<R> {
    pub fn from(self, date: Date) -> Self {
        self.with("from", date, |request| request.dates().from = Some(date))
    }

    pub fn days(self, count: u32) -> Self {
        self.with("days", count, |request| request.dates().count = count)
    }

    pub fn zone(self, name: &'static str) -> Self {
        self.with("zone", name, |request| request.dates().zone = name)
    }
}
