//! Feeding plans on paper: rounded weights still add up.

use levamen_formula::Scale;
use levamen_quantity::Exact;
use levamen_sheets::{FeedingRow, FeedingSheet, Weight};
use proptest::prelude::*;

use crate::culture::{grams, parts, planned};

/// Goes through a sheet by its weights: what is in the tub after the last row.
fn weighed_again(sheet: &FeedingSheet) -> Weight {
    let mut stock = sheet.on_hand;
    for row in &sheet.rows {
        match row {
            FeedingRow::Take { weight, stays, .. } => {
                assert!(*weight <= stock);
                stock = stock.try_sub(*weight).unwrap();
                assert_eq!(stock, *stays);
            }
            FeedingRow::Feed { weighed, .. } => {
                assert!(weighed.discard >= Weight::ZERO);
                assert_eq!(weighed.discard.try_add(weighed.old).unwrap(), stock);
                let added = Weight::try_sum(weighed.parts.iter().copied()).unwrap();
                assert_eq!(added, weighed.added);
                stock = weighed.old.try_add(added).unwrap();
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
        let sheet = FeedingSheet::new("culture", &plan, &parts(), &scales, Vec::new()).unwrap();
        prop_assert_eq!(weighed_again(&sheet), sheet.left);
        let asked: i64 = masses.iter().sum();
        prop_assert!(sheet.taken.as_exact() >= grams(asked));
        let coarsest = divisions.iter().map(|(division, _)| *division).max().unwrap_or(10);
        for (weighed, exact) in sheet.feedings() {
            let off = (weighed.made.as_exact().grams() - exact.made().grams()).abs();
            // What is taken is rounded up as well, and made for.
            prop_assert!(off < Exact::from(4 * coarsest), "{off} at {}", exact.at);
        }
    }
}

/// Nine days are a week and two days. By hand, from the last feeding back: 100 g become 200 g, and before each morning's 300 g
/// are taken, 200 g become 400 g, 250 g 500 g and so on up to 299.21875 g on the first day. That day 2000 g less 300 g stand in
/// the tub, and later ones throw nothing away.
#[test]
fn what_each_week_throws_away() {
    let plan = planned(&[300; 9], Some(2000), false);
    let sheet = FeedingSheet::new("culture", &plan, &parts(), &[], Vec::new()).unwrap();
    let weeks: Vec<(String, String)> =
        sheet.weeks.iter().map(|(from, lost)| (from.to_string(), lost.to_string())).collect();
    let of = |from: &str, lost: &str| (from.to_owned(), lost.to_owned());
    assert_eq!(weeks, [of("2026-12-01", "1400.8"), of("2026-12-08", "0")]);
}
