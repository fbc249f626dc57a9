//! The store room's list, by figures that are worked out on paper.

use jiff::civil::{Date, date};
use levamen_formula::Book;
use levamen_plan::{Issue, Stock, purchases};
use levamen_quantity::{Exact, Mass};
use levamen_sheets::{Action, StoreSheet};
use proptest::prelude::*;

use crate::bakery::read;

fn grams(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(figure))
}

fn issue(book: &Book, day: Date, name: &str, mass: i64) -> Issue {
    let ingredient = book.pantry().find(name).unwrap();
    Issue { date: day, ingredient, name: name.to_owned(), mass: grams(mass) }
}

fn list(issues: &[(&str, i64)], stock: &[(&str, i64)]) -> StoreSheet {
    let (book, bakery) = read();
    let day = date(2026, 12, 4);
    let issues: Vec<Issue> = issues.iter().map(|(name, mass)| issue(&book, day, name, *mass)).collect();
    let stock: Vec<Stock> = stock
        .iter()
        .map(|(name, mass)| Stock { ingredient: book.pantry().find(name).unwrap(), mass: grams(*mass) })
        .collect();
    let bought = purchases(&bakery, &issues, &stock);
    StoreSheet::new((day, day), Some("EUR"), &bought, issues, Vec::new()).unwrap()
}

#[test]
fn what_to_order_stands_first_and_adds_up() {
    // 110 kg of flour less 50 kg on hand are 60 kg, three packs, 60.00. 4 kg of yeast are 5 kg with waste, five packs,
    // 20.00. 1 kg of salt 0.50. 100 g of poppy seeds 0.80, there at once. 60 kg of water have no supply and no price. There is sesame enough.
    let sheet = list(
        &[
            ("strong white flour", 110_000),
            ("fresh yeast", 4_000),
            ("salt", 1_000),
            ("poppy seeds", 100),
            ("water", 60_000),
            ("sesame seeds", 50),
        ],
        &[("strong white flour", 50_000), ("sesame seeds", 50)],
    );
    let groups: Vec<(Action, Vec<&str>, String)> = sheet
        .groups
        .iter()
        .map(|group| {
            let names = group.lines.iter().map(|line| line.name.as_str()).collect();
            (group.action, names, group.sum.to_string())
        })
        .collect();
    let early = Action::OrderBy(date(2026, 12, 2));
    let expected = [
        (early, vec!["fresh yeast", "salt", "strong white flour"], "80.50".to_owned()),
        (Action::Unsaid, vec!["water"], "0.00".to_owned()),
        (Action::Drawn, vec!["poppy seeds"], "0.80".to_owned()),
        (Action::Covered, vec!["sesame seeds"], "0.00".to_owned()),
    ];
    assert_eq!(groups, expected);
    assert_eq!(sheet.total.to_string(), "81.30");
    assert_eq!(sheet.unpriced().map(|line| line.name.as_str()).collect::<Vec<_>>(), ["water"]);
}

#[test]
fn packs_waste_and_stock_are_counted() {
    let sheet =
        list(&[("strong white flour", 110_000), ("fresh yeast", 4_000)], &[("strong white flour", 50_000)]);
    let line = |name: &str| sheet.lines().find(|line| line.name == name).unwrap();
    let flour = line("strong white flour");
    assert_eq!((&flour.to_buy, &flour.packs), (&grams(60_000), &Some((3, grams(25_000)))));
    assert_eq!(flour.price.unwrap().to_string(), "60.00");
    let yeast = line("fresh yeast");
    assert_eq!((&yeast.issued, &yeast.needed), (&grams(4_000), &grams(5_000)));
    assert_eq!(yeast.price.unwrap().to_string(), "20.00");
}

#[test]
fn nothing_issued_is_an_empty_list_that_costs_nothing() {
    let sheet = list(&[], &[]);
    assert_eq!((sheet.groups.len(), sheet.total.to_string().as_str()), (0, "0.00"));
}

proptest! {
    /// Prices add up to their group and groups to the total, which is less than a hundredth off.
    #[test]
    fn prices_add_up(salt in 1_i64..100_000, poppy in 1_i64..100_000, flour in 1_i64..100_000) {
        let sheet = list(&[("salt", salt), ("poppy seeds", poppy), ("strong white flour", flour)], &[]);
        let amount = |money: &levamen_sheets::Money| Exact::from(money.amount());
        let lines: Exact = sheet.lines().filter_map(|line| line.price).map(|price| amount(&price)).sum();
        let groups: Exact = sheet.groups.iter().map(|group| amount(&group.sum)).sum();
        prop_assert_eq!(&lines, &amount(&sheet.total));
        prop_assert_eq!(&groups, &amount(&sheet.total));
        // 0.50 and 8.00 a kilogram, and 20.00 for each pack that is begun.
        let packs = (flour + 24_999) / 25_000;
        let exact = Exact::ratio(salt * 500 + poppy * 8_000 + packs * 20_000_000, 1_000_000).unwrap();
        prop_assert!((&exact - &lines).abs() < Exact::ratio(1, 100).unwrap());
    }
}
