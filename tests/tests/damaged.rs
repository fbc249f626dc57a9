//! Whatever slips into a text, each of its doughs either adds up and is as stated, or is refused with a reason.

use levamen_quantity::MassUnit;
use levamen_tests::audit::verified;
use levamen_tests::damage::damaged;
use levamen_tests::generator::{decimal_doughs, doughs};
use levamen_tests::oracle::solve;
use levamen_tests::ways::{from_stages, from_weights};
use proptest::prelude::*;

fn check(text: &str, seed: u64) -> Result<(), TestCaseError> {
    let text = damaged(text, seed);
    verified(&text).map(drop).map_err(|wrong| TestCaseError::fail(format!("{wrong}\n\n{text}")))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn overall_formulas(model in doughs(), seed in any::<u64>()) {
        check(&model.document().text(), seed)?;
    }

    #[test]
    fn stages_and_weights(model in decimal_doughs(), seed in any::<u64>()) {
        let weights = solve(&model).expect("a model settles every weight");
        let stages = from_stages(&model, &weights).expect("short decimals");
        check(&stages.text(), seed)?;
        let grams = from_weights(&model, &weights, MassUnit::Gram).expect("short decimals");
        check(&grams.text(), seed)?;
    }
}
