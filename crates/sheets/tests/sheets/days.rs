//! The sheets of a day that keeps dough for the next one.

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::{Book, Scale};
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders};
use levamen_quantity::{Exact, Mass};
use levamen_sheets::DaySheets;

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

fn sheets(today: u64, tomorrow: Option<u64>, scales: &[Scale]) -> DaySheets {
    let texts = [(TextId(0), BOOK)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let orders = |pieces| DayOrders::from_pieces([(ProductId::new(0), pieces)]);
    let tomorrow = tomorrow.map(orders);
    let day = Day::plan(&BookBalances::new(&book), &bakery, &orders(today), tomorrow.as_ref()).unwrap();
    DaySheets::new(&day, scales).unwrap()
}

#[test]
fn what_is_kept_is_what_the_next_day_takes() {
    let gram = Mass::from_grams(Exact::ONE);
    let scale =
        Scale { name: "a scale".to_owned(), division: gram, capacity: Mass::from_grams(Exact::from(60_000)) };
    // A tenth of the dough is old dough. 40 loaves are 32.4 kg, so the next day mixes 36 kg and takes 3.6 kg. This day mixes
    // the 16.2 kg of 20 loaves and those 3.6 kg, and takes 1.98 kg itself.
    let day = sheets(20, Some(40), &[scale]);
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
