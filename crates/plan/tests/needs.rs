//! Which doughs a day needs and how much of each, by sums on paper.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{Day, DayError, DayOrders};
use levamen_quantity::{Exact, Mass};

/// The day of so many pieces of each product, in their order.
fn planned(text: &str, pieces: &[u64], tomorrow: Option<&[u64]>) -> (Book, Result<Day, DayError>) {
    let texts = [(TextId(0), text)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let orders = |pieces: &[u64]| DayOrders::from_pieces(ProductId::all().zip(pieces.iter().copied()));
    let tomorrow = tomorrow.map(orders);
    let day = Day::plan(&BookBalances::new(&book), &bakery, &orders(pieces), tomorrow.as_ref());
    (book, day)
}

fn grams(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(figure))
}

fn ratio(numer: i64, denom: i64) -> Mass {
    Mass::from_grams(Exact::ratio(numer, denom).unwrap())
}

const LOAF: &str = "\
dough Loaf

overall
  strong white flour  100 %
  water                60 %

product Loaf
  made of Loaf
";

/// Pieces made, and the dough that they take.
fn pieces(facts: &str, ordered: u64) -> (u64, Mass) {
    let (_, day) = planned(&format!("{LOAF}{facts}"), &[ordered], None);
    let day = day.unwrap();
    let pieces = &day.doughs[0].need.pieces[0];
    assert_eq!(pieces.ordered, ordered);
    assert_eq!(day.doughs[0].mass(), pieces.dough);
    (pieces.made, pieces.dough.clone())
}

#[test]
fn spares_heads_and_losses_are_counted_in_this_order() {
    assert_eq!(pieces("  piece 98 g\n", 100), (100, grams(9800)));
    // 5 % of 101 are 5.05, so six pieces more.
    assert_eq!(pieces("  piece 98 g\n  spare 5 %\n", 101), (107, grams(107 * 98)));
    assert_eq!(pieces("  piece 98 g\n  spare 3 pieces\n", 101), (104, grams(104 * 98)));
    // 105 pieces are four heads of 30; of their 11760 g, 98 % of the dough, 12000 g are mixed.
    assert_eq!(
        pieces("  piece 98 g\n  spare 5 %\n  head 30 pieces\n  losing 2 %\n", 100),
        (120, grams(12_000))
    );
    // 800 g of baked bread are 80 % of a kilogram of dough.
    assert_eq!(pieces("  baked 800 g\n  bake loss 20 %\n", 7), (7, grams(7000)));
}

/// A kilogram of flour is 1600 g of dough.
#[test]
fn a_day_has_the_flour_of_its_dough() {
    let (_, day) = planned(&format!("{LOAF}  piece 800 g\n"), &[10], None);
    let day = day.unwrap();
    assert_eq!(day.doughs[0].flour, grams(5000));
    let ingredients: Vec<Mass> =
        day.doughs[0].balance.overall.iter().map(|row| row.share.of(&day.doughs[0].flour)).collect();
    assert_eq!(ingredients, [grams(5000), grams(3000)]);
}

const WITH_OLD_DOUGH: &str = "\
dough Loaf

overall
  strong white flour  100 %
  water                68 %

stage old dough
  weighs  28 % of the flour
  from this dough

product Loaf
  made of Loaf
  piece  700 g
";

/// Of 168 parts of dough 28 are of the last batch, a sixth. What is sold is the other five: of 10 pieces, 7000 g, 8400 g are
/// mixed and 1400 g kept.
#[test]
fn as_much_old_dough_is_kept_as_the_day_takes() {
    let (_, day) = planned(WITH_OLD_DOUGH, &[10], None);
    let day = day.unwrap();
    let need = &day.doughs[0].need;
    assert_eq!((need.mass(), &need.kept), (grams(8400), &grams(1400)));
    assert_eq!(day.old_dough, [(need.dough, grams(1400))]);
}

/// Tomorrow's 20 pieces are 14000 g, of which, with what is kept then, 16800 g are mixed and a sixth is old dough: 2800 g. Today
/// they are kept beside 7000 g, and a sixth of those 9800 g is what today takes.
#[test]
fn old_dough_is_kept_for_what_tomorrow_takes() {
    let (_, day) = planned(WITH_OLD_DOUGH, &[10], Some(&[20]));
    let day = day.unwrap();
    let need = &day.doughs[0].need;
    assert_eq!((need.mass(), &need.kept), (grams(9800), &grams(2800)));
    assert_eq!(day.old_dough, [(need.dough, ratio(9800, 6))]);
}

/// A base of which two doughs take; it is lost by its own `make` line: of 10 kg that they take, 80 % of 12.5 kg.
#[test]
fn what_is_taken_of_a_base_has_its_loss_on_top() {
    let text = "dough Base\n\nmake 10 kg to divide, losing 20 %\n\noverall\n  strong white flour  100 %\n  water  60 %\n\n\
                dough Olive\n\nfinal dough\n  from Base  1000 g\n  salt  100 g\n\n\
                dough Nut\n\nfinal dough\n  from Base  1000 g\n  salt  200 g\n\n\
                product Olive\n  made of Olive\n  piece  110 g\n\nproduct Nut\n  made of Nut\n  piece  120 g\n";
    let (book, day) = planned(text, &[40, 60], None);
    let day = day.unwrap();
    let base = day.dough(book.find("Base").unwrap()).unwrap();
    let mut taken: Vec<Mass> = base.need.taken.iter().map(|taken| taken.mass.clone()).collect();
    taken.sort();
    assert_eq!(taken, [grams(4000), grams(6000)]);
    assert_eq!((&base.need.lost, base.mass()), (&grams(2500), grams(12_500)));
    assert_eq!(day.doughs[0].need.dough, base.need.dough, "what is taken stands before what takes it");
}

/// `One` takes of `Two`, and only `Two` and `Three` take of each other: they are named and `One` is not.
#[test]
fn a_circle_is_named_without_what_only_leads_to_it() {
    let dough = |name: &str, from: &str| {
        format!("dough {name}\n\nfinal dough\n  strong white flour  1 kg\n  from {from}  100 g\n\n")
    };
    let doughs = [dough("One", "Two"), dough("Two", "Three"), dough("Three", "Two")].concat();
    let (book, day) = planned(&format!("{doughs}product One\n  made of One\n  piece  100 g\n"), &[1], None);
    let find = |name| book.find(name).unwrap();
    assert_eq!(day.unwrap_err(), DayError::Circle(vec![find("Two"), find("Three")]));
}

/// A chain of doughs is made from its end, however many of them a dough takes of.
#[test]
fn every_dough_stands_after_all_that_it_takes_of() {
    let plain = "dough D0\n\nfinal dough\n  strong white flour  1 kg\n\n".to_owned();
    let dough = |index: usize| {
        let from: String =
            (0..index).map(|other| ["  from D", &other.to_string(), "  100 g\n"].concat()).collect();
        format!("dough D{index}\n\nfinal dough\n  strong white flour  1 kg\n{from}\n")
    };
    let doughs: String = [plain].into_iter().chain((1..7).map(dough)).collect();
    let (book, day) = planned(&format!("{doughs}product Last\n  made of D6\n  piece  1600 g\n"), &[1], None);
    let names: Vec<String> =
        day.unwrap().doughs.iter().map(|dough| book.entry(dough.need.dough).unwrap().name.clone()).collect();
    assert_eq!(names, ["D0", "D1", "D2", "D3", "D4", "D5", "D6"]);
}
