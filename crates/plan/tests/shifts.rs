//! Bakers are there in their shifts and at no other time: on the day of the bread, on the days before it, past midnight, and
//! where clocks change.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use jiff::ToSpan as _;
use jiff::civil::{Date, DateTime, date};
use jiff::tz::TimeZone;
use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders, Gap, Hours, Timed};
use levamen_timetable::{Clock, Effort, Moment, OpeningHours, plan, verify};
use proptest::prelude::*;

/// A bread that takes dough of the day before and a long cold proof, so that the days before its own are needed.
const BREAD: &str = "\
dough Loaf

overall
  white flour  100 %
  water         70 %
  salt           2 %
  fresh yeast    1 %

stage sponge
  takes         30 % of the flour
  white flour  100 %
  water         60 %
  fresh yeast  0.5 %
  ripens        12 to 18 h

method Loaf
  mixes 10 min
  bulk  60 to 120 min

product Loaf
  made of Loaf
  piece    900 g
  shaping   15 min
  proof     45 to 90 min
  bakes     40 min
  cools     30 min
";

fn hours(cards: &str, bread: Date, zone: &str) -> Option<Hours> {
    let text = format!("{BREAD}\n{cards}");
    let texts = [(TextId(0), text.as_str())];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let day = Day::plan(
        &BookBalances::new(&book),
        &bakery,
        &DayOrders::from_pieces([(ProductId::new(0), 20)]),
        None,
    )
    .ok()?;
    let clock = Clock::new(bread, TimeZone::get(zone).ok()?).ok()?;
    Hours::new(&bakery, &day, clock).ok()
}

/// When bakers are there, in the order of the clock.
fn open(hours: &Hours) -> Vec<OpeningHours> {
    let bakers = hours.work.pools().iter().find(|pool| pool.name == "bakers").unwrap();
    let mut open = bakers.open.clone();
    open.sort_by_key(|open| open.from);
    open
}

/// `22:00` as the minute of a day.
fn words(minute: u16) -> String {
    format!("{:02}:{:02}", minute / 60, minute % 60)
}

/// The zones in which the property is tried, and days about which their clocks change; the first has none.
const PLACES: [(&str, (i16, i8, i8)); 12] = [
    ("Asia/Kathmandu", (2026, 5, 5)),
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
];

/// The minutes of a span in which a shift holds, read from the zone alone: from the first at which the wall shows its
/// beginning or later, to the first at which it shows its end or later.
fn stated(hours: &Hours, (from, to): (u16, u16)) -> Vec<bool> {
    let (first, last) = hours.work.span();
    let wall: Vec<DateTime> = (first.minutes()..last.minutes())
        .map(|at| hours.clock.at(Moment::minute(at)).unwrap().datetime())
        .collect();
    let start = hours.clock.at(first).unwrap();
    let mut holds = vec![false; wall.len()];
    for days in -2..=8_i64 {
        let Ok(on) = start.date().checked_add(days.days()) else { continue };
        let at = |minute: u16, later: i64| {
            let midnight = on.at(0, 0, 0, 0);
            midnight.checked_add(later.days()).unwrap().checked_add(i64::from(minute).minutes()).unwrap()
        };
        let begins = at(from, 0);
        let ends = at(to, i64::from(to <= from));
        // Before the span the wall may have shown it already.
        let reached = |time: DateTime| {
            let mut early = (-26 * 60..0_i64).map(|minute| (&start + minute.minutes()).datetime());
            if early.any(|at| at >= time) { Some(0) } else { wall.iter().position(|at| *at >= time) }
        };
        let (Some(begin), end) = (reached(begins), reached(ends).unwrap_or(wall.len())) else { continue };
        for slot in holds.iter_mut().take(end).skip(begin) {
            *slot = true;
        }
    }
    holds
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn bakers_are_there_in_their_shift_and_at_no_other_time(
        place in 0..PLACES.len(),
        days in -1..=4_i64,
        from in 0_u16..96,
        length in 1_u16..95,
    ) {
        let (zone, (year, month, day)) = PLACES[place];
        let bread = date(year, month, day).checked_add(days.days()).unwrap();
        let shift = (from * 15, (from + length) % 96 * 15);
        let cards = format!("shift only\n  from {} to {}\n  bakers 1\n", words(shift.0), words(shift.1));
        let hours = hours(&cards, bread, zone).unwrap();
        let (first, _) = hours.work.span();
        let mut there = vec![false; stated(&hours, shift).len()];
        for open in open(&hours) {
            let place = |at: Moment| usize::try_from(at.minutes() - first.minutes()).unwrap();
            for slot in &mut there[place(open.from)..place(open.until)] {
                *slot = true;
            }
        }
        let stated = stated(&hours, shift);
        let differs = stated.iter().zip(&there).position(|(stated, there)| stated != there);
        let at = differs.map(|at| hours.clock.at(first + levamen_timetable::Minutes::new(u32::try_from(at).unwrap())));
        prop_assert!(differs.is_none(), "{cards}bread of {bread}: {:?}", at.flatten());
    }
}

#[test]
fn where_no_clock_changes_the_wall_shows_the_shift() {
    for (from, to) in [("22:00", "06:00"), ("06:00", "14:00"), ("00:00", "12:00"), ("12:00", "00:00")] {
        let cards = format!("shift only\n  from {from} to {to}\n  bakers 1\n");
        let hours = hours(&cards, date(2026, 11, 27), "Europe/Lisbon").unwrap();
        let open = open(&hours);
        assert!(open.len() > 1, "{cards}");
        let (first, last) = hours.work.span();
        for open in open {
            let shown = |at| hours.clock.at(at).unwrap().strftime("%H:%M").to_string();
            assert!(open.from == first || shown(open.from) == from, "{cards}: {}", shown(open.from));
            assert!(open.until == last || shown(open.until) == to, "{cards}: {}", shown(open.until));
        }
    }
}

#[test]
fn a_night_shift_alone_bakes_by_night() {
    let cards = "bakery Quay\n  out by 06:30\n\nshift night\n  from 22:00 to 06:00\n  bakers 1\n";
    let hours = hours(cards, date(2026, 11, 27), "Europe/Lisbon").unwrap();
    let timetable = plan(&hours.work, Effort { rounds: 1, neighbourhoods: 40, prices: 4 }).unwrap();
    assert_eq!(verify(&hours.work, &timetable), []);
    for entry in &timetable.placements {
        let at = hours.clock.at(entry.start).unwrap();
        assert!(at.hour() >= 22 || at.hour() < 6, "a baker begins at {at}");
    }
}

#[test]
fn a_day_shift_alone_has_an_hour_for_the_stage_of_the_day_before() {
    let cards = "bakery Quay\n  out by 13:00\n\nshift day\n  from 06:00 to 14:00\n  bakers 1\n";
    let hours = hours(cards, date(2026, 11, 27), "Europe/Lisbon").unwrap();
    let timetable = plan(&hours.work, Effort { rounds: 1, neighbourhoods: 40, prices: 4 }).unwrap();
    assert_eq!(verify(&hours.work, &timetable), []);
}

#[test]
fn a_shift_at_a_skipped_hour_begins_at_the_first_minute_that_exists_and_says_so() {
    let cards = "bakery Quay\n  out by 07:00\n\nshift night\n  from 01:15 to 09:00\n  bakers 1\n\n\
                 shift day\n  from 12:00 to 20:00\n  bakers 1\n";
    let bread = date(2026, 3, 29);
    let hours = hours(cards, bread, "Europe/Lisbon").unwrap();
    let (time, taken) = (bread.at(1, 15, 0, 0), bread.at(2, 0, 0, 0));
    let told = Gap::Skipped { what: Timed::ShiftBegins("night".to_owned()), time, taken };
    assert!(hours.gaps.contains(&told), "{:?}", hours.gaps);
    let skipped = hours.gaps.iter().filter(|gap| matches!(gap, Gap::Skipped { .. }));
    assert_eq!(skipped.count(), 1, "{:?}", hours.gaps);
}

#[test]
fn a_day_before_a_midnight_that_is_skipped_is_planned() {
    // In Santiago the sixth of September begins at 01:00; no card names an hour of it.
    let cards = "shift day\n  from 04:00 to 20:00\n  bakers 1\n";
    for day in [5, 6, 7] {
        let hours = hours(cards, date(2026, 9, day), "America/Santiago").unwrap();
        assert!(hours.gaps.iter().all(|gap| !matches!(gap, Gap::Skipped { .. })), "{:?}", hours.gaps);
    }
}
