//! A formula for reading: what follows from its size, exact.

use levamen_language::{Kind, SeedFate};
use levamen_quantity::{Exact, Mass, Share};
use levamen_sheets::FormulaSheet;

use crate::doughs;
use crate::kitchen::{grams, kitchen};

fn mass(figure: &str) -> Mass {
    Mass::from_grams(grams(figure))
}

/// 269.46 g of seed on 1347.3 g of flour are 20 %; the final dough has none of its own.
#[test]
fn the_seed_of_a_stage_is_on_its_own_flour() {
    let balance = doughs::seed_given_back();
    let sheet = FormulaSheet::new(balance.batch()).unwrap();
    let seed = sheet.seeds[0].as_ref().unwrap();
    assert_eq!(seed.mass, mass("269.46"));
    assert_eq!(seed.of_own_flour, Some(Share::from_percent(Exact::from(20))));
    assert_eq!(sheet.seeds[1], None);
}

#[test]
fn two_seeds_of_a_stage_are_one_sum() {
    let balance = kitchen("test").ahead("levain", Kind::Levain, |tub| {
        let tub = tub.add("white flour", "100").add("water", "100");
        tub.seed("one culture", "10", SeedFate::Stays).seed("other culture", "15", SeedFate::Stays)
    });
    let balance = balance.last(|tub| tub.take(0, "levain", "225").add("white flour", "300"));
    let sheet = FormulaSheet::new(balance.batch()).unwrap();
    let seed = sheet.seeds[0].as_ref().unwrap();
    assert_eq!((&seed.mass, &seed.of_own_flour), (&mass("25"), &Some(Share::from_percent(Exact::from(25)))));
}

/// Milk of 600 g holds 528 g of water, and none is added: the hydration says nothing of how soft the dough is. A poolish bread has
/// all its water as water.
#[test]
fn a_dough_of_milk_is_softer_than_its_added_water_says() {
    let [milk, bread] = [doughs::straight_with_milk(), doughs::poolish_bread()];
    assert!(FormulaSheet::new(milk.batch()).unwrap().is_mostly_in_others);
    assert!(!FormulaSheet::new(bread.batch()).unwrap().is_mostly_in_others);
}

/// 30 buns of 60 g are 1800 g, the dough is 1000 + 600 + 120 + 60 + 18 + 2 = 1800 g. With half the flour there is dough for 15, and
/// with a gram less of flour for 29: of 1798.2 g, 58.2 g are over.
#[test]
fn pieces_are_those_that_there_is_dough_for() {
    let balance = doughs::straight_with_milk();
    let whole = FormulaSheet::new(balance.batch()).unwrap();
    let pieces = whole.pieces.unwrap();
    assert_eq!((pieces.count, pieces.as_asked, pieces.mass()), (30, true, mass("1800")));
    assert_eq!((whole.weight, whole.to_divide, whole.short), (mass("1800"), mass("1800"), Mass::ZERO));
    let half = FormulaSheet::new(balance.with_flour(mass("500"))).unwrap().pieces.unwrap();
    assert_eq!((half.count, half.as_asked), (15, false));
    let less = FormulaSheet::new(balance.with_flour(mass("999"))).unwrap();
    let pieces = less.pieces.unwrap();
    assert_eq!((pieces.count, pieces.as_asked), (29, false));
    assert_eq!(&less.to_divide - &pieces.mass(), mass("58.2"));
}

/// Of a dough of 1000 g of which 2 % are lost, 980 g are left: two pieces of 500 g lack 20 g.
#[test]
fn what_is_lost_is_not_divided() {
    let balance =
        kitchen("test").pieces(2, "500", "2").last(|tub| tub.add("white flour", "600").add("water", "400"));
    let sheet = FormulaSheet::new(balance.batch()).unwrap();
    assert_eq!(sheet.loss, Share::from_percent(Exact::from(2)));
    assert_eq!((sheet.to_divide, sheet.short), (mass("980"), mass("20")));
}

/// A piece of 100 g of its own last batch goes into a dough of 1100 g in all, and as much is kept for the next one.
#[test]
fn a_piece_of_the_last_batch_is_kept_for_the_next() {
    let balance = kitchen("test")
        .last(|tub| tub.add("white flour", "600").add("water", "400").piece("this dough", "100"));
    let sheet = FormulaSheet::new(balance.batch()).unwrap();
    assert_eq!((sheet.weight, sheet.kept_back, sheet.to_divide), (mass("1100"), mass("100"), mass("1000")));
    assert_eq!((sheet.pieces, sheet.short), (None, Mass::ZERO));
}
