//! Where a remark begins, what an answer carries beside its figure, and constants worked out beside the code.

use levamen_ferment::{
    Constituents, GrowthCurve, Leaven, RipeningReference, Seed, Strength, TemperatureCourse, Yeast,
    YeastKind, yeast_amount, yeast_time,
};
use levamen_quantity::Share;

use crate::common::{celsius, exact, hours, in_hours, percent};

fn seed(of_flour: f64, sour: bool) -> Leaven {
    Leaven::Seed(Seed { of_flour: percent(of_flour), beside: percent(200.0), sour })
}

fn reference(sour: bool) -> RipeningReference {
    RipeningReference::new(seed(20.0, sour), &hours(12.0), None, &celsius(21.0)).unwrap()
}

fn instant(of_flour: f64) -> Leaven {
    Leaven::Yeast(Yeast {
        name: "instant yeast".to_owned(),
        strength: Strength::usual(YeastKind::Instant),
        of_flour: percent(of_flour),
    })
}

/// What is said of a room that is always so warm.
fn said(sour: bool, degrees: f64) -> Vec<&'static str> {
    // A quick one, so that it is ripe within three days in the cold too.
    let reference = RipeningReference::new(seed(20.0, sour), &hours(3.0), None, &celsius(26.0)).unwrap();
    let course = TemperatureCourse::constant(&celsius(degrees));
    let answer = reference.ready(reference.leaven(), &course, None).unwrap();
    answer.remarks.iter().map(|remark| remark.code).collect()
}

/// A culture loses aroma under 10 °C, and not at 10 °C; no rate was read under 14 °C. The yeasts of a sour drop out over 32 °C.
#[test]
fn a_remark_is_made_from_its_own_temperature_on() {
    assert_eq!(said(false, 10.0), ["colder-than-printed"]);
    assert_eq!(said(false, 9.9), ["cold-culture", "colder-than-printed"]);
    assert_eq!(said(false, 14.0), [""; 0]);
    assert_eq!(said(true, 30.0), [""; 0]);
    assert_eq!(said(true, 32.0), [""; 0]);
    assert_eq!(said(true, 32.1), ["yeasts-drop-out"]);
}

#[test]
fn a_temperature_that_was_found_is_said_to_be_the_cooler_of_two() {
    let reference = reference(false);
    let found = reference.temperature(reference.leaven(), &hours(10.0)).unwrap();
    assert_eq!(found.remarks.iter().map(|remark| remark.code).collect::<Vec<_>>(), ["cooler-of-two"]);
}

#[test]
fn a_leaven_in_another_amount_is_otherwise_the_same() {
    assert_eq!(instant(0.1).with(percent(0.2)), instant(0.2));
    assert_eq!(seed(20.0, true).with(percent(5.0)), seed(5.0, true));
}

/// 120 steps over 20 h are 10 min each. All is at 21 °C; half of the 12 h of ripening are done after 6 h.
#[test]
fn a_curve_is_sampled_evenly_over_the_time_that_is_asked_for() {
    let reference = reference(false);
    let course = TemperatureCourse::constant(&celsius(21.0));
    let GrowthCurve { samples, of_culture } =
        reference.curve(reference.leaven(), &course, None, &hours(20.0)).unwrap();
    assert_eq!((samples.len(), of_culture), (121, true));
    for (index, sample) in (0_u32..).zip(&samples) {
        assert!((sample.hours - f64::from(index) / 6.0).abs() < 1e-9, "{sample:?}");
        assert!((sample.celsius - 21.0).abs() < 1e-9, "{sample:?}");
        assert!((sample.ripeness - (sample.hours / 12.0).min(1.0)).abs() < 1e-9, "{sample:?}");
        // 20 parts in 220 grow elevenfold in 12 h, by the same factor in each.
        let grown = (11_f64.powf(sample.hours / 12.0) / 11.0).min(1.0);
        assert!((sample.yeasts - grown).abs() < 1e-9, "{sample:?}");
    }
}

/// At 21 °C, where growth and gas are as quick as each other: formulas that have least yeast for a time are ripe sooner with
/// more, by the same factor, since half the yeast takes nearly twice the time.
#[test]
fn the_spread_of_times_is_that_of_the_amounts() {
    let instant = Strength::usual(YeastKind::Instant);
    let amounts = yeast_amount(&instant, &hours(8.0), &celsius(21.0)).unwrap().found;
    let times = yeast_time(&instant, &amounts.likely, &celsius(21.0)).unwrap().found;
    let part = |one: &Share, whole: &Share| one.fraction().to_f64() / whole.fraction().to_f64();
    let (least, most) =
        (in_hours(&times.least) / in_hours(&times.likely), in_hours(&times.most) / in_hours(&times.likely));
    assert!((least - part(&amounts.least, &amounts.likely)).abs() < 0.03, "{times:?} {amounts:?}");
    assert!((most - part(&amounts.most, &amounts.likely)).abs() < 0.03, "{times:?} {amounts:?}");
    assert!(least < 0.8 && most > 1.2, "{times:?}");
}

/// c = a + b T + c T² at 50 °C with the constants of Choi and Okos, worked out by hand, in kJ/(kg K): water
/// 4.1762 - 0.004545 + 0.01368275, protein 2.0082 + 0.060445 - 0.00328225, fat 1.9842 + 0.073665 - 0.012002, carbohydrate
/// 1.5488 + 0.098125 - 0.01484975, ash 1.0926 + 0.09448 - 0.00920425.
#[test]
fn the_specific_heat_of_each_constituent_alone() {
    let none = || percent(0.0);
    let nothing = || Constituents { water: none(), protein: none(), fat: none(), ash: none() };
    let all = percent(100.0);
    for (alone, heat) in [
        (Constituents { water: all.clone(), ..nothing() }, 4.185_337_75),
        (Constituents { protein: all.clone(), ..nothing() }, 2.065_362_75),
        (Constituents { fat: all.clone(), ..nothing() }, 2.045_863),
        (nothing(), 1.632_075_25),
        (Constituents { ash: all, ..nothing() }, 1.177_875_75),
    ] {
        let found = alone.specific_heat(&celsius(50.0));
        assert!((found.kilojoules().to_f64() - heat).abs() < 1e-9, "{alone:?} {found:?}");
    }
    // Half of each: half of both, and of a mixture by weight the same.
    let half = Constituents { water: percent(50.0), ..nothing() }.specific_heat(&celsius(50.0));
    assert_eq!((half.kilojoules() * &exact(2.0)).to_decimal_string(), "5.817413");
}
