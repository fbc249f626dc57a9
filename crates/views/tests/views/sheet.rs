//! What a bench sheet looks like as text.

use insta::assert_snapshot;
use levamen_balance::Balance;
use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass};
use levamen_sheets::Sheet;
use levamen_views::text;

use crate::doughs;
use crate::kitchen::{grams, kitchen};

fn mass(figure: &str) -> Mass {
    Mass::from_grams(grams(figure))
}

fn sheet(balance: &Balance) -> String {
    text::sheet(&Sheet::new(&balance.batch(), &[]).unwrap())
}

fn sheet_of_dough(balance: &Balance, dough: &str) -> String {
    text::sheet(&Sheet::new(&balance.where_weighs(&balance.weight, &mass(dough)).unwrap(), &[]).unwrap())
}

#[test]
fn poolish() {
    assert_snapshot!(sheet(&doughs::poolish_bread()));
}

#[test]
fn a_seed_given_back_and_pieces() {
    assert_snapshot!(sheet(&doughs::seed_given_back()));
}

#[test]
fn a_seed_given_back_from_a_later_build() {
    assert_snapshot!(sheet(&doughs::seed_given_back_later()));
}

#[test]
fn left_over_levain() {
    assert_snapshot!(sheet(&doughs::left_over()));
}

#[test]
fn builds_in_builds_and_steam() {
    assert_snapshot!(sheet(&doughs::nested_and_steam()));
}

#[test]
fn a_stage_taken_twice_and_a_piece_of_dough() {
    assert_snapshot!(sheet(&doughs::shared_levain()));
}

#[test]
fn loads_past_counting_are_not_counted_wrongly() {
    let text = sheet_of_dough(&doughs::poolish_bread(), "9999999999999999999999999999");
    assert!(text.contains("more loads than can be counted"), "{text}");
    assert!(!text.contains(" x "), "{text}");
}

#[test]
fn five_tonnes_in_many_loads() {
    assert_snapshot!(sheet_of_dough(&doughs::seed_given_back(), "5000000"));
}

#[test]
fn three_hundred_grams_with_dilutions() {
    assert_snapshot!(sheet_of_dough(&doughs::poolish_bread(), "300"));
}

#[test]
fn three_grams_leave_nothing_to_dilute_with() {
    assert_snapshot!(sheet_of_dough(&doughs::nested_and_steam(), "3"));
}

#[test]
fn no_water_to_dilute_with() {
    assert_snapshot!(sheet_of_dough(&doughs::straight_with_milk(), "1000"));
}

#[test]
fn a_scale_of_the_bakery_itself() {
    let balance = doughs::poolish_bread();
    let tenth_of_an_ounce = &mass("28.349523125").grams().clone() / &Exact::from(10);
    let scale = Scale {
        name: "spring balance".to_owned(),
        division: Mass::from_grams(tenth_of_an_ounce),
        capacity: mass("4535.9237"),
    };
    assert_snapshot!(text::sheet(&Sheet::new(&balance.batch(), &[scale]).unwrap()));
}

#[test]
fn what_no_scale_shows_is_not_weighed_with_care() {
    let text = sheet(
        &kitchen("test").last(|tub| tub.add("white flour", "400").add("water", "0.1").add("yeast", "0.019")),
    );
    assert!(text.contains("* yeast: 0.019 g is less than the"), "{text}");
    assert!(!text.contains("0.019 g is under twenty"), "{text}");
}
