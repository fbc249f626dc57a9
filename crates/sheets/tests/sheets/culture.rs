//! A culture and its feeding plans, to make sheets of.

use jiff::civil::{date, time};
use jiff::tz::TimeZone;
use levamen_calendar::ZonedDays;
use levamen_culture::{
    CultureKeeping, CultureNeed, Declared, FeedingHours, FeedingPlan, FeedingTask, Interval, plan,
};
use levamen_quantity::{Duration, Exact, Mass, Share, TimeUnit};
use levamen_sheets::FeedPart;

pub fn grams(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(figure))
}

/// A culture that is fed white flour, rye flour and water, 5 to 3 to 8.
pub fn parts() -> Vec<FeedPart> {
    let part = |name: &str, sixteenths| FeedPart {
        name: name.to_owned(),
        share: Share::from_fraction(Exact::ratio(sixteenths, 16).unwrap()),
    };
    vec![part("strong white flour", 5), part("rye flour", 3), part("water", 8)]
}

/// A plan for what is needed at four each morning.
pub fn planned(masses: &[i64], on_hand: Option<i64>, stored: bool) -> FeedingPlan {
    let hours = |figure: i64| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
    let usual = Declared::usual(Interval::new(hours(8), hours(10)));
    let keeping = CultureKeeping::new(Declared { stored: stored.then(|| hours(72)), ..usual }).unwrap();
    let first = date(2026, 12, 1);
    let days = ZonedDays::new(first, u32::try_from(masses.len()).unwrap(), TimeZone::UTC).unwrap();
    let at = |day: i64| {
        days.at(first.checked_add(jiff::Span::new().days(day)).unwrap(), time(4, 0, 0, 0)).unwrap()
    };
    let needs: Vec<CultureNeed> = (0..)
        .zip(masses)
        .filter(|(_, mass)| **mass > 0)
        .map(|(day, mass)| CultureNeed { at: at(day), mass: grams(*mass), place: None })
        .collect();
    let hours = FeedingHours::suiting(&keeping, &needs, time(4, 0, 0, 0));
    let on_hand = on_hand.map(grams);
    plan(&FeedingTask { keeping: &keeping, needs: &needs, days: &days, hours: &hours, on_hand }).unwrap()
}
