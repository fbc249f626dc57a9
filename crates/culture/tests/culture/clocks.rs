//! Days on which the clocks change.

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_calendar::ZonedDays;
use levamen_culture::{Declared, FeedingTask, Interval, plan};

use crate::bakery::{hours, keeping, liquid, need, suiting, told};

fn told_over(first: jiff::civil::Date, declared: Declared) -> String {
    let days = ZonedDays::new(first, 4, TimeZone::get("Europe/Lisbon").unwrap()).unwrap();
    let keeping = keeping(declared);
    let needs: Vec<_> = (0..4).map(|day| need(&days, day, 4, 600)).collect();
    let hours = suiting(&keeping, &needs);
    let task = FeedingTask { keeping: &keeping, needs: &needs, days: &days, hours: &hours, on_hand: None };
    told(&plan(&task).unwrap())
}

/// Ripe after ten hours and not before, so that the night that is an hour short is fed an hour earlier.
#[test]
fn the_short_night_is_fed_an_hour_earlier() {
    let strict = Declared { ripens: Interval::only(hours(10)), ..liquid() };
    insta::assert_snapshot!(told_over(date(2026, 3, 27), strict));
}

#[test]
fn the_long_day_loses_no_feeding() {
    insta::assert_snapshot!(told_over(date(2026, 10, 23), liquid()));
}

/// The same moment as in a timetable: the first at which the wall shows the time or a later one.
#[test]
fn an_hour_that_is_skipped_is_the_first_minute_that_exists() {
    for (zone, day, minute, shown) in [
        ("Europe/Lisbon", date(2026, 3, 29), 15, date(2026, 3, 29).at(2, 0, 0, 0)),
        ("Europe/Lisbon", date(2026, 3, 29), 59, date(2026, 3, 29).at(2, 0, 0, 0)),
        ("Pacific/Apia", date(2011, 12, 30), 30, date(2011, 12, 31).at(0, 0, 0, 0)),
    ] {
        let days = ZonedDays::new(day, 2, TimeZone::get(zone).unwrap()).unwrap();
        let at = days.at(day, jiff::civil::time(1, minute, 0, 0)).unwrap();
        assert_eq!(at.datetime(), shown, "{zone}");
    }
}
