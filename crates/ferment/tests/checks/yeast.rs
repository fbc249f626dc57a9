//! Yeast for hours and hours for yeast, against printed pre-ferments; and what is refused.

use insta::assert_snapshot;
use levamen_ferment::{PUBLISHED, Strength, YeastKind, yeast_amount, yeast_time};
use levamen_quantity::{Share, TimeUnit};
use proptest::prelude::*;

use crate::common::{celsius, drawn, hours, percent};

#[test]
fn every_pre_ferment_that_was_read_lies_within_the_spread() {
    // The spread's ends are rounded to two digits.
    let within = |printed: f64, least: &Share, most: &Share| {
        least.percent().to_f64() * 0.94 <= printed && printed <= most.percent().to_f64() * 1.06
    };
    for row in PUBLISHED.iter().filter(|row| row.read) {
        let found =
            yeast_amount(&Strength::usual(row.kind), &hours(row.hours), &celsius(row.celsius)).unwrap().found;
        assert!(within(row.percent, &found.least, &found.most), "{row:?} {found:?}");
        assert!(!within(row.percent * 5.0, &found.least, &found.most));
    }
}

#[test]
fn twice_the_time_takes_half_the_yeast() {
    let yeast = |long| {
        yeast_amount(&Strength::usual(YeastKind::Fresh), &hours(long), &celsius(21.0))
            .unwrap()
            .found
            .likely
            .percent()
            .to_f64()
    };
    for long in [2.0, 4.0, 8.0] {
        let ratio = yeast(2.0 * long) / yeast(long);
        assert!((0.47..0.53).contains(&ratio), "{ratio}");
    }
}

/// All rows beside the line, those from memory marked: they are held against it and do not carry it.
#[test]
fn printed_pre_ferments_beside_the_line() {
    let shown: Vec<String> = PUBLISHED
        .iter()
        .map(|row| {
            let found = yeast_amount(&Strength::usual(row.kind), &hours(row.hours), &celsius(row.celsius))
                .unwrap()
                .found;
            let mark = if row.read { "" } else { " (from memory)" };
            let likely = found.likely.percent().to_f64();
            format!(
                "{} h: {} %{mark}, line {likely} %, {:.2} of it",
                row.hours,
                row.percent,
                row.percent / likely
            )
        })
        .collect();
    assert_snapshot!(shown.join("\n"));
}

proptest! {
    #[test]
    fn the_time_of_an_amount_is_the_time_it_was_for(long in 2.0..16.0_f64, warm in 15.0..30.0_f64) {
        let yeast = yeast_amount(&Strength::usual(YeastKind::Instant), &hours(long), &celsius(warm));
        prop_assume!(yeast.is_ok());
        let again = yeast_time(&Strength::usual(YeastKind::Instant), &yeast.unwrap().found.likely, &celsius(warm)).unwrap().found.likely;
        // Two digits of yeast are within a twentieth.
        prop_assert!((again.in_unit(TimeUnit::Hour).to_f64() / long - 1.0).abs() < 0.06);
    }

    #[test]
    fn nothing_panics(long in -10.0..1e6_f64, warm in -300.0..1e5_f64, yeast in 0.0..1e6_f64) {
        let _ = yeast_amount(&Strength::usual(YeastKind::Fresh), &hours(long), &celsius(warm));
        let _ = yeast_time(&Strength::usual(YeastKind::Fresh), &percent(yeast), &celsius(warm));
    }
}

#[test]
fn refusals() {
    let amount = |long: f64, warm: f64| {
        yeast_amount(&Strength::usual(YeastKind::Fresh), &hours(long), &celsius(warm)).unwrap_err()
    };
    let time = |share: f64| {
        yeast_time(&Strength::usual(YeastKind::Fresh), &percent(share), &celsius(21.0)).unwrap_err()
    };
    let all = [
        amount(0.0, 21.0),
        amount(100.0, 21.0),
        time(0.003),
        amount(12.0, 2.0),
        amount(12.0, 45.0),
        amount(12.0, 55.0),
        amount(12.0, 70.0),
        amount(0.2, 21.0),
        time(0.0),
        time(20.0),
    ];
    assert_snapshot!(all.each_ref().map(drawn).join("\n"));
}

#[test]
fn an_unusual_time_is_answered_with_a_remark() {
    let answer = yeast_amount(&Strength::usual(YeastKind::Instant), &hours(20.0), &celsius(18.0)).unwrap();
    let remarks: Vec<&str> = answer.remarks.iter().map(|remark| remark.message.as_str()).collect();
    assert_eq!(remarks, ["20 h is outside the usual 2 to 16 h of a yeasted pre-ferment (common practice)"]);
}
