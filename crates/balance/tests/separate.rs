//! Batches that are built apart, larger than the dough takes: their stages are shown at the size in which they are made.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use levamen_balance::{Balance, BalancedStage, Balancer, StatedSize};
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_quantity::{Exact, Mass, Share};

/// The balance of the last dough of a text.
fn balance(text: &str) -> Balance {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert_eq!(problems, []);
    let (id, _) = book.entries().last().expect("a dough");
    Balancer::new(&book).balance(id).expect("a balance").clone()
}

/// A build of 810 g: a first build of 240 g and half of a scald of 140 g go into it, and the dough takes half of the build.
/// In it are 300 + 120 + 25 = 445 g of flour, so the dough has 777.5 + 222.5 = 1000 g.
const HALF_A_BUILD: &str = "
culture levain
  white flour  100 %
  water        100 %

dough Country

stage first, a levain
  white flour  100 g
  water        100 g
  from levain   40 g

stage scald, a scald
  rye flour   50 g
  water      100 g
  loses  10 % of its water
  left over  50 %

stage build, a levain
  white flour  300 g
  water        200 g
  first        240 g
  scald         70 g
  left over  rest

final dough
  white flour  777.5 g
  water        400 g
  salt          20 g
  build        405 g
";

/// A figure of every stage, in grams.
fn grams(balance: &Balance, figure: impl Fn(&BalancedStage) -> &Share) -> Vec<String> {
    let batch = balance.batch();
    let stages = balance.stages.iter();
    stages.map(|stage| batch.mass(figure(stage)).grams().to_decimal_string()).collect()
}

#[test]
fn the_stages_of_a_batch_built_apart_are_of_its_own_size() {
    let balance = balance(HALF_A_BUILD);
    let names: Vec<&str> = balance.stages.iter().map(|stage| stage.name.as_str()).collect();
    assert_eq!(names, ["first", "scald", "build", "final dough"]);
    assert_eq!(grams(&balance, |stage| &stage.own_flour), ["100", "50", "300", "777.5"]);
    // Half of the 40 g of seed is flour, half water. 10 g of the scald's water go off.
    assert_eq!(grams(&balance, |stage| &stage.flour), ["120", "50", "300", "777.5"]);
    assert_eq!(grams(&balance, |stage| &stage.water), ["120", "90", "200", "400"]);
    assert_eq!(grams(&balance, |stage| &stage.steam), ["0", "10", "0", "0"]);
    assert_eq!(grams(&balance, |stage| &stage.made), ["240", "140", "810", "1602.5"]);
    assert_eq!(grams(&balance, |stage| &stage.given_back), ["0", "0", "0", "0"]);
    assert_eq!(grams(&balance, |stage| &stage.left_over), ["0", "70", "405", "0"]);
    assert_eq!(grams(&balance, |stage| &stage.taken), ["240", "70", "405", "1602.5"]);
    // Half of what is in the build reaches the dough: of 120 g of flour of the first, and of 445 g in all.
    let fermented = grams(&balance, |stage| &stage.prefermented_flour);
    assert_eq!([&fermented[0], &fermented[2], &fermented[3]], ["60", "222.5", "0"]);
    let batch = balance.batch();
    let build = balance.stages.get(2).expect("the build");
    let lines: Vec<String> =
        build.lines.iter().map(|line| batch.mass(&line.share).grams().to_decimal_string()).collect();
    assert_eq!(lines, ["300", "200", "240", "70"]);
}

#[test]
fn a_seed_that_stays_counts_as_flour_and_water_of_its_stage() {
    let balance = balance(
        "
culture levain
  white flour  100 %
  water        150 %

dough Plain

stage build, a levain
  white flour  180 g
  water        170 g
  from levain   50 g

final dough
  white flour  800 g
  water        400 g
  salt          20 g
",
    );
    // 50 g of a levain of 2 to 3 are 20 g of flour and 30 g of water.
    assert_eq!(grams(&balance, |stage| &stage.own_flour), ["180", "800"]);
    assert_eq!(grams(&balance, |stage| &stage.flour), ["200", "800"]);
    assert_eq!(grams(&balance, |stage| &stage.water), ["200", "400"]);
}

#[test]
fn a_stage_that_is_taken_brings_its_foods_that_spoil_itself() {
    let balance = balance(
        "
dough Milky

stage poolish
  white flour  200 g
  milk         200 g
  left over  rest

final dough
  white flour  900 g
  water        400 g
  poolish      200 g
",
    );
    let spoiling: Vec<(&str, usize)> = balance
        .stages
        .iter()
        .flat_map(|stage| &stage.lines)
        .map(|line| (line.name.as_str(), line.spoiling.len()))
        .collect();
    assert_eq!(spoiling, [("white flour", 0), ("milk", 1), ("white flour", 0), ("water", 0), ("poolish", 0)]);
}

#[test]
fn weights_alone_are_a_size_and_any_figure_sets_another() {
    let balance = balance("dough Plain\n\nfinal dough\n  white flour  1000 g\n  water  600 g\n");
    let mass = |grams: i64| Mass::from_grams(Exact::from(grams));
    assert_eq!(balance.size, StatedSize::Weights { flour: mass(1000) });
    // 800 g of dough are 500 g of flour and 300 g of water.
    let half = balance.where_weighs(&balance.weight, &mass(800)).expect("a dough that weighs something");
    assert_eq!(*half.flour(), mass(500));
    assert!(balance.where_weighs(&balance.salt, &mass(800)).is_none());
}
