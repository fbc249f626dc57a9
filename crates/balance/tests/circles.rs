//! Doughs that take from each other: worked by hand, mixed again from their parts, and baked until they are steady.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fmt::Write as _;

use levamen_balance::{Balance, Balancer};
use levamen_formula::{Book, FormulaId};
use levamen_language::{Problem, TextId};
use levamen_quantity::Exact;

fn read(text: &str) -> Book {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert!(problems.is_empty(), "{problems:?}");
    book
}

/// The balance of a dough of a text.
fn balance(text: &str, name: &str) -> Result<Balance, Vec<Problem>> {
    let book = read(text);
    Balancer::new(&book).balance(book.find(name).unwrap()).cloned().map_err(<[Problem]>::to_vec)
}

/// What the dough holds, in % of its flour.
fn overall(text: &str, name: &str) -> Vec<String> {
    let balance = balance(text, name).unwrap();
    balance.overall.iter().map(|row| format!("{} {:?}", row.name, row.share.percent())).collect()
}

/// In grams: 210 · c1 = fresh 1 + 50 · c2 and 220 · c2 = fresh 2 + 50 · c1, so (210 · 220 - 50 · 50) · c1 =
/// 220 · fresh 1 + 50 · fresh 2. Flour: 43,700 · c1 = 22,000 + 5,000, water: 13,200 + 3,500; c1 is 270 to 167. The same
/// way 43,700 · c2 = 210 · fresh 2 + 50 · fresh 1: flour 21,000 + 5,000, water 14,700 + 3,000; 260 to 177.
#[test]
fn two_doughs_by_weight() {
    let text = "
dough One

final dough
  flour  100 g
  water   60 g
  from Two  50 g

dough Two

final dough
  flour  100 g
  water   70 g
  from One  50 g
";
    assert_eq!(overall(text, "One"), ["flour 100", "water 1670/27"]);
    assert_eq!(overall(text, "Two"), ["flour 100", "water 885/13"]);
}

/// The example of the method, with the arithmetic there.
#[test]
fn white_and_brown_bread() {
    let text = "
dough White bread

final dough
  white flour  1000 g
  water         650 g
  salt           20 g
  from Brown bread  200 g

dough Brown bread

final dough
  white flour      400 g
  wholemeal flour  600 g
  water            720 g
  salt              20 g
  from White bread  300 g
";
    let flour = 2_120_000 + 120_000;
    let percent = |part: i64| format!("{:?}", Exact::ratio(100 * part, flour).unwrap());
    assert_eq!(
        overall(text, "White bread"),
        [
            format!("white flour {}", percent(2_120_000)),
            format!("wholemeal flour {}", percent(120_000)),
            format!("water {}", percent(1_470_000)),
            format!("salt {}", percent(44_800)),
        ]
    );
}

/// For a gram of flour: r1 = 0.8 · fresh 1 + 0.2 · r2 and r2 = 0.9 · fresh 2 + 0.1 · r1, so 0.98 · r1 = 0.8 · fresh 1 +
/// 0.18 · fresh 2. Water: 0.48 + 0.126 = 0.606, salt: 0.016; and 0.98 · r2 = 0.9 · fresh 2 + 0.08 · fresh 1: water 0.63
/// + 0.048 = 0.678, salt 0.0016.
const BY_FLOUR: &str = "
dough One

stage old dough
  takes  20 % of the flour
  from Two

final dough
  flour  100 %
  water   60 %
  salt     2 %

dough Two

stage old dough
  takes  10 % of the flour
  from One

final dough
  flour  100 %
  water   70 %
";

#[test]
fn two_doughs_by_their_flour() {
    assert_eq!(overall(BY_FLOUR, "One"), ["flour 100", "water 3030/49", "salt 80/49"]);
    assert_eq!(overall(BY_FLOUR, "Two"), ["flour 100", "water 3390/49", "salt 8/49"]);
}

/// One is 65 % whatever comes from Two: 0.65 = w + 0.2 · r2 with r2 = 0.9 · 0.7 + 0.1 · 0.65 = 0.695, so its own water is
/// 0.511 of its flour.
#[test]
fn a_percentage_of_the_whole_in_the_middle_of_a_circle() {
    let text = BY_FLOUR.replacen(
        "dough One\n",
        "dough One\n\noverall\n  flour  rest\n  water  65 %\n  salt  rest\n",
        1,
    );
    let text = text.replacen("  water   60 %\n", "", 1);
    assert_eq!(overall(&text, "One")[..2], ["flour 100", "water 65"]);
    assert_eq!(overall(&text, "Two")[..2], ["flour 100", "water 139/2"]);
    let one = balance(&text, "One").unwrap();
    let fresh = one.stages[1].lines.iter().find(|line| line.name == "water").unwrap();
    assert_eq!(fresh.share.percent(), Exact::from_literal("51.1").unwrap());
}

/// Everything of the whole dough: 0.2 · c1 by weight. c2 = 0.8 · fresh 2 + 0.2 · c1 with c1 = 100 : 60 known.
#[test]
fn an_overall_breaks_the_circle() {
    let text = "
dough One

overall
  flour  100 %
  water   60 %

final dough
  from Two  10 % of the flour

dough Two

final dough
  flour  60 g
  water  20 g
  from One  20 % of the dough
";
    // 100 g of Two: 60 + 20 · 100 / 160 = 72.5 flour and 20 + 20 · 60 / 160 = 27.5 water.
    assert_eq!(overall(text, "One"), ["flour 100", "water 60"]);
    assert_eq!(overall(text, "Two"), ["flour 100", "water 1100/29"]);
}

/// 200 · c1 = 100 + 80 + 20 · c2 and 170 · c2 = 100 (rye) + 50 + 20 · c1: (200 · 170 - 400) · c1 = 170 · fresh 1 + 20 ·
/// fresh 2: 33,600 · c1 = 17,000 white, 2,000 rye, 13,600 + 1,000 water.
#[test]
fn two_cultures_that_are_fed_from_each_other() {
    let text = "
culture white culture
  white flour  100 %
  water         80 %
  from rye culture  20 %

culture rye culture
  rye flour  100 %
  water       50 %
  from white culture  20 %
";
    let percent = |part: i64| format!("{:?}", Exact::ratio(100 * part, 19_000).unwrap());
    assert_eq!(
        overall(text, "white culture"),
        [
            format!("white flour {}", percent(17_000)),
            format!("rye flour {}", percent(2_000)),
            format!("water {}", percent(14_600)),
        ]
    );
}

/// Its feeding, whatever the seed weighs.
#[test]
fn a_culture_fed_with_mixed_flours_from_itself() {
    let text = "
culture mother culture
  white flour       80 %
  wholemeal flour   20 %
  water            100 %
  from mother culture  25 %
";
    assert_eq!(overall(text, "mother culture"), ["white flour 80", "wholemeal flour 20", "water 100"]);
}

/// Water of the whole flour: W = 0.65 + 0.2 · W, with W for water to flour of the dough and so of the old dough.
#[test]
fn old_dough_beside_water_stated_on_the_whole_flour() {
    let text = "
dough Plain

stage old dough
  takes  20 % of the flour
  from this dough

final dough
  flour  100 %
  water   52 % of the flour
";
    assert_eq!(overall(text, "Plain"), ["flour 100", "water 65"]);
}

/// A build of which some is left over is a batch of its own in the circle: 100 g of build are 60 g of its feeding, 40
/// to 20, and 40 g of Two; One takes 50 g of it to 100 + 60. Per gram: b = (40 : 20 + 40 · c2) / 100, 210 · c1 = fresh
/// 1 + 50 · b, 150 · c2 = 100 : 30 + 20 · c1. Flour: b = 0.4 + 0.4 · c2; 210 · c1 = 120 + 20 · c2; 150 · c2 = 100 + 20
/// · c1; 31,500 · c1 = 18,000 + 2,000 + 400 · c1: c1 = 200 / 311. Water: the rest.
#[test]
fn a_batch_built_apart_inside_a_circle() {
    let text = "
dough One

stage build, a levain
  flour  40 g
  water  20 g
  from Two  40 g
  left over  rest

final dough
  flour  100 g
  water   60 g
  build   50 g

dough Two

final dough
  flour  100 g
  water   30 g
  from One  20 g
";
    assert_eq!(
        overall(text, "One"),
        ["flour 100".to_owned(), format!("water {:?}", Exact::ratio(111, 2).unwrap())]
    );
    let one = balance(text, "One").unwrap();
    assert_eq!(one.batch().mass(&one.stages[0].left_over).grams(), &Exact::from(50));
}

/// Old dough inside a separate batch is old dough of the whole dough, not of that batch.
#[test]
fn old_dough_inside_a_batch_built_apart() {
    let text = "
dough Plain

overall
  flour  rest
  water  rest

stage build, a sponge
  flour  100 g
  water  100 g
  from this dough  50 g
  left over  100 g

final dough
  flour  200 g
  water  100 g
";
    // 250 g of build, 150 g taken: 60 : 60 and 30 of the dough. 450 · c = 260 : 160 + 30 · c.
    assert_eq!(overall(text, "Plain"), ["flour 100", "water 800/13"]);
}

/// A seed that is given back leaves no trace in the dough: there is no circle to solve.
#[test]
fn a_seed_given_back_closes_no_circle() {
    let text = "
culture mother culture
  flour  100 %
  water   80 %
  from Plain  20 % of its flour

dough Plain

stage levain
  flour  50 g
  water  40 g
  from mother culture  10 g, given back

final dough
  flour  150 g
  water   85 g
  salt     4 g
";
    assert_eq!(overall(text, "Plain"), ["flour 100", "water 125/2", "salt 2"]);
}

/// A pre-ferment that several doughs take from, written once as a dough without salt.
#[test]
fn a_shared_pre_ferment() {
    let text = "
dough Shared poolish

final dough
  flour  100 %
  water  100 %
  yeast  0.2 %

dough White

overall
  flour  100 %
  water   67 %
  salt     2 %
  yeast  1.1 %

stage poolish
  takes  33 % of the flour
  from Shared poolish

make 10 kg of flour

dough Rye

final dough
  rye flour  500 g
  water      350 g
  salt        12 g
  from Shared poolish  400.4 g
";
    let white = balance(text, "White").unwrap();
    let poolish = white.stages[0].taken.clone();
    assert_eq!(white.batch().mass(&poolish).grams().to_decimal_string(), "6606.6");
    assert_eq!(white.prefermented_flour.percent(), Exact::from(33));
    // 400.4 g of it are 200 g of flour, 200 g of water and 0.4 g of yeast.
    let rye = balance(text, "Rye").unwrap();
    let grams = rye.overall.iter().map(|row| rye.batch().mass(&row.share).grams().to_decimal_string());
    assert_eq!(grams.collect::<Vec<_>>(), ["500", "200", "550", "12", "0.4"]);
    assert_eq!(rye.prefermented_flour.percent().to_fixed(4), "28.5714");
}

/// Doughs of which each takes a piece of the next; in a circle the last takes one of the first.
fn many(count: u32, is_circle: bool) -> String {
    let mut text = String::new();
    for number in 0..count {
        let _ = writeln!(
            text,
            "dough Many-{number}\n\nfinal dough\n  flour  100 g\n  water  {} g",
            50 + number % 31
        );
        if is_circle || number + 1 < count {
            let _ = writeln!(text, "  from Many-{}  25 g\n", (number + 1) % count);
        }
    }
    text
}

/// The hydration of the first, batch by batch in floating point from the last to the first, as often as is said.
fn baked(count: u32, rounds: u32) -> f64 {
    let (mut flour, mut water) = (0.0, 0.0);
    for number in (0..rounds).flat_map(|_| (0..count).rev()) {
        let (own_flour, own_water) = (100.0 + flour, f64::from(50 + number % 31) + water);
        let piece = 25.0 / (own_flour + own_water);
        (flour, water) = (own_flour * piece, own_water * piece);
    }
    water / flour
}

#[test]
fn a_chain_of_a_thousand_doughs() {
    let book = read(&many(1000, false));
    let mut balancer = Balancer::new(&book);
    let first = balancer.balance(FormulaId(0)).unwrap().hydration.fraction().to_f64();
    assert!((first - baked(1000, 1)).abs() < 1e-12, "{first} {}", baked(1000, 1));
    assert!(book.entries().all(|(id, _)| balancer.balance(id).is_ok()));
}

#[test]
fn a_circle_of_hundreds_of_doughs() {
    let book = read(&many(300, true));
    let mut balancer = Balancer::new(&book);
    let first = balancer.balance(FormulaId(0)).unwrap().hydration.fraction().to_f64();
    assert!((first - baked(300, 2)).abs() < 1e-12, "{first} {}", baked(300, 2));
    assert!(book.entries().all(|(id, _)| balancer.balance(id).is_ok()));
}
