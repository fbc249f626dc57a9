//! Room in the tub.

use levamen_ferment::{Tubs, density, headroom, pick_tubs, volume};
use levamen_quantity::{Exact, Mass, Volume, VolumeUnit};
use proptest::prelude::*;

use crate::common::percent;

fn litres(figure: i64) -> Volume {
    Volume::from_unit(Exact::from(figure), VolumeUnit::Litre)
}

fn kilograms(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(1000 * figure))
}

#[test]
fn a_fluid_pre_ferment_is_lighter_than_a_stiff_one() {
    let figure = |hydration| density(&percent(hydration)).unwrap().grams_per_millilitre().to_fixed(2);
    assert_eq!([50.0, 100.0, 125.0].map(figure), ["1.25", "1.18", "1.15"]);
}

/// A liquid pre-ferment takes two to three times its volume, a stiff one three to four.
#[test]
fn room_goes_with_how_firm_it_is() {
    let found = |hydration| {
        let room = headroom(&percent(hydration));
        (room.kind, room.least, room.better)
    };
    for (hydration, expected) in [
        (125.0, ("liquid", 2, 3)),
        (90.0, ("liquid", 2, 3)),
        (80.0, ("soft", 3, 4)),
        (65.0, ("stiff", 3, 4)),
        (45.0, ("stiff", 3, 4)),
    ] {
        assert_eq!(found(hydration), expected, "{hydration}");
    }
}

/// 4.6 kg of liquid levain, 3.9 l, was given a tub of 40 l where there was none of 20.
#[test]
fn a_small_levain_is_not_given_the_largest_tub() {
    let tubs = [litres(10), litres(40)];
    let made = Mass::from_grams(Exact::from(4600));
    let hydration = percent(100.0);
    let fresh = volume(&made, &hydration).unwrap();
    assert_eq!(pick_tubs(&fresh, headroom(&hydration), &tubs), Some(Tubs { size: litres(10), count: 1 }));
}

#[test]
fn the_smallest_that_holds_it_risen() {
    let tubs = [litres(20), litres(5), litres(10)];
    let liquid = headroom(&percent(100.0));
    // A kilogram at 100 % hydration is 0.85 l and takes 1.7 l.
    let fresh = volume(&kilograms(1), &percent(100.0)).unwrap();
    assert_eq!(pick_tubs(&fresh, liquid, &tubs), Some(Tubs { size: litres(5), count: 1 }));
    // 34 l: two of 20 l, and not seven of 5 l.
    let fresh = volume(&kilograms(20), &percent(100.0)).unwrap();
    assert_eq!(pick_tubs(&fresh, liquid, &tubs), Some(Tubs { size: litres(20), count: 2 }));
    // 9 l: two of 5 l would do, the 10 l does alone.
    assert_eq!(
        pick_tubs(&litres(3), headroom(&percent(50.0)), &tubs),
        Some(Tubs { size: litres(10), count: 1 })
    );
    assert_eq!(pick_tubs(&litres(2), liquid, &[]), None);
    assert_eq!(pick_tubs(&litres(2), liquid, &[litres(0)]), None);
}

proptest! {
    #[test]
    fn tubs_hold_it_and_one_fewer_does_not(
        fresh in 0_i64..1000,
        hydration in 40.0..150.0_f64,
        sizes in prop::collection::vec(1_i64..60, 1..5),
    ) {
        let tubs: Vec<Volume> = sizes.iter().copied().map(litres).collect();
        let room = headroom(&percent(hydration));
        let found = pick_tubs(&litres(fresh), room, &tubs).unwrap();
        let size = (found.size.millilitres() / &Exact::from(1000)).to_i64().unwrap();
        let count = i64::from(found.count);
        let risen = room.least * fresh;
        prop_assert!(size * count >= risen);
        let largest = sizes.iter().max().unwrap();
        prop_assert!(count == 1 || largest * (count - 1) < risen);
        prop_assert!(sizes.iter().all(|other| *other >= size || other * count < risen));
    }
}
