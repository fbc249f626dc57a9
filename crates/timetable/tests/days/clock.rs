//! Bread is out at a time on the wall, and a proof takes real minutes.

use jiff::civil::{date, datetime};
use jiff::tz::TimeZone;
use levamen_timetable::{Clock, Effort, Minutes, Moment, NoMoment, Step, plan};

use crate::bakery::Bakery;

fn paris(month: i8, day: i8) -> Clock {
    Clock::new(date(2026, month, day), TimeZone::get("Europe/Paris").unwrap()).unwrap()
}

#[test]
fn a_plain_day() {
    let clock = paris(11, 26);
    assert_eq!(clock.moment(datetime(2026, 11, 26, 4, 30, 0, 0)), Ok(Moment::minute(270)));
    assert_eq!(clock.words(Moment::minute(270)), "04:30");
    assert_eq!(clock.words(Moment::minute(-110)), "Wed 22:10");
}

#[test]
fn the_night_that_is_an_hour_short() {
    let clock = paris(3, 29);
    assert_eq!(clock.moment(datetime(2026, 3, 29, 7, 0, 0, 0)), Ok(Moment::minute(6 * 60)));
    let skipped = datetime(2026, 3, 29, 2, 30, 0, 0);
    let refused = clock.moment(skipped).unwrap_err();
    assert_eq!(refused, NoMoment::Skipped(skipped));
    insta::assert_snapshot!(refused, @"there is no 02:30 on 2026-03-29: clocks go forward over it; name a time before or after");
}

#[test]
fn the_night_that_is_an_hour_long() {
    let clock = paris(10, 25);
    assert_eq!(clock.moment(datetime(2026, 10, 25, 7, 0, 0, 0)), Ok(Moment::minute(8 * 60)));
    // The first of the two.
    assert_eq!(clock.moment(datetime(2026, 10, 25, 2, 30, 0, 0)), Ok(Moment::minute(150)));
    assert_eq!(clock.words(Moment::minute(210)), "02:30");
}

#[test]
fn ripening_takes_its_minutes_across_the_change() {
    for (month, day, hours) in [(11, 26, 7), (3, 29, 6), (10, 25, 8)] {
        let clock = paris(month, day);
        let out_by = clock.moment(date(2026, month, day).at(7, 0, 0, 0)).unwrap();
        assert_eq!(out_by, Moment::minute(hours * 60));
        let mut bakery = Bakery::new();
        let bake = Step::new(bakery.loaf, "bake rolls", Minutes::new(45)).with(bakery.oven, 1);
        bakery.work.step(bake.out_by(out_by));
        let timetable = plan(&bakery.work, Effort::default()).unwrap();
        let last = timetable.entries.last().unwrap();
        assert_eq!(clock.words(last.end), "07:00");
        assert_eq!(last.end.since(last.start), Some(Minutes::new(45)));
    }
}

#[test]
fn moments_beyond_the_calendar_are_still_told() {
    assert_eq!(paris(11, 26).words(Moment::minute(i32::MAX)), "Thu 02:07");
    let last = Clock::new(date(9999, 12, 31), TimeZone::get("Pacific/Niue").unwrap());
    assert!(last.is_err() || last.unwrap().words(Moment::minute(i32::MAX)).starts_with("minute"));
}

#[test]
fn changes_of_clocks_are_told_where_they_are_passed() {
    let (evening, noon) = (Moment::minute(-300), Moment::minute(720));
    let forward = (datetime(2026, 3, 29, 2, 0, 0, 0), datetime(2026, 3, 29, 3, 0, 0, 0));
    assert_eq!(paris(3, 29).changes(evening, noon), [forward]);
    let back = (datetime(2026, 10, 25, 3, 0, 0, 0), datetime(2026, 10, 25, 2, 0, 0, 0));
    assert_eq!(paris(10, 25).changes(evening, noon), [back]);
    assert_eq!(paris(3, 29).changes(Moment::minute(180), noon), []);
    assert_eq!(paris(11, 26).changes(evening, noon), []);
}
