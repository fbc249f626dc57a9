//! Bread is out at a time on the wall, and a proof takes real minutes.

use jiff::ToSpan as _;
use jiff::civil::{date, datetime};
use jiff::tz::TimeZone;
use levamen_timetable::{Clock, Effort, Minutes, Moment, Step, plan};

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
    // Clocks go from 02:00 to 03:00, two hours after midnight: every time between is the first minute that exists.
    for minute in [0, 1, 30, 59] {
        let skipped = datetime(2026, 3, 29, 2, minute, 0, 0);
        assert_eq!(clock.moment(skipped), Ok(Moment::minute(120)));
        assert_eq!(clock.taken_for(skipped), Some(datetime(2026, 3, 29, 3, 0, 0, 0)));
    }
    assert_eq!(clock.taken_for(datetime(2026, 3, 29, 3, 0, 0, 0)), None);
    assert_eq!(clock.taken_for(datetime(2026, 3, 29, 1, 59, 0, 0)), None);
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
        let deadline = clock.moment(date(2026, month, day).at(7, 0, 0, 0)).unwrap();
        assert_eq!(deadline, Moment::minute(hours * 60));
        let mut bakery = Bakery::new();
        let bake = Step::new(bakery.loaf, "bake rolls", Minutes::new(45)).with(bakery.oven, 1);
        bakery.work.step(bake.deadline(deadline));
        let timetable = plan(&bakery.work, Effort::default()).unwrap();
        let last = timetable.placements.last().unwrap();
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

/// Zones whose clocks change in every way there is, each with a date near a change: an hour forward and back, half an hour
/// (Lord Howe), at midnight (Santiago, Beirut), over a whole day (Samoa), twice over one date (a day that comes twice).
const CHANGES: [(&str, (i16, i8, i8)); 12] = [
    ("Europe/Lisbon", (2026, 3, 29)),
    ("Europe/Lisbon", (2026, 10, 25)),
    ("America/New_York", (2026, 3, 8)),
    ("America/New_York", (2026, 11, 1)),
    ("Australia/Lord_Howe", (2026, 4, 5)),
    ("Australia/Lord_Howe", (2026, 10, 4)),
    ("America/Santiago", (2026, 9, 6)),
    ("America/Santiago", (2026, 4, 5)),
    ("Asia/Beirut", (2026, 3, 29)),
    ("Pacific/Apia", (2011, 12, 30)),
    ("Pacific/Kwajalein", (1993, 8, 21)),
    ("Asia/Kathmandu", (2026, 5, 5)),
];

#[test]
fn a_time_is_the_first_minute_at_which_the_wall_shows_it_or_a_later_one() {
    for (zone, (year, month, day)) in CHANGES {
        let zone = TimeZone::get(zone).unwrap();
        let changed = date(year, month, day);
        let clock = Clock::new(changed, zone.clone()).unwrap();
        // The wall, minute by minute over six days, read from the zone alone.
        let start = changed.yesterday().unwrap().yesterday().unwrap().to_zoned(zone).unwrap();
        let minutes: Vec<_> = (0..6 * 24 * 60).map(|minute| &start + minute.minutes()).collect();
        for days in -1..=2_i64 {
            let on = changed.checked_add(days.days()).unwrap();
            for quarter in 0..24 * 4_i8 {
                let time = on.at(quarter / 4, quarter % 4 * 15, 0, 0);
                let first = minutes.iter().find(|at| at.datetime() >= time).unwrap();
                let moment = clock.moment(time).unwrap();
                assert_eq!(&clock.at(moment).unwrap(), first, "{time} in {:?}", clock.zone());
                let taken = (first.datetime() != time).then(|| first.datetime());
                assert_eq!(clock.taken_for(time), taken, "{time} in {:?}", clock.zone());
            }
        }
    }
}

#[test]
fn a_time_beyond_the_calendar_is_refused() {
    let clock = paris(11, 26);
    insta::assert_snapshot!(clock.moment(datetime(9999, 12, 31, 6, 0, 0, 0)).unwrap_err(), @"9999-12-31T06:00:00 is too far away for a timetable");
}
