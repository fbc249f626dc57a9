//! A sheet gives the pieces that it is made for.

use levamen_balance::Balance;
use levamen_formula::Scale;
use levamen_language::Kind;
use levamen_quantity::Mass;
use levamen_sheets::{LineSource, Sheet};
use proptest::prelude::*;

use crate::kitchen::{grams, kitchen};

/// A dough of so much flour, with a poolish, that is divided into pieces of what it weighs after a loss.
fn dough(flour: u32, water: u32, poolish: u32, count: u64, loss: u32) -> Balance {
    let (flour, water, poolish) = (flour * 100, flour * water, flour * poolish);
    let (salt, left) = (flour / 50 + 1, 100 - loss);
    let whole = grams(&(flour + water + salt).to_string());
    let divided = &(&whole * &grams(&left.to_string())) / &grams("100");
    let piece = &divided / &grams(&count.to_string());
    let piece = &(&piece * &grams("1000")).floor() / &grams("1000");
    kitchen("Loaf")
        .pieces(count, &piece.to_fixed(3), &loss.to_string())
        .ahead("poolish", Kind::Poolish, |tub| {
            tub.add("flour", &poolish.to_string()).add("water", &poolish.to_string())
        })
        .last(|tub| {
            let tub = tub.add("flour", &(flour - poolish).to_string());
            tub.add("water", &(water - poolish).to_string()).add("salt", &salt.to_string()).take(
                0,
                "poolish",
                &(poolish + poolish).to_string(),
            )
        })
}

#[test]
fn thirty_kilograms_are_thirty_kilograms() {
    let balance = kitchen("Loaf")
        .pieces(30, "1000", "0")
        .last(|tub| tub.add("flour", "17964.07").add("water", "11676.65").add("salt", "359.28"));
    let sheet = Sheet::new(&balance.batch(), &Scale::usual()).unwrap();
    assert_eq!(sheet.batch.to_string(), "30009.3");
    assert_eq!((sheet.to_divide, sheet.short), (Some(sheet.batch.as_exact()), Mass::ZERO));
}

proptest! {
    #[test]
    fn pieces_come_out_and_no_line_moves_by_a_division(
        flour in 1_u32..900,
        water in 55_u32..90,
        poolish in 1_u32..40,
        count in 1_u64..200,
        loss in 0_u32..6,
    ) {
        let balance = dough(flour, water, poolish, count, loss);
        let sheet = Sheet::new(&balance.batch(), &Scale::usual()).unwrap();
        let pieces = sheet.pieces.clone().unwrap();
        let to_divide = sheet.to_divide.clone().unwrap();
        prop_assert_eq!(&to_divide, &sheet.loss.rest().of(&sheet.batch.as_exact()));
        prop_assert!(to_divide >= pieces.mass(), "{} of {}", to_divide.grams(), pieces.mass().grams());
        prop_assert_eq!(sheet.short, Mass::ZERO);
        for line in sheet.stages.iter().flat_map(|stage| &stage.lines) {
            if let LineSource::Weighed(on) = &line.source {
                let moved = (&line.weight.as_exact() - &line.exact).grams().abs();
                prop_assert!(moved < *on.scale.division.grams());
            }
        }
    }
}
