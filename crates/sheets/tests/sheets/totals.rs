//! What is weighed in all, how finely it is known and what rounding changed most, with sums worked out on paper.

use levamen_balance::BalancedItem;
use levamen_formula::Scale;
use levamen_language::Kind;
use levamen_quantity::{Exact, Mass, Share};
use levamen_sheets::{LineSource, Sheet, SheetRow, Weight};

use crate::doughs;
use crate::kitchen::{grams, kitchen};

fn mass(figure: &str) -> Mass {
    Mass::from_grams(grams(figure))
}

fn shown(figure: i64) -> Weight {
    Weight::from_grams(figure.into())
}

fn scale(name: &str, division: &str, capacity: &str) -> Scale {
    Scale { name: name.to_owned(), division: mass(division), capacity: mass(capacity) }
}

fn row<'s>(sheet: &'s Sheet, name: &str) -> &'s SheetRow {
    sheet.overall.iter().find(|row| row.name == name).unwrap()
}

/// Poolish 3300 + 3300 + 7, final dough 6700 + 3400 + 200 + 103 and the poolish: every figure is a whole gram, so the sheet has
/// just these.
#[test]
fn the_same_ingredient_is_added_up_over_the_stages() {
    let sheet = Sheet::new(&doughs::poolish_bread().batch(), &[scale("bench", "1", "20000")]).unwrap();
    let weight = |name| row(&sheet, name).weight;
    let [flour, water, salt, yeast] = ["white flour", "water", "salt", "fresh yeast"].map(weight);
    assert_eq!([flour, water, salt, yeast], [shown(10_000), shown(6700), shown(200), shown(110)]);
    assert_eq!(sheet.batch, shown(17_010));
    assert_eq!(sheet.largest_change, None, "nothing was to be rounded");
}

/// A tub that is poured over is not weighed, and not fetched again.
#[test]
fn what_comes_out_of_a_tub_is_not_fetched_twice() {
    let sheet = Sheet::new(&doughs::poolish_bread().batch(), &[]).unwrap();
    assert!(sheet.overall.iter().all(|row| !matches!(row.item, BalancedItem::Stage(_))));
    let poolish = sheet.stages[1].lines.last().unwrap();
    assert_eq!((&poolish.source, poolish.weight), (&LineSource::WholeTub, shown(6607)));
    assert_eq!(sheet.stages[0].taken, shown(6607));
}

/// Yeast of 7 g on a scale of a tenth, the rest on one of 10 g: the poolish is known to a tenth of a gram, for its yeast is,
/// and so is the dough that it goes into.
#[test]
fn a_tub_is_known_as_finely_as_the_finest_in_it() {
    let scales = [scale("fine", "0.1", "50"), scale("floor", "10", "60000")];
    let sheet = Sheet::new(&doughs::poolish_bread().batch(), &scales).unwrap();
    let [poolish, dough] = [&sheet.stages[0], &sheet.stages[1]];
    let divisions: Vec<_> = poolish.lines.iter().map(|line| line.division.clone().unwrap()).collect();
    assert_eq!(divisions, [mass("10"), mass("10"), mass("0.1")]);
    assert_eq!(poolish.division, Some(mass("0.1")));
    assert_eq!(dough.lines.last().unwrap().division, Some(mass("0.1")));
    assert_eq!(sheet.division, Some(mass("0.1")));
    assert_eq!(row(&sheet, "white flour").division, Some(mass("10")));
    assert_eq!(row(&sheet, "fresh yeast").division, Some(mass("0.1")), "103 g are on the floor, 7 g are not");
}

/// 1004 g of flour are 1000 g on a scale of 10 g, 602 g of water are 600 g, 18 g of salt 20 g: sums of the table are 1624 g and may
/// be 1620 g. The flour changed most, by 4 of 1004.
#[test]
fn the_largest_change_is_named_with_its_share_of_the_flour() {
    let balance =
        kitchen("test").last(|tub| tub.add("white flour", "1004").add("water", "602").add("salt", "18"));
    let sheet = Sheet::new(&balance.batch(), &[scale("floor", "10", "60000")]).unwrap();
    let weights: Vec<Weight> = sheet.stages[0].lines.iter().map(|line| line.weight).collect();
    assert_eq!(weights, [shown(1000), shown(600), shown(20)]);
    assert_eq!(sheet.batch, shown(1620));
    let change = sheet.largest_change.unwrap();
    assert_eq!((change.stage.as_str(), change.line.as_str()), ("final dough", "white flour"));
    assert_eq!(change.by, &mass("1000") - &mass("1004"));
    assert_eq!(change.of_all_flour, Share::from_fraction(Exact::ratio(4, 1004).unwrap()));
}

/// Four flours of 2.5 g on a scale of a gram: 10 g in all stay 10 g, two go up and two go down.
#[test]
fn halves_of_a_division_keep_the_sum_of_their_stage() {
    let balance =
        kitchen("test").ahead("soaker", Kind::Soaker, |tub| tub.add("a flour", "2.5").add("b flour", "2.5"));
    let balance = balance.last(|tub| tub.add("c flour", "2.5").add("d flour", "2.5").take(0, "soaker", "5"));
    let sheet = Sheet::new(&balance.batch(), &[scale("bench", "1", "5000")]).unwrap();
    assert_eq!([sheet.stages[0].made, sheet.batch], [shown(5), shown(10)]);
    let mut weights: Vec<Weight> = sheet.overall.iter().map(|row| row.weight).collect();
    weights.sort();
    assert_eq!(weights, [shown(2), shown(2), shown(3), shown(3)]);
}

/// 130 kg on a floor scale that carries 60 kg: two full loads and one of 10 kg.
#[test]
fn what_no_scale_carries_is_weighed_in_loads() {
    let balance = kitchen("test").last(|tub| tub.add("white flour", "130000").add("water", "60000"));
    let sheet = Sheet::new(&balance.batch(), &[scale("floor", "10", "60000")]).unwrap();
    let LineSource::Weighed(flour) = &sheet.stages[0].lines[0].source else { panic!("flour is weighed") };
    assert_eq!((flour.loads, flour.full_load, flour.last_load), (Some(3), shown(60_000), shown(10_000)));
    let LineSource::Weighed(water) = &sheet.stages[0].lines[1].source else { panic!("water is weighed") };
    assert_eq!((water.loads, water.last_load), (Some(1), shown(60_000)));
}
