//! A day is conserved: what is ordered is what is made, taken, kept and lost, and nothing else.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::collections::BTreeMap;

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::{BalancedItem, Balancer, BookBalances};
use levamen_formula::{Book, FormulaId};
use levamen_language::TextId;
use levamen_plan::{Day, DayError, DayOrders};
use levamen_quantity::{Exact, Mass};
use proptest::prelude::*;

/// A bakery with a base that two doughs share, a poolish for two doughs, old dough of a dough's own and of another's,
/// a culture, and products with spares, heads and toppings.
const BOOK: &str = include_str!("day/book.dough");

fn read(text: &str) -> (Book, Bakery) {
    let texts = [(TextId(0), text)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    (book, bakery)
}

fn grams(mass: &Mass) -> String {
    mass.grams().to_fixed(3)
}

fn named<'d>(day: &'d Day, name: &str) -> Option<&'d levamen_plan::DayDough> {
    day.doughs.iter().find(|dough| dough.balance.dough == name)
}

fn product(bakery: &Bakery, name: &str) -> ProductId {
    ProductId::all().zip(&bakery.products).find(|(_, product)| product.name == name).unwrap().0
}

#[test]
fn a_base_is_mixed_once_for_the_doughs_that_share_it() {
    let (book, bakery) = read(BOOK);
    let olive = product(&bakery, "Olive loaf");
    let nut = product(&bakery, "Nut loaf");
    let day = Day::plan(
        &BookBalances::new(&book),
        &bakery,
        &DayOrders::from_pieces([(olive, 10), (nut, 20)]),
        None,
    )
    .unwrap();
    // 10 olive loaves of 550 g are 5.5 kg, of which 10/11 are base; 20 nut loaves of 600 g are 12 kg, of which 5/6 are.
    let base = named(&day, "Plain dough").unwrap();
    let taken: Vec<String> = base.need.taken.iter().map(|taken| grams(&taken.mass)).collect();
    assert_eq!(taken, ["10000.000", "5000.000"]);
    assert!(base.need.taken.iter().all(|taken| taken.is_base));
    let at = |name| day.doughs.iter().position(|dough| dough.balance.dough == name);
    assert!(at("Plain dough") < at("Olive dough") && at("Plain dough") < at("Nut dough"));
}

#[test]
fn old_dough_is_made_beyond_the_orders_and_is_as_much_as_the_day_takes() {
    let (book, bakery) = read(BOOK);
    let daily = product(&bakery, "Daily bread");
    let day =
        Day::plan(&BookBalances::new(&book), &bakery, &DayOrders::from_pieces([(daily, 40)]), None).unwrap();
    let dough = named(&day, "Daily bread").unwrap();
    let old = day.old_dough.iter().find(|(id, _)| *id == dough.need.dough).unwrap();
    assert_eq!(old.1, dough.need.kept);
    assert!(dough.mass() > dough.need.pieces[0].dough);
}

#[test]
fn tomorrow_says_how_much_old_dough_is_kept() {
    let (book, bakery) = read(BOOK);
    let daily = product(&bakery, "Daily bread");
    let (today, tomorrow) = (DayOrders::from_pieces([(daily, 10)]), DayOrders::from_pieces([(daily, 1000)]));
    let day = Day::plan(&BookBalances::new(&book), &bakery, &today, Some(&tomorrow)).unwrap();
    let next = Day::plan(&BookBalances::new(&book), &bakery, &tomorrow, None).unwrap();
    assert_eq!(named(&day, "Daily bread").unwrap().need.kept, named(&next, "Daily bread").unwrap().need.kept);
}

#[test]
fn a_day_without_orders_needs_nothing() {
    let (book, bakery) = read(BOOK);
    let day = Day::plan(&BookBalances::new(&book), &bakery, &DayOrders::default(), None).unwrap();
    assert!(day.doughs.is_empty() && day.toppings.is_empty());
}

#[test]
fn doughs_that_need_each_other_on_one_day_are_refused() {
    let text = "dough One\n\nfinal dough\n  flour  1 kg\n  from Two  100 g\n\n\
                dough Two\n\nfinal dough\n  flour  1 kg\n  from One  100 g\n\n\
                product One\n  made of One\n  piece  100 g\n";
    let text = text.replace("flour ", "strong white flour ");
    let (book, bakery) = read(&text);
    let refused = Day::plan(
        &BookBalances::new(&book),
        &bakery,
        &DayOrders::from_pieces([(ProductId::new(0), 1)]),
        None,
    );
    assert!(matches!(refused, Err(DayError::Circle(doughs)) if doughs.len() == 2));
}

/// What goes into each dough of the day by a slow and plain count, from the orders alone.
fn weighed(day: &Day) -> BTreeMap<FormulaId, Exact> {
    let mut weighed = BTreeMap::new();
    for dough in &day.doughs {
        let batch = dough.batch();
        let lines = dough.balance.stages.iter().flat_map(|stage| &stage.lines);
        let into = lines.filter(|line| !matches!(line.item, BalancedItem::Stage(_)));
        let sum: Exact = into.map(|line| batch.mass(&line.share).grams().clone()).sum();
        weighed.insert(dough.need.dough, sum);
    }
    weighed
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_weighed_is_what_is_made_and_what_goes_off(
        pieces in proptest::collection::vec(0_u64..3000, 6),
        next in proptest::option::of(proptest::collection::vec(0_u64..3000, 6)),
        full in any::<bool>(),
    ) {
        let text = if full { BOOK.replace("batches equal", "batches full") } else { BOOK.to_owned() };
        let (book, bakery) = read(&text);
        let orders = |pieces: &[u64]| DayOrders::from_pieces(ProductId::all().zip(pieces.iter().copied()));
        let tomorrow = next.as_deref().map(orders);
        let day = Day::plan(&BookBalances::new(&book), &bakery, &orders(&pieces), tomorrow.as_ref()).unwrap();
        let weighed = weighed(&day);
        let mut balancer = Balancer::new(&book);
        for dough in &day.doughs {
            let mass = dough.mass();
            // The batches are the dough.
            let parts: Exact = dough.batches.parts.iter().map(Mass::grams).sum();
            prop_assert_eq!(&parts, mass.grams());
            // Every batch is within its mixer, or it is told.
            let mixer = dough.batches.mixer.and_then(|id| bakery.mixer(id));
            if let Some(most) = mixer.and_then(|mixer| mixer.most_dough.as_ref()) {
                prop_assert!(dough.batches.parts.iter().all(|part| part <= most));
            }
            // Splitting changes nothing of the whole, and all that goes in comes out.
            let whole = balancer.balance(dough.need.dough).unwrap();
            prop_assert_eq!(&whole.overall, &dough.balance.overall);
            let out: Exact = dough.balance.stages.iter().map(|stage| {
                let goes = stage.steam.fraction() + stage.left_over.fraction();
                &(&goes + stage.given_back.fraction()) * dough.flour.grams()
            }).sum();
            prop_assert_eq!(&weighed[&dough.need.dough], &(mass.grams() + &out));
            // What is made is what is sold with its loss, taken, kept and lost.
            let sold: Exact = dough.need.pieces.iter().map(|pieces| {
                let product = bakery.product(pieces.product).unwrap();
                assert!(pieces.made >= pieces.ordered);
                let net = product.piece.dough().grams() * &Exact::from(i64::try_from(pieces.made).unwrap());
                net.checked_div(product.losing.rest().fraction()).unwrap()
            }).sum();
            let taken: Exact = dough.need.taken.iter().map(|taken| taken.mass.grams()).sum();
            let spent = &(&sold + &taken) + &(dough.need.kept.grams() + dough.need.lost.grams());
            prop_assert_eq!(mass.grams(), &spent);
        }
        // What a dough takes of another is what stands in the other's need.
        for dough in &day.doughs {
            for line in dough.balance.stages.iter().flat_map(|stage| &stage.lines) {
                let Some(source) = line.from.filter(|_| line.item == BalancedItem::Piece) else { continue };
                let kept = day.old_dough.iter().any(|(id, _)| *id == source);
                let found = day.doughs.iter().any(|other| other.need.dough == source);
                prop_assert!(found || kept);
            }
        }
    }
}
