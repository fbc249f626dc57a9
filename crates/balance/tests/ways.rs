//! The ways of writing a dough: each gives the same matrix.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use levamen_balance::{Balance, Balancer};
use levamen_formula::Book;
use levamen_language::{Problem, TextId};
use levamen_quantity::Exact;

/// The balance of the last dough of a text, or its problems.
fn balance(text: &str) -> Result<Balance, Vec<Problem>> {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    if !problems.is_empty() {
        return Err(problems);
    }
    let (id, _) = book.entries().last().expect("a dough");
    Balancer::new(&book).balance(id).cloned().map_err(<[Problem]>::to_vec)
}

/// The grams of every line of every stage, as `stage/line grams`.
fn weights(balance: &Balance) -> Vec<String> {
    let batch = balance.batch();
    let stages = balance.stages.iter();
    let lines = stages.flat_map(|stage| stage.lines.iter().map(move |line| (stage, line)));
    lines
        .map(|(stage, line)| format!("{}/{} {}", stage.name, line.name, batch.mass(&line.share).grams()))
        .collect()
}

fn overall(balance: &Balance) -> Vec<String> {
    balance.overall.iter().map(|row| format!("{} {}", row.name, row.share.percent())).collect()
}

const FROM_OVERALL: &str = "
dough Poolish bread

overall
  flour   100 %
  water    67 %
  salt      2 %
  yeast   1.1 %

stage poolish
  takes    33 % of the flour
  flour   100 %
  water   100 %
  yeast   0.2 %

make 10 kg of flour
";

#[test]
fn from_the_overall_formula() {
    let balance = balance(FROM_OVERALL).unwrap();
    assert_eq!(
        weights(&balance),
        [
            "poolish/flour 3300",
            "poolish/water 3300",
            "poolish/yeast 6.6",
            "final dough/flour 6700",
            "final dough/water 3400",
            "final dough/salt 200",
            "final dough/yeast 103.4",
            "final dough/poolish 6606.6",
        ]
    );
    assert_eq!(balance.weight.percent(), Exact::from_literal("170.1").unwrap());
    assert_eq!(balance.prefermented_flour.percent(), Exact::from(33));
    assert_eq!(balance.hydration.percent(), Exact::from(67));
}

#[test]
fn the_three_ways_agree() {
    let from_overall = balance(FROM_OVERALL).unwrap();
    let from_stages = balance(
        "
dough Poolish bread

stage poolish
  flour    100 %
  water    100 %
  yeast    0.2 %

final dough
  flour   6700 g
  water   3400 g
  salt     200 g
  yeast  103.4 g
  poolish  6606.6 g
",
    )
    .unwrap();
    let from_weights = balance(
        "
dough Poolish bread

stage poolish
  flour   3300 g
  water   3300 g
  yeast    6.6 g

final dough
  flour   6700 g
  water   3400 g
  salt     200 g
  yeast  103.4 g
",
    )
    .unwrap();
    assert_eq!(overall(&from_overall), overall(&from_weights));
    assert_eq!(weights(&from_overall), weights(&from_weights));
    assert_eq!(weights(&from_stages), weights(&from_weights));
}

#[test]
fn final_dough_on_its_own_flour() {
    let balance = balance(
        "
dough Ciabatta

stage poolish
  bread flour   100 %
  water         100 %
  fresh yeast   0.1 %

final dough
  bread flour   100 %
  water          64 %
  fresh yeast   1.4 %
  salt          2.9 %
  poolish        86 % of its flour

make 100 lb of dough
",
    )
    .unwrap();
    assert_eq!(overall(&balance).len(), 4);
    let pff = balance.prefermented_flour.percent().to_fixed(2);
    assert_eq!(pff, "30.06");
}

#[test]
fn seed_stays_and_seed_given_back() {
    let text = |fate: &str| {
        format!(
            "
culture mother culture
  bread flour  100 %
  water        125 %

dough Rye-touched levain

overall
  bread flour       90 %
  whole rye flour   10 %
  water             65 %
  salt             1.9 %

stage levain
  takes  15 % of the flour
  bread flour  100 %
  water        125 %
  from mother culture  20 %{fate}

make 20 lb of flour
"
        )
    };
    let given_back = balance(&text(", given back")).unwrap();
    let levain = &given_back.stages[0];
    let pounds = |share: &levamen_quantity::Share, balance: &Balance| {
        balance.batch().mass(share).in_unit(levamen_quantity::MassUnit::Pound).to_decimal_string()
    };
    assert_eq!(pounds(&levain.made, &given_back), "7.35");
    assert_eq!(pounds(&levain.given_back, &given_back), "0.6");
    assert_eq!(pounds(&levain.taken, &given_back), "6.75");
    assert_eq!(pounds(&given_back.weight, &given_back), "33.38");
    assert_eq!(pounds(&given_back.stages[1].made, &given_back), "33.38");
    let stays = balance(&text("")).unwrap();
    assert_eq!(pounds(&stays.stages[0].taken, &stays), pounds(&stays.stages[0].made, &stays));
    assert_eq!(pounds(&stays.weight, &stays), "33.38");
    assert_eq!(stays.prefermented_flour.percent(), Exact::from(15));
}

#[test]
fn more_is_built_than_taken() {
    let balance = balance(
        "
culture levain
  white flour       80 %
  wholewheat flour  20 %
  water             80 %

dough Country blond

stage levain build, a levain
  white flour       400 g
  wholewheat flour  100 g
  water             400 g
  from levain       100 g
  left over  rest

final dough
  white flour       740 g
  wholewheat flour   60 g
  water             620 g
  salt               21 g
  instant yeast       2 g
  levain build      360 g
",
    )
    .unwrap();
    assert_eq!(
        overall(&balance),
        ["white flour 90", "wholewheat flour 10", "water 78", "salt 2.1", "instant yeast 0.2"]
    );
    assert_eq!(balance.prefermented_flour.percent(), Exact::from(20));
    let build = &balance.stages[0];
    assert_eq!(balance.batch().mass(&build.left_over).grams().to_decimal_string(), "640");
}

#[test]
fn old_dough_from_the_last_batch() {
    let from_overall = balance(
        "
dough Plain

overall
  flour  100 %
  water   65 %
  salt     2 %

stage old dough
  takes  20 % of the flour
  from this dough
",
    )
    .unwrap();
    assert_eq!(from_overall.prefermented_flour.percent(), Exact::from(20));
    assert_eq!(overall(&from_overall), ["flour 100", "water 65", "salt 2"]);
    let from_stages = balance(
        "
dough Plain

final dough
  flour  1000 g
  water   650 g
  salt     20 g
  from this dough  417.5 g
",
    )
    .unwrap();
    assert_eq!(overall(&from_stages), ["flour 100", "water 65", "salt 2"]);
    assert_eq!(from_stages.prefermented_flour.percent(), Exact::from(20));
}

#[test]
fn steam_and_a_loss_in_the_tub() {
    let balance = balance(
        "
dough Scalded rye

overall
  whole rye flour  100 %
  water             80 %
  salt               2 %

stage scald
  takes  20 % of the flour
  whole rye flour  100 %
  water            150 %
  loses   10 % of its water

stage rye sour
  takes  30 % of the flour
  whole rye flour  100 %
  water            100 %
  left over  4 %
",
    )
    .unwrap();
    assert_eq!(
        weights(&balance),
        [
            "scald/whole rye flour 200",
            "scald/water 300",
            "rye sour/whole rye flour 312.5",
            "rye sour/water 312.5",
            "final dough/whole rye flour 500",
            "final dough/water 230",
            "final dough/salt 20",
            "final dough/scald 470",
            "final dough/rye sour 600",
        ]
    );
    let grams = |share| balance.batch().mass(share).grams().to_decimal_string();
    assert_eq!(grams(&balance.stages[0].steam), "30");
    assert_eq!(grams(&balance.stages[1].left_over), "25");
    assert_eq!(balance.hydration.percent(), Exact::from(80));
}

#[test]
fn a_weight_among_percentages_is_of_the_batch_that_is_made() {
    let balance = balance(
        "
dough Salted by weight

final dough
  flour  100 %
  water   65 %
  salt   330 g

make 16.5 kg of flour
",
    )
    .unwrap();
    assert_eq!(overall(&balance), ["flour 100", "water 65", "salt 2"]);
}

#[test]
fn of_a_scald_taken_twice_only_what_goes_into_the_sponge_ferments() {
    let balance = balance(
        "
dough Twice

stage scald
  flour  100 g
  water  100 g

stage sponge
  flour  200 g
  water  200 g
  scald   50 g

final dough
  flour   700 g
  water   400 g
  scald   150 g
  sponge  450 g
",
    )
    .unwrap();
    // Of 1000 g of flour 200 are in the sponge, and 25 of the scald's go through it.
    assert_eq!(balance.prefermented_flour.percent().to_decimal_string(), "22.5");
}

/// A scald without flour goes into a soaker without flour, and some of that is left: there is no flour to count by
/// until the dough.
#[test]
fn stages_without_flour_within_one_another() {
    let text = "dough D\n\nstage soaker\n  scald  200 g\n  water  10 g\n  left over  rest\n\nstage scald\n  oat flakes  50 g\n  \
                water  150 g\n\nfinal dough\n  soaker  105 g\n  flour  200 g\n";
    let balance = balance(text).expect("a balance");
    let expected = ["oat flakes 12.5", "water 40", "flour 100"];
    let mut rows = overall(&balance);
    rows.sort();
    let mut expected: Vec<String> = expected.map(str::to_owned).into();
    expected.sort();
    assert_eq!(rows, expected);
}
