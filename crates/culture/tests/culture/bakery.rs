//! Cultures, needs and days for the tests.

use jiff::civil::{Date, Time, date};
use jiff::tz::TimeZone;
use levamen_calendar::ZonedDays;
use levamen_culture::{
    CultureKeeping, CultureNeed, Declared, FeedingHours, FeedingPlan, FeedingStep, Interval,
};
use levamen_quantity::{Duration, Exact, Mass, Share, TimeUnit};

pub fn grams(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(figure))
}

pub fn hours(figure: i64) -> Duration {
    Duration::from_unit(&Exact::from(figure), TimeUnit::Hour)
}

pub fn percent(figure: i64) -> Share {
    Share::from_percent(Exact::from(figure))
}

/// Ripe after 8 to 10 h, fed every 12 to 24 h, 20 to 50 % old and usually 40 %, at least 200 g.
pub fn liquid() -> Declared {
    Declared::usual(Interval::new(hours(8), hours(10)))
}

pub fn keeping(declared: Declared) -> CultureKeeping {
    CultureKeeping::new(declared).unwrap()
}

/// The first day of most tests: a Tuesday.
pub const FIRST: Date = date(2026, 12, 1);

pub fn days(count: u32) -> ZonedDays {
    ZonedDays::new(FIRST, count, TimeZone::UTC).unwrap()
}

pub fn clock(hour: i8) -> Time {
    Time::constant(hour, 0, 0, 0)
}

/// So much on the day with this number, the first being 0, at an hour.
pub fn need(days: &ZonedDays, day: i64, hour: i8, mass: i64) -> CultureNeed {
    let date = days.first().checked_add(jiff::Span::new().days(day)).unwrap();
    CultureNeed { at: days.at(date, clock(hour)).unwrap(), mass: grams(mass), place: None }
}

/// The same every day at four in the morning.
pub fn daily(days: &ZonedDays, masses: &[i64]) -> Vec<CultureNeed> {
    (0..).zip(masses).map(|(day, mass)| need(days, day, 4, *mass)).collect()
}

pub fn suiting(keeping: &CultureKeeping, needs: &[CultureNeed]) -> FeedingHours {
    FeedingHours::suiting(keeping, needs, clock(4))
}

/// A plan in lines: what is taken, and of each feeding what is thrown away, kept and made.
pub fn told(plan: &FeedingPlan) -> String {
    let mut lines = vec![format!("on hand {}", plan.on_hand.grams())];
    for step in &plan.steps {
        lines.push(match step {
            FeedingStep::Take(take) => {
                format!("{} take {}", take.at.strftime("%a %d %H:%M"), take.mass.grams())
            }
            FeedingStep::Feed(feeding) => format!(
                "{} discard {} keep {} make {}{}",
                feeding.at.strftime("%a %d %H:%M"),
                feeding.discard.grams(),
                feeding.old.grams(),
                feeding.made().grams(),
                if feeding.goes_cold { ", cold" } else { "" }
            ),
        });
    }
    lines.push(format!("left {}, least: {}", plan.left.grams(), plan.is_least));
    lines.join("\n")
}
