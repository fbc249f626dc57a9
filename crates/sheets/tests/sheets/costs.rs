//! What doughs, pieces and orders cost, by figures that are worked out on paper.

use std::collections::BTreeMap;

use jiff::civil::date;
use levamen_bakery::{Bakery, Product, ProductId};
use levamen_plan::Cost;
use levamen_quantity::Exact;
use levamen_sheets::{DoughCost, Money, Ordered, OrdersCost};
use proptest::prelude::*;
use rust_decimal::Decimal;

use crate::bakery::{loaf, read};

fn dough_cost() -> DoughCost {
    let (book, bakery) = read();
    let products: Vec<&Product> = bakery.products.iter().collect();
    DoughCost::new(&bakery, &loaf(&book), &products).unwrap()
}

#[test]
fn a_kilogram_of_dough_costs_what_its_lines_cost() {
    // 1000 / 1.64 = 609.76 g of flour at 0.80: 0.48780; 12.195 g of salt at 0.50: 0.00610; of yeast at 5.00: 0.06098.
    let cost = dough_cost();
    let lines: Vec<(&str, Option<String>)> = cost
        .lines
        .iter()
        .map(|line| (line.name.as_str(), line.price.map(|price| price.to_string())))
        .collect();
    let price = |words: &str| Some(words.to_owned());
    let expected = [
        ("strong white flour", price("0.4878")),
        ("water", None),
        ("salt", price("0.0061")),
        ("fresh yeast", price("0.0610")),
    ];
    assert_eq!(lines, expected);
    assert_eq!(cost.kilogram.to_string(), "0.5549");
}

#[test]
fn a_batch_costs_what_its_flour_stands_for() {
    // 100 pieces of 820 g are 82 kg of dough, from 50 kg of flour, at 0.91.
    let cost = dough_cost();
    assert_eq!(cost.size.unwrap().grams(), &Exact::from(82_000));
    assert_eq!(cost.batch.unwrap().to_string(), "45.50");
}

#[test]
fn a_piece_costs_its_loss_and_what_goes_on_it() {
    // A loaf is 820 g after 2 % are lost, so 510.204 g of flour at 0.91, 0.46429, and 5 g of poppy seeds at 8.00, 0.04.
    // A roll is 82 g and nothing is lost: 50 g of flour, 0.0455; what sesame costs nobody says.
    let cost = dough_cost();
    let prices: Vec<String> = cost.pieces.iter().map(|piece| piece.price.to_string()).collect();
    assert_eq!(prices, ["0.5043", "0.0455"]);
}

#[test]
fn what_has_no_price_is_named_where_it_is_missing() {
    let cost = dough_cost();
    assert_eq!(cost.unpriced, ["water"]);
    let [of_loaf, of_roll] = [0, 1].map(|at| &cost.pieces[at]);
    assert_eq!((&of_loaf.unpriced, of_loaf.unpriced_beside_dough.len()), (&vec!["water".to_owned()], 0));
    assert_eq!(of_roll.unpriced, ["water", "sesame seeds"]);
    assert_eq!(of_roll.unpriced_beside_dough, ["sesame seeds"]);
    assert_eq!(DoughCost::all_unpriced(&[cost]), ["sesame seeds", "water"]);
}

#[test]
fn a_dough_of_no_size_has_no_price_for_a_batch() {
    let (book, bakery) = read();
    let mut balance = loaf(&book);
    balance.size = levamen_balance::StatedSize::Open;
    let cost = DoughCost::new(&bakery, &balance, &[]).unwrap();
    assert_eq!((cost.size, cost.batch), (None, None));
    assert_eq!(cost.kilogram.to_string(), "0.5549");
}

/// What one piece of each product costs, exact.
fn pieces(bakery: &Bakery) -> BTreeMap<ProductId, Cost> {
    let (book, _) = read();
    let balance = loaf(&book);
    let products = ProductId::all().zip(&bakery.products);
    products.map(|(id, product)| (id, Cost::of_piece(bakery, product, &balance).unwrap())).collect()
}

fn ordered(customer: Option<&str>, product: u32, pieces: u64) -> Ordered {
    Ordered { customer: customer.map(str::to_owned), product: ProductId::new(product), pieces }
}

fn hundredths(figure: i64) -> Money {
    Money::new(Decimal::new(figure, 2))
}

#[test]
fn customers_pay_for_what_they_ordered() {
    let (_, bakery) = read();
    // 3 loaves 1.51286, 7 rolls 0.3185; 5 loaves 2.52143; 2 rolls that nobody ordered 0.091; in all 4.44379.
    let orders = [
        ordered(Some("Harbour cafe"), 0, 3),
        ordered(Some("Harbour cafe"), 1, 7),
        ordered(Some("Mill inn"), 0, 5),
        ordered(None, 1, 2),
    ];
    let cost = OrdersCost::new(date(2026, 11, 27), &bakery, &pieces(&bakery), &orders).unwrap();
    let sums: Vec<(Option<&str>, Money)> =
        cost.customers.iter().map(|customer| (customer.customer.as_deref(), customer.sum)).collect();
    let expected =
        [(Some("Harbour cafe"), hundredths(183)), (Some("Mill inn"), hundredths(252)), (None, hundredths(9))];
    assert_eq!(sums, expected);
    let of_cafe: Vec<Money> = cost.customers[0].lines.iter().map(|line| line.price).collect();
    assert_eq!(of_cafe, [hundredths(151), hundredths(32)]);
    assert_eq!(cost.total, hundredths(444));
    assert_eq!(cost.unpriced, ["water", "sesame seeds"]);
}

#[test]
fn no_piece_costs_nothing() {
    let (_, bakery) = read();
    let day = date(2026, 11, 27);
    let none = OrdersCost::new(day, &bakery, &BTreeMap::new(), &[ordered(Some("Mill inn"), 0, 0)]).unwrap();
    assert_eq!(none.total, hundredths(0));
    let empty = OrdersCost::new(day, &bakery, &BTreeMap::new(), &[]).unwrap();
    assert_eq!((empty.customers.len(), empty.total.to_string().as_str()), (0, "0.00"));
}

proptest! {
    /// What is shown adds up: lines to their customer, customers to the total; and no sum is a hundredth off.
    #[test]
    fn what_customers_pay_adds_up(
        counts in prop::collection::vec((0_usize..4, 0_u32..2, 1_u64..400), 1..20)
    ) {
        let (_, bakery) = read();
        let pieces = pieces(&bakery);
        let mut counts = counts;
        counts.sort_unstable();
        let orders: Vec<Ordered> = counts
            .iter()
            .map(|(customer, product, count)| ordered(Some(&format!("customer {customer}")), *product, *count))
            .collect();
        let cost = OrdersCost::new(date(2026, 11, 27), &bakery, &pieces, &orders).unwrap();
        let exact: Exact = orders.iter().map(|order| pieces[&order.product].times(order.pieces).priced).sum();
        let amount = |money: &Money| Exact::from(money.amount());
        let of_lines = cost.customers.iter().flat_map(|customer| &customer.lines).map(|line| amount(&line.price));
        prop_assert_eq!(of_lines.sum::<Exact>(), amount(&cost.total));
        for customer in &cost.customers {
            let lines = customer.lines.iter().map(|line| amount(&line.price)).sum::<Exact>();
            prop_assert_eq!(lines, amount(&customer.sum));
        }
        let off = (&amount(&cost.total) - &exact).abs();
        prop_assert!(off < Exact::ratio(1, 100).unwrap());
    }
}
