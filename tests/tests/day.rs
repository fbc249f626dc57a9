//! A day is conserved from the orders to the store room: what stages weigh is what sheets say, sheets say what is issued,
//! and a demo day needs to the last fraction what a script apart works out.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use jiff::civil::date;
use levamen_bakery::{Bakery, ProductId};
use levamen_balance::{BalancedItem, BookBalances};
use levamen_formula::{Book, IngredientId};
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders, Starts};
use levamen_quantity::Exact;
use levamen_sheets::{DaySheets, LineSource, Weight};
use levamen_tests::ratio::from_exact;
use levamen_timetable::Clock;
use num_rational::BigRational;
use proptest::prelude::*;

fn here(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

/// The demo book and its bakery.
fn demo() -> (Book, Bakery) {
    let listed = std::fs::read_dir(here("../formulas")).into_iter().flatten().filter_map(Result::ok);
    let mut paths: Vec<PathBuf> = listed.map(|entry| entry.path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "dough"));
    paths.sort();
    let texts: Vec<String> = paths.iter().filter_map(|path| std::fs::read_to_string(path).ok()).collect();
    let texts: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, _) = Book::read(&[&texts]);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    (book, bakery)
}

type Needs = BTreeMap<IngredientId, Exact>;

fn add(needs: &mut Needs, id: IngredientId, grams: &Exact) {
    let sum = needs.entry(id).or_default();
    *sum = &*sum + grams;
}

/// What a day needs of each ingredient, unrounded: every line of every stage, and the toppings.
fn exact(day: &Day) -> Needs {
    let mut needs = Needs::new();
    for dough in &day.doughs {
        for line in dough.balance.stages.iter().flat_map(|stage| &stage.lines) {
            if let BalancedItem::Ingredient { id, .. } = line.item {
                add(&mut needs, id, line.share.of(&dough.flour).grams());
            }
        }
    }
    for (id, _, mass) in &day.toppings {
        add(&mut needs, *id, mass.grams());
    }
    needs
}

/// What the sheets weigh of each ingredient, and the divisions that it is weighed in, added up.
fn weighed(sheets: &DaySheets) -> (Needs, Needs) {
    let (mut weights, mut divisions) = (Needs::new(), Needs::new());
    for line in sheets.doughs.iter().flat_map(|dough| &dough.sheet.stages).flat_map(|stage| &stage.lines) {
        if let (BalancedItem::Ingredient { id, .. }, LineSource::Weighed(on)) = (line.item, &line.source) {
            add(&mut weights, id, line.weight.as_exact().grams());
            add(&mut divisions, id, on.scale.division.grams());
        }
    }
    for topping in &sheets.toppings {
        add(&mut weights, topping.ingredient, topping.weight.as_exact().grams());
        // What goes on pieces is rounded up on its scale, of which none is coarser than this.
        add(&mut divisions, topping.ingredient, &Exact::from(40));
    }
    (weights, divisions)
}

/// Says what is wrong with what is issued for a day's sheets, where anything is.
fn unconserved(book: &Book, sheets: &DaySheets, starts: &Starts) -> Vec<String> {
    let (weights, _) = weighed(sheets);
    let issued = sheets.issued.iter();
    let by_day: Needs =
        issued.map(|issued| (issued.ingredient, issued.weight.as_exact().grams().clone())).collect();
    let mut by_date = Needs::new();
    for issue in sheets.issues(date(2026, 12, 4), starts) {
        add(&mut by_date, issue.ingredient, issue.mass.grams());
    }
    let mut wrong = Vec::new();
    let ids: BTreeSet<&IngredientId> = weights.keys().chain(by_day.keys()).chain(by_date.keys()).collect();
    for id in ids {
        let of = |needs: &Needs| needs.get(id).cloned().unwrap_or_default();
        if of(&weights) != of(&by_day) || of(&weights) != of(&by_date) {
            let name = book.pantry().get(*id).map(|known| known.name.clone()).unwrap_or_default();
            wrong.push(format!("{name}: {} {} {}", of(&weights), of(&by_day), of(&by_date)));
        }
    }
    wrong
}

/// A day's sheets, and when its stages are set.
fn planned(book: &Book, bakery: &Bakery, orders: &DayOrders) -> (Day, DaySheets, Starts) {
    let day = Day::plan(&BookBalances::new(book), bakery, orders, None).unwrap();
    let clock = Clock::new(date(2026, 12, 4), jiff::tz::TimeZone::UTC).unwrap();
    let (sheets, starts) =
        (DaySheets::new(&day, &book.scales()).unwrap(), Starts::new(bakery, &day, &clock).unwrap());
    (day, sheets, starts)
}

#[test]
fn what_sheets_weigh_is_what_is_issued() {
    let (book, bakery) = demo();
    let products = u32::try_from(bakery.products.len()).unwrap();
    let orders = proptest::collection::vec(((0..products).prop_map(ProductId::new), 1_u64..400), 1..12);
    proptest!(ProptestConfig::with_cases(24), |(ordered in orders)| {
        let (_, sheets, starts) = planned(&book, &bakery, &DayOrders::from_pieces(ordered));
        prop_assert_eq!(unconserved(&book, &sheets, &starts), Vec::<String>::new());
    });
}

/// The orders of the demo day.
fn ordered(bakery: &Bakery) -> DayOrders {
    let mut reader = csv::Reader::from_path(here("day/orders.csv")).unwrap();
    let rows = reader.records().map(|row| {
        let row = row.unwrap();
        let mut products = ProductId::all().zip(&bakery.products);
        let (product, _) = products.find(|(_, product)| Some(product.name.as_str()) == row.get(2)).unwrap();
        (product, row.get(3).unwrap().parse().unwrap())
    });
    DayOrders::from_pieces(rows)
}

/// What the script works out, by ingredient.
fn recomputed() -> BTreeMap<String, BigRational> {
    let text = std::fs::read_to_string(here("day/needs.json")).unwrap();
    let needs: BTreeMap<String, String> = serde_json::from_str(&text).unwrap();
    needs.into_iter().map(|(name, fraction)| (name, fraction.parse().unwrap())).collect()
}

#[test]
fn a_demo_day_needs_what_a_script_works_out() {
    let (book, bakery) = demo();
    let day = Day::plan(&BookBalances::new(&book), &bakery, &ordered(&bakery), None).unwrap();
    let named = |id: &IngredientId| book.pantry().get(*id).map(|known| known.name.clone());
    let needs: BTreeMap<String, BigRational> =
        exact(&day).iter().map(|(id, grams)| (named(id).unwrap(), from_exact(grams).unwrap())).collect();
    assert_eq!(needs, recomputed());
}

#[test]
fn a_demo_day_weighs_what_it_needs_within_its_scales() {
    let (book, bakery) = demo();
    let (day, sheets, starts) = planned(&book, &bakery, &ordered(&bakery));
    assert_eq!(unconserved(&book, &sheets, &starts), Vec::<String>::new());
    let (weights, divisions) = weighed(&sheets);
    for (id, exact) in exact(&day) {
        let of = |needs: &Needs| needs.get(&id).cloned().unwrap_or_default();
        let by = (&of(&weights) - &exact).abs();
        let most = &of(&divisions) / &Exact::from(2);
        assert!(by <= most, "{:?}: by {by}, at most {most}", book.pantry().get(id));
    }
}

#[test]
fn a_gram_that_nobody_weighs_is_noticed() {
    let (book, bakery) = demo();
    let (_, mut sheets, starts) = planned(&book, &bakery, &ordered(&bakery));
    let line = &mut sheets.doughs[0].sheet.stages[0].lines[0];
    line.weight = line.weight.try_add(Weight::from_grams(1.into())).unwrap();
    // The line is off its exact weight by no division yet, so only the sums can tell.
    assert_eq!(unconserved(&book, &sheets, &starts).len(), 1);
}
