//! What is bought and what it costs, by figures that can be worked out on paper.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use jiff::civil::{Date, date};
use levamen_bakery::Bakery;
use levamen_balance::Balancer;
use levamen_formula::{Book, IngredientId};
use levamen_language::TextId;
use levamen_plan::{Cost, Issue, Purchase, Stock, purchases};
use levamen_quantity::{Exact, Mass};

const BOOK: &str = "\
dough Loaf

overall
  strong white flour  100 %
  water                60 %
  salt                  2 %
  fresh yeast           2 %

product Loaf
  made of Loaf
  piece                 820 g
  each with poppy seeds   5 g

supply strong white flour
  pack          25 kg
  price         20 for 25 kg
  delivered in   2 days

supply fresh yeast
  pack            1 kg
  price           4 for 1 kg
  waste          20 %
  delivered in   30 h

supply salt
  price 0.5 for 1 kg
";

fn read() -> (Book, Bakery) {
    let texts = [(TextId(0), BOOK)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    (book, bakery)
}

fn kg(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(figure * 1000))
}

fn issues(book: &Book, name: &str, masses: &[(Date, i64)]) -> (IngredientId, Vec<Issue>) {
    let ingredient = book.pantry().find(name).unwrap();
    let issue = |(date, mass): &(Date, i64)| Issue {
        date: *date,
        ingredient,
        name: name.to_owned(),
        mass: kg(*mass),
    };
    (ingredient, masses.iter().map(issue).collect())
}

fn one(bakery: &Bakery, issues: &[Issue], stock: &[Stock]) -> Purchase {
    let all = purchases(bakery, issues, stock);
    assert_eq!(all.len(), 1);
    all.into_iter().next().unwrap()
}

#[test]
fn flour_is_bought_in_whole_packs_before_the_stock_runs_out() {
    let (book, bakery) = read();
    let days = [(date(2026, 11, 30), 40), (date(2026, 12, 1), 40), (date(2026, 12, 2), 40)];
    let (ingredient, issues) = issues(&book, "strong white flour", &days);
    let stock = [Stock { ingredient, mass: kg(60) }];
    let bought = one(&bakery, &issues, &stock);
    // 120 kg less 60 kg are 60 kg: three bags of 25 kg, 60 in all. The stock covers the first day and not the second.
    assert_eq!((bought.to_buy, bought.packs), (kg(60), Some(3)));
    assert_eq!(bought.short_on, Some(date(2026, 12, 1)));
    assert_eq!(bought.order_by, Some(date(2026, 11, 29)));
    assert_eq!(bought.price, Some(Exact::from(60)));
}

#[test]
fn waste_is_bought_too_and_a_delivery_of_thirty_hours_takes_two_days() {
    let (book, bakery) = read();
    let (_, issues) = issues(&book, "fresh yeast", &[(date(2026, 3, 1), 4)]);
    let bought = one(&bakery, &issues, &[]);
    assert_eq!((bought.needed, bought.packs), (kg(5), Some(5)));
    assert_eq!(bought.order_by, Some(date(2026, 2, 27)));
}

#[test]
fn what_the_stock_covers_is_not_bought() {
    let (book, bakery) = read();
    let (ingredient, issues) = issues(&book, "salt", &[(date(2026, 3, 1), 4)]);
    let bought = one(&bakery, &issues, &[Stock { ingredient, mass: kg(4) }]);
    assert_eq!((bought.to_buy, bought.short_on, bought.order_by), (Mass::ZERO, None, None));
    assert_eq!(bought.price, Some(Exact::ZERO));
}

#[test]
fn a_price_that_is_missing_is_named_and_never_zero() {
    let (book, bakery) = read();
    let loaf = book.find("Loaf").unwrap();
    let mut balancer = Balancer::new(&book);
    let balance = balancer.balance(loaf).unwrap();
    // A piece of 820 g is 500 g of flour: 0.40 of flour, 0.005 of salt, and 10 g of yeast at 5 a kilogram used, 0.05.
    let cost = Cost::of_piece(&bakery, &bakery.products[0], balance).unwrap();
    assert_eq!(cost.priced.to_decimal_string(), "0.455");
    let named: Vec<&str> = cost.unpriced.iter().map(|unpriced| unpriced.name.as_str()).collect();
    assert_eq!(named, ["water", "poppy seeds"]);
    assert!(!cost.is_whole());
    assert_eq!(cost.times(100).priced.to_decimal_string(), "45.5");
}
