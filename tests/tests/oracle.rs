//! Thousands of random doughs, each balanced by the tool and worked out by another method; every weight is compared
//! exactly.

use levamen_tests::generator::doughs;
use levamen_tests::matrix::differences_from_oracle;
use levamen_tests::model::{Model, WATER};
use levamen_tests::oracle::solve;
use levamen_tests::ratio::ratio;
use levamen_tests::read::last_dough;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

/// How many doughs are compared.
const DOUGHS: u32 = 2000;

/// What became of the doughs.
#[derive(Default)]
struct Tally {
    balanced: u32,
    refused: u32,
}

/// The same doughs in every run.
fn runner() -> TestRunner {
    TestRunner::new_with_rng(Config::default(), TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]))
}

/// Compares one dough.
fn compare(model: &Model, tally: &mut Tally) -> Result<(), String> {
    let weights = solve(model)?;
    let text = model.document().text();
    match last_dough(&text) {
        Ok(balance) => {
            assert!(!weights.is_negative(), "less than nothing of something is balanced\n{text}");
            let wrong = differences_from_oracle(&balance, &weights)?;
            assert!(wrong.is_empty(), "{}\n\n{text}", wrong.join("\n"));
            tally.balanced += 1;
        }
        Err(problems) => {
            assert!(weights.is_negative(), "a dough is refused: {problems}\n\n{text}");
            tally.refused += 1;
        }
    }
    Ok(())
}

#[test]
fn every_weight_is_that_of_an_independent_solution() {
    let (mut runner, mut tally) = (runner(), Tally::default());
    let doughs = doughs();
    for _ in 0..DOUGHS {
        let model = doughs.new_tree(&mut runner).unwrap().current();
        compare(&model, &mut tally).unwrap();
    }
    // The doughs must try both: what can be made, and what needs more than there is.
    assert!(tally.balanced > DOUGHS / 2, "only {} doughs can be made", tally.balanced);
    assert!(tally.refused > DOUGHS / 100, "only {} doughs cannot be made", tally.refused);
}

#[test]
fn a_wrong_weight_is_noticed() {
    let mut runner = runner();
    let models = std::iter::repeat_with(|| doughs().new_tree(&mut runner).unwrap().current());
    let balanced = models.filter_map(|model| Some((last_dough(&model.document().text()).ok()?, model)));
    for (balance, mut model) in balanced.take(20) {
        let water = model.overall.iter_mut().find(|part| part.name == WATER).unwrap();
        water.percent += ratio(1, 1000);
        let weights = solve(&model).unwrap();
        assert!(!differences_from_oracle(&balance, &weights).unwrap().is_empty());
    }
}
