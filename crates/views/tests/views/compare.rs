//! What two doughs side by side look like.

use insta::assert_snapshot;
use levamen_balance::{Balance, Comparison};
use levamen_views::{json, text};

use crate::doughs;

/// Two doughs from the flour of the first.
fn compared(one: &Balance, other: &Balance) -> Comparison {
    let one = one.batch();
    Comparison::new([&one, &other.with_flour(one.flour().clone())])
}

#[test]
fn two_levains_of_different_names() {
    let comparison = compared(&doughs::left_over(), &doughs::seed_given_back());
    assert_snapshot!(text::compare(&comparison));
}

#[test]
fn a_stage_more_and_a_stage_less() {
    let comparison = compared(&doughs::poolish_bread(), &doughs::nested_and_steam());
    assert_snapshot!(text::compare(&comparison));
}

#[test]
fn each_as_it_is_written() {
    let (one, other) = (doughs::poolish_bread(), doughs::straight_with_milk());
    assert_snapshot!(text::compare(&Comparison::new([&one.batch(), &other.batch()])));
}

#[test]
fn a_dough_and_itself() {
    let one = doughs::poolish_bread();
    let comparison = compared(&one, &one);
    let stages = comparison.stages.iter().flat_map(|stage| &stage.lines);
    for row in comparison.rows.iter().chain(stages) {
        let (share, weight) = row.difference();
        assert!(share.unwrap().fraction().is_zero() && weight.grams().is_zero(), "{}", row.name);
    }
    assert_snapshot!(serde_json::to_string_pretty(&json::ComparisonJson::from(&comparison)).unwrap());
}
