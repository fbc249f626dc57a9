//! What a formula looks like as text.

use std::sync::Arc;

use insta::assert_snapshot;
use levamen::ListedDough;
use levamen_balance::Batch;
use levamen_quantity::{Exact, Mass};
use levamen_sheets::FormulaSheet;
use levamen_views::text;

use crate::doughs;

fn formula(batch: Batch<'_>) -> String {
    text::formula(&FormulaSheet::new(batch).unwrap())
}

#[test]
fn poolish() {
    assert_snapshot!(formula(doughs::poolish_bread().batch()));
}

#[test]
fn a_seed_given_back_and_pieces() {
    assert_snapshot!(formula(doughs::seed_given_back().batch()));
}

#[test]
fn pieces_at_another_size() {
    let balance = doughs::seed_given_back();
    assert_snapshot!(formula(balance.with_flour(Mass::from_grams(Exact::from(5000)))));
}

#[test]
fn left_over_levain() {
    assert_snapshot!(formula(doughs::left_over().batch()));
}

#[test]
fn builds_in_builds_and_steam() {
    assert_snapshot!(formula(doughs::nested_and_steam().batch()));
}

#[test]
fn effective_hydration_where_it_differs() {
    assert_snapshot!(formula(doughs::straight_with_milk().batch()));
}

#[test]
fn a_stage_taken_twice_and_a_piece_of_dough() {
    assert_snapshot!(formula(doughs::shared_levain().batch()));
}

#[test]
fn a_list() {
    let balances = [doughs::poolish_bread(), doughs::nested_and_steam(), doughs::straight_with_milk()];
    let mut entries: Vec<ListedDough> = balances
        .iter()
        .map(|balance| ListedDough {
            dough: balance.dough.clone(),
            file: "breads.dough".to_owned(),
            balance: Some(Arc::new(balance.clone())),
        })
        .collect();
    entries.push(ListedDough {
        dough: "Half written".to_owned(),
        file: "trials.dough".to_owned(),
        balance: None,
    });
    assert_snapshot!(text::list(&entries));
}
