//! A dough can be written from its overall formula, from its stages on their own flour, and from plain weights; all
//! three give the same figures, exactly.

use levamen_balance::Balance;
use levamen_quantity::{Exact, MassUnit};
use levamen_tests::generator::decimal_doughs;
use levamen_tests::matrix::{differences, of_balance};
use levamen_tests::oracle::solve;
use levamen_tests::read::last_dough;
use levamen_tests::ways::{from_stages, from_weights};
use proptest::prelude::*;

fn balanced(text: &str) -> Result<Balance, TestCaseError> {
    last_dough(text).map_err(|problems| TestCaseError::fail(format!("{problems}\n\n{text}")))
}

/// Compares every figure of two texts, the size included.
fn same(one: &str, other: &str) -> Result<(), TestCaseError> {
    let (first, second) = (balanced(one)?, balanced(other)?);
    let matrix = |balance| of_balance(balance).map_err(TestCaseError::fail);
    let wrong = differences(&matrix(&first)?, &matrix(&second)?);
    prop_assert!(wrong.is_empty(), "{}\n\n{one}\n\n{other}", wrong.join("\n"));
    prop_assert_eq!(first.size.flour(), second.size.flour(), "{}\n\n{}", one, other);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn overall_stages_and_weights_agree(model in decimal_doughs()) {
        let weights = solve(&model).unwrap();
        let overall = model.document().text();
        let stages = from_stages(&model, &weights).expect("short decimals").text();
        let grams = from_weights(&model, &weights, MassUnit::Gram).expect("short decimals").text();
        same(&overall, &stages)?;
        same(&overall, &grams)?;
    }

    #[test]
    fn units_do_not_matter(model in decimal_doughs()) {
        let weights = solve(&model).unwrap();
        let grams = from_weights(&model, &weights, MassUnit::Gram).expect("short decimals").text();
        for unit in [MassUnit::Kilogram, MassUnit::Pound, MassUnit::Ounce] {
            let text = from_weights(&model, &weights, unit).expect("short decimals").text();
            same(&grams, &text)?;
        }
    }

    #[test]
    fn the_order_of_lines_and_sections_does_not_matter(model in decimal_doughs(), seed in any::<u64>()) {
        let weights = solve(&model).unwrap();
        let ways = [
            model.document(),
            from_stages(&model, &weights).expect("short decimals"),
            from_weights(&model, &weights, MassUnit::Gram).expect("short decimals"),
        ];
        for document in ways {
            same(&document.text(), &document.shuffled(seed).text())?;
        }
    }

    #[test]
    fn scaling_there_and_back_is_the_identity(model in decimal_doughs(), times in 1_u32..1000, over in 1_u32..1000) {
        let balance = balanced(&model.document().text())?;
        let batch = balance.batch();
        let flour = batch.flour().grams().clone();
        let factor = &Exact::from(times) / &Exact::from(over);
        let scaled = balance.with_flour(levamen_quantity::Mass::from_grams(&flour * &factor));
        // Back by the flour, and by the weight of any line.
        let dough = scaled.mass(&balance.weight);
        let back = balance.where_weighs(&balance.weight, &levamen_quantity::Mass::from_grams(dough.grams() / &factor));
        let back = back.expect("a dough weighs something");
        prop_assert_eq!(back.flour(), batch.flour());
        prop_assert!(back.weights().eq(batch.weights()));
        for (one, other) in batch.weights().zip(scaled.weights()) {
            prop_assert_eq!(one.grams() * &factor, other.grams().clone());
        }
    }
}
