//! Small weights and what is offered for them.

use levamen_balance::{Balance, BalancedItem};
use levamen_quantity::{Exact, Mass};
use levamen_sheets::{Dilution, LineSheet, Sheet, SmallWeightRemedy, StageSheet, Weight};
use rust_decimal::Decimal;

use crate::doughs;
use crate::kitchen::{grams, kitchen};

fn mass(figure: &str) -> Mass {
    Mass::from_grams(grams(figure))
}

/// What a scale shows, in grams.
fn shown(figure: &str) -> Weight {
    Weight::from_grams(Decimal::from_str_exact(figure).unwrap())
}

/// A dough with so much water and yeast, in grams.
fn dough(water: &str, yeast: &str) -> Balance {
    kitchen("test").last(|tub| tub.add("white flour", "400").add("water", water).add("yeast", yeast))
}

fn remedy_of_yeast(balance: &Balance) -> Option<SmallWeightRemedy> {
    let sheet = Sheet::new(&balance.batch(), &[]).unwrap();
    sheet.stages[0].lines[2].remedy.clone()
}

#[test]
fn twenty_divisions_need_nothing() {
    assert_eq!(remedy_of_yeast(&dough("280", "2")), None);
}

#[test]
fn one_part_in_ten_where_that_is_enough() {
    let expected = Dilution {
        one_part_in: 10,
        make_up: shown("2"),
        make_up_water: shown("18"),
        weigh: shown("3.5"),
        water_less: shown("3.2"),
        still_small: false,
    };
    assert_eq!(remedy_of_yeast(&dough("280", "0.35")), Some(SmallWeightRemedy::Dilute(expected)));
}

#[test]
fn one_part_in_a_hundred_where_ten_is_not() {
    let Some(SmallWeightRemedy::Dilute(dilution)) = remedy_of_yeast(&dough("280", "0.19")) else {
        panic!("no dilution")
    };
    assert_eq!((dilution.one_part_in, dilution.weigh, dilution.still_small), (100, shown("19"), false));
}

#[test]
fn a_hundredth_that_is_still_small_says_so() {
    let Some(SmallWeightRemedy::Dilute(dilution)) = remedy_of_yeast(&dough("280", "0.019")) else {
        panic!("no dilution")
    };
    assert_eq!((dilution.one_part_in, dilution.weigh, dilution.still_small), (100, shown("1.9"), true));
}

#[test]
fn the_water_must_be_there() {
    let refused = SmallWeightRemedy::TooLittleWater { wanted: mass("18.81"), there: shown("18") };
    assert_eq!(remedy_of_yeast(&dough("18", "0.19")), Some(refused));
}

#[test]
fn two_dilutions_share_the_water() {
    let balance = kitchen("test").last(|tub| {
        tub.add("white flour", "400").add("water", "25").add("yeast", "0.19").add("malt", "0.19")
    });
    let sheet = Sheet::new(&balance.batch(), &[]).unwrap();
    let remedy = |index: usize| sheet.stages[0].lines[index].remedy.clone();
    assert!(matches!(remedy(2), Some(SmallWeightRemedy::Dilute(_))));
    assert_eq!(
        remedy(3),
        Some(SmallWeightRemedy::TooLittleWater { wanted: mass("18.81"), there: shown("6.2") })
    );
}

#[test]
fn flour_and_water_are_marked_and_not_diluted() {
    let balance = doughs::poolish_bread();
    let tiny = balance.where_weighs(&balance.weight, &mass("1")).unwrap();
    let lines = Sheet::new(&tiny, &[]).unwrap().stages.swap_remove(0).lines;
    assert_eq!(
        [&lines[0].remedy, &lines[1].remedy],
        [&Some(SmallWeightRemedy::Care), &Some(SmallWeightRemedy::Care)]
    );
}

#[test]
fn a_hundredth_that_no_scale_shows_is_no_help() {
    assert_eq!(remedy_of_yeast(&dough("280", "0.0004")), Some(SmallWeightRemedy::Care));
}

/// What holds of every stage: a dilution brings the exact weight to within half a division of the mixture, and all
/// of them together take no more water than the stage has.
pub fn holds(stage: &StageSheet) -> bool {
    let dilutions = || stage.lines.iter().filter_map(dilution);
    let brings_enough = dilutions().all(|(exact, dilution)| {
        let parts = Exact::from(i64::from(dilution.one_part_in));
        let change = (dilution.weigh.as_exact().grams() - &(exact.grams() * &parts)).abs();
        // At twenty divisions, half a division is a fortieth; at half a division, all of it.
        change <= &(exact.grams() * &parts) / &Exact::from(if dilution.still_small { 1 } else { 40 })
    });
    let less: Exact = dilutions().map(|(_, dilution)| dilution.water_less.as_exact().grams().clone()).sum();
    let is_water = |line: &&LineSheet| matches!(line.item, BalancedItem::Ingredient { is_water: true, .. });
    let water: Exact =
        stage.lines.iter().filter(is_water).map(|line| line.weight.as_exact().grams().clone()).sum();
    brings_enough && less <= water
}

fn dilution(line: &LineSheet) -> Option<(&Mass, &Dilution)> {
    match &line.remedy {
        Some(SmallWeightRemedy::Dilute(dilution)) => Some((&line.exact, dilution)),
        Some(SmallWeightRemedy::TooLittleWater { .. } | SmallWeightRemedy::Care) | None => None,
    }
}
