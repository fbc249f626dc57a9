//! The sheets of a day that keeps dough for the next one.

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::{Book, Scale};
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders, DayStageId, Setting};
use levamen_quantity::{Exact, Mass};
use levamen_sheets::{DaySheets, Weight};

/// A dough that takes a tenth of its flour from its last batch. A gram of flour stands for 1.62 g of dough.
const BOOK: &str = "\
dough Daily bread

overall
  white flour  100 %
  water         60 %
  salt           2 %

stage old dough
  takes  10 % of the flour
  from this dough

product Loaf
  made of Daily bread
  piece  810 g
";

fn scale(division: Exact, capacity: i64) -> Scale {
    let capacity = Mass::from_grams(Exact::from(capacity));
    Scale { name: "a scale".to_owned(), division: Mass::from_grams(division), capacity }
}

/// The sheets of a day on which so many pieces of each product are made.
fn sheets(text: &str, today: &[u64], tomorrow: Option<u64>, scales: &[Scale]) -> DaySheets {
    let texts = [(TextId(0), text)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let today = DayOrders::from_pieces((0..).map(ProductId::new).zip(today.iter().copied()));
    let tomorrow = tomorrow.map(|pieces| DayOrders::from_pieces([(ProductId::new(0), pieces)]));
    let day = Day::plan(&BookBalances::new(&book), &bakery, &today, tomorrow.as_ref()).unwrap();
    DaySheets::new(&day, scales).unwrap()
}

#[test]
fn what_is_kept_is_what_the_next_day_takes() {
    // A tenth of the dough is old dough. 40 loaves are 32.4 kg, so the next day mixes 36 kg and takes 3.6 kg. This day mixes
    // the 16.2 kg of 20 loaves and those 3.6 kg, and takes 1.98 kg itself.
    let day = sheets(BOOK, &[20], Some(40), &[scale(Exact::ONE, 60_000)]);
    let sheet = &day.doughs[0].sheet;
    assert_eq!((sheet.batch.to_string(), sheet.kept_back.to_string()), ("19800".into(), "3600".into()));
    let own: Vec<String> = day.picks[0]
        .picks
        .iter()
        .filter(|pick| pick.name == "Daily bread, a piece of its last batch")
        .map(|pick| pick.weight.to_string())
        .collect();
    assert_eq!(own, ["1980"]);
    assert_eq!((&sheet.to_divide, &sheet.short), (&None, &Mass::ZERO));
}

/// A dough of which nothing but another takes, so that no piece leaves it a margin.
const ENRICHED: &str = "\
dough Base

overall
  white flour  100 %
  water         61 %
  salt           2 %
  fresh yeast    1 %

dough Enriched

final dough
  from Base  300 g
  butter     100 g

product Bun
  made of Enriched
  piece  41 g
";

/// Salt and yeast are weighed to a tenth of a gram, flour and what the other dough takes to a gram: of three buns it takes 92 g,
/// and the base for them would come to 91.9 g, so a little more is made.
#[test]
fn a_dough_gives_at_least_what_is_taken_of_it() {
    let scales = [scale(Exact::ratio(1, 10).unwrap(), 50), scale(Exact::ONE, 60_000)];
    for pieces in 1..40 {
        let day = sheets(ENRICHED, &[pieces], None, &scales);
        let base = day.doughs.iter().find(|dough| dough.sheet.dough == "Base").unwrap();
        let over = base.sheet.batch.try_sub(base.taken).unwrap();
        assert!(over >= Weight::ZERO, "{pieces} buns: {} of {}", base.taken, base.sheet.batch);
        assert!(over.as_exact().grams() < &Exact::from(5), "{pieces} buns: {over} too much");
        if pieces == 3 {
            assert_eq!(base.taken.to_string(), "92");
        }
    }
}

/// Three doughs, each of which weighs 1 kg and its seed; a piece is a dough.
const SEEDED: &str = "\
culture wheat culture
  white flour  100 %
  water        100 %

culture rye culture
  rye flour  100 %
  water      100 %

dough Loaf

final dough
  white flour          600 g
  water                400 g
  from wheat culture    20 g

dough Rye

final dough
  rye flour          600 g
  water              400 g
  from rye culture    30 g

dough Rolls

final dough
  white flour          600 g
  water                400 g
  from wheat culture    50 g

product Loaf
  made of Loaf
  piece  1020 g

product Rye
  made of Rye
  piece  1030 g

product Rolls
  made of Rolls
  piece  1050 g
";

/// Three loaves take 60 g of the wheat culture and one piece of rolls 50 g; two of rye take 60 g of the rye culture.
#[test]
fn each_culture_gives_what_all_of_its_seeds_weigh() {
    let day = sheets(SEEDED, &[3, 2, 1], None, &[scale(Exact::ONE, 60_000)]);
    let settings: Vec<Setting> = day
        .doughs
        .iter()
        .map(|dough| DayStageId { dough: dough.dough, stage: 0 })
        .map(|id| Setting { id, batch: None, at: None, tubs: None, water: None })
        .collect();
    let seeds = day.seeds(&settings).unwrap();
    let weights = |culture| {
        let mut weights: Vec<String> = seeds.of(culture).map(|seed| seed.weight.to_string()).collect();
        weights.sort();
        weights
    };
    let mut given: Vec<(String, Vec<String>)> =
        seeds.sums.iter().map(|(culture, sum)| (sum.to_string(), weights(*culture))).collect();
    given.sort();
    let expected = |sum: &str, weights: &[&str]| {
        (sum.to_owned(), weights.iter().map(|weight| (*weight).to_owned()).collect::<Vec<_>>())
    };
    assert_eq!(given, [expected("110", &["50", "60"]), expected("60", &["60"])]);
}
