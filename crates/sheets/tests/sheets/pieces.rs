//! Pieces of a batch.

use levamen_quantity::{Exact, Mass};
use levamen_sheets::BatchPieces;

use crate::doughs;

#[test]
fn as_many_as_the_dough_asks_for_at_its_own_size() {
    let pieces = BatchPieces::of(&doughs::seed_given_back().batch()).unwrap().unwrap();
    assert_eq!((pieces.count, pieces.as_asked), (18, true));
}

#[test]
fn whole_ones_after_the_loss_at_another_size() {
    // 1.8 kg of dough from 1 kg of flour, 60 g each: 499 g of flour give 898.2 g, a little short of 15 pieces.
    let balance = doughs::straight_with_milk();
    let pieces = BatchPieces::of(&balance.with_flour(Mass::from_grams(Exact::from(499)))).unwrap().unwrap();
    assert_eq!((pieces.count, pieces.as_asked), (14, false));
}

#[test]
fn none_where_nothing_says_what_one_weighs() {
    assert_eq!(BatchPieces::of(&doughs::poolish_bread().batch()).unwrap(), None);
}
