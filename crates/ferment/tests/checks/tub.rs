//! Room in the tub.

use levamen_ferment::{Tubs, density, pick, volume};
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

#[test]
fn the_smallest_that_holds_four_times_the_volume() {
    let tubs = [litres(20), litres(5), litres(10)];
    // A kilogram at 100 % hydration is 0.85 l and takes 3.4 l.
    let fresh = volume(&kilograms(1), &percent(100.0)).unwrap();
    assert_eq!(pick(&fresh, &tubs), Some(Tubs { size: litres(5), count: 1 }));
    // 34 l: two of 20 l, and not seven of 5 l.
    let fresh = volume(&kilograms(10), &percent(100.0)).unwrap();
    assert_eq!(pick(&fresh, &tubs), Some(Tubs { size: litres(20), count: 2 }));
    // 7 l in two tubs: the 10 l would do alone, so it does.
    assert_eq!(pick(&litres(2), &tubs), Some(Tubs { size: litres(10), count: 1 }));
    assert_eq!(pick(&litres(2), &[]), None);
    assert_eq!(pick(&litres(2), &[litres(0)]), None);
}

proptest! {
    #[test]
    fn tubs_hold_it_and_one_fewer_does_not(fresh in 0_i64..1000, sizes in prop::collection::vec(1_i64..60, 1..5)) {
        let tubs: Vec<Volume> = sizes.iter().copied().map(litres).collect();
        let found = pick(&litres(fresh), &tubs).unwrap();
        let size = (found.size.millilitres() / &Exact::from(1000)).to_i64().unwrap();
        let count = i64::from(found.count);
        prop_assert!(size * count >= 4 * fresh);
        let largest = sizes.iter().max().unwrap();
        prop_assert!(count == 1 || largest * (count - 1) < 4 * fresh);
        prop_assert!(sizes.iter().all(|other| *other >= size || other * count < 4 * fresh));
    }
}
