//! Feeding plans on paper: how they look, and that rounded weights still add up.

use insta::assert_snapshot;
use jiff::civil::{date, time};
use jiff::tz::TimeZone;
use levamen_calendar::ZonedDays;
use levamen_culture::{
    CultureKeeping, CultureNeed, Declared, FeedingHours, FeedingPlan, FeedingTask, Interval, plan,
};
use levamen_formula::Scale;
use levamen_quantity::{Duration, Exact, Mass, Share, TimeUnit};
use levamen_sheets::{FeedingRow, FeedingSheet, Part};
use levamen_views::{json, text};
use proptest::prelude::*;

fn grams(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(figure))
}

/// A culture that is fed white flour, rye flour and water, 5 to 3 to 8.
pub fn parts() -> Vec<Part> {
    let part = |name: &str, sixteenths| Part {
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

#[test]
fn a_week_on_the_wall() {
    let plan = planned(&[420, 640, 3000, 0, 420, 0, 420], Some(700), false);
    let notes = vec!["The book does not say, so this is taken as usual: usually 40 % old.".to_owned()];
    assert_snapshot!(text::feed(&FeedingSheet::new("harbour culture", &plan, &parts(), &[], notes)));
}

#[test]
fn idle_days_in_the_cold_and_what_each_week_throws_away() {
    let plan = planned(&[420, 0, 0, 0, 0, 0, 0, 0, 0, 420], Some(3000), true);
    assert_snapshot!(text::feed(&FeedingSheet::new("harbour culture", &plan, &parts(), &[], Vec::new())));
}

#[test]
fn as_json() {
    let plan = planned(&[420, 0], Some(1000), false);
    let feed = json::Feed::from(&FeedingSheet::new("harbour culture", &plan, &parts(), &[], Vec::new()));
    assert_snapshot!(serde_json::to_string_pretty(&feed).unwrap());
    let (_, schema) = json::schemas().into_iter().find(|(command, _)| *command == "feed").unwrap();
    assert!(jsonschema::is_valid(&schema.to_value(), &serde_json::to_value([feed]).unwrap()));
}

/// Goes through a sheet by its weights: what is in the tub after the last row.
fn weighed_again(sheet: &FeedingSheet) -> Mass {
    let mut stock = sheet.on_hand.clone();
    for row in &sheet.rows {
        match row {
            FeedingRow::Take { mass, stays, .. } => {
                assert!(*mass <= stock);
                stock = &stock - mass;
                assert_eq!(stock, *stays);
            }
            FeedingRow::Feed { weighed, .. } => {
                assert!(!weighed.discard.grams().is_negative());
                assert_eq!(&weighed.discard + &weighed.old, stock);
                stock = &weighed.old + &weighed.added();
                assert_eq!(stock, weighed.made);
            }
        }
    }
    stock
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    /// On scales fine and coarse: nothing goes below zero, each levain gets what it needs, every weight is in whole
    /// divisions, and rounding does not add up over the days.
    #[test]
    fn rounded_weights_add_up(
        masses in prop::collection::vec(prop_oneof![Just(0i64), 1i64..3000], 1..9),
        divisions in prop_oneof![Just(vec![]), Just(vec![(1i64, 5_000i64), (10, 60_000)]), Just(vec![(5, 100_000)]), Just(vec![(50, 100_000)])],
    ) {
        let scales: Vec<Scale> = divisions
            .iter()
            .map(|(division, capacity)| Scale {
                name: "a scale".to_owned(),
                division: grams(*division),
                capacity: grams(*capacity),
            })
            .collect();
        let plan = planned(&masses, None, false);
        let sheet = FeedingSheet::new("culture", &plan, &parts(), &scales, Vec::new());
        prop_assert_eq!(weighed_again(&sheet), sheet.left.clone());
        let asked: i64 = masses.iter().sum();
        prop_assert!(sheet.taken() >= grams(asked));
        let coarsest = divisions.iter().map(|(division, _)| *division).max().unwrap_or(10);
        for (weighed, exact) in sheet.feedings() {
            let off = (weighed.made.grams() - exact.made().grams()).abs();
            // What is taken is rounded up as well, and made for.
            prop_assert!(off < Exact::from(4 * coarsest), "{off} at {}", exact.at);
        }
    }
}
