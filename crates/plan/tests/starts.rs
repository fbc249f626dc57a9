//! What is set when, counted back by hand.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders, DayStageId, Starts};
use levamen_timetable::Clock;

const BOOK: &str = "\
bakery Quay
  out by 06:30

culture liquid culture
  white flour  100 %
  water        100 %
  ripens         8 h

dough Loaf

overall
  white flour  100 %
  water         70 %
  salt           2 %

stage levain
  takes  20 % of the flour
  white flour          100 %
  water                100 %
  ripens                10 h
  stage first build, a levain
    takes               5 % of the flour
    white flour       100 %
    water             100 %
    from liquid culture 20 %
    ripens             16 h

dough Shared poolish

overall
  white flour    100 %
  water          100 %
  instant yeast  0.1 %

dough Plain

overall
  white flour    100 %
  water           70 %
  salt             2 %
  instant yeast  0.5 %

stage poolish
  takes  30 % of the flour
  from Shared poolish
  ripens  12 to 14 h

method Loaf
  mixes 10 min
  bulk  150 to 180 min

product Loaf
  made of Loaf
  piece    900 g
  shaping   20 min
  proof     60 to 90 min
  bakes     40 min
  cools      2 h

product Roll
  made of Plain
  piece  80 g
";

/// Dough, stage, date and time of everything that is set for bread of a day.
fn told(day: Date, zone: &str) -> Vec<String> {
    let texts = [(TextId(0), BOOK)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let clock = Clock::new(day, TimeZone::get(zone).unwrap()).unwrap();
    let day = Day::plan(
        &BookBalances::new(&book),
        &bakery,
        &DayOrders::from_pieces([(ProductId::new(0), 20), (ProductId::new(1), 60)]),
        None,
    )
    .unwrap();
    let starts = Starts::new(&bakery, &day, &clock).unwrap();
    let stages = day.doughs.iter().flat_map(|dough| {
        let stages = dough.balance.stages.iter().enumerate();
        stages.filter_map(|(index, stage)| {
            let start = starts.of(DayStageId { dough: dough.need.dough, stage: index })?;
            let at = start.strftime("%Y-%m-%d %H:%M");
            Some(format!("{} {}: {at}", dough.balance.dough, stage.name))
        })
    });
    let mut told: Vec<String> = stages.collect();
    told.sort();
    told
}

#[test]
fn stages_are_set_so_that_bread_is_cold_in_time() {
    // Out by 06:30: two hours to cool, 40 min in the oven, 60 min of proof, 20 min of shaping, 160 min of mixing and
    // bulk, so the loaf is mixed at 23:50 the day before; its levain 10 h before that, and the first build 16 h before.
    // Of the rolls only mixing takes time, 12 min where no method says it; their poolish is another dough.
    assert_eq!(
        told(date(2026, 11, 27), "UTC"),
        [
            "Loaf final dough: 2026-11-26 23:50",
            "Loaf first build: 2026-11-25 21:50",
            "Loaf levain: 2026-11-26 13:50",
            "Plain final dough: 2026-11-27 06:18",
            "Shared poolish final dough: 2026-11-26 18:18",
        ]
    );
}

#[test]
fn in_the_night_that_is_an_hour_short_the_loaf_begins_an_hour_sooner_by_the_wall() {
    // From 01:00 the clock goes on at 02:00, while the loaf stands in bulk; its rolls are mixed after that.
    assert_eq!(
        told(date(2026, 3, 29), "Europe/Lisbon"),
        [
            "Loaf final dough: 2026-03-28 22:50",
            "Loaf first build: 2026-03-27 20:50",
            "Loaf levain: 2026-03-28 12:50",
            "Plain final dough: 2026-03-29 06:18",
            "Shared poolish final dough: 2026-03-28 17:18",
        ]
    );
}

#[test]
fn in_the_night_that_is_an_hour_long_the_loaf_begins_an_hour_later_by_the_wall() {
    // At 02:00 the clock goes back to 01:00; 00:50 is well before it, and 23:50 would be an hour too soon.
    assert_eq!(
        told(date(2026, 10, 25), "Europe/Lisbon"),
        [
            "Loaf final dough: 2026-10-25 00:50",
            "Loaf first build: 2026-10-23 22:50",
            "Loaf levain: 2026-10-24 14:50",
            "Plain final dough: 2026-10-25 06:18",
            "Shared poolish final dough: 2026-10-24 19:18",
        ]
    );
}
