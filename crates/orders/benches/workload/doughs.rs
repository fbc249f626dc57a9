//! The doughs of the workload, and from pieces to what is weighed for them.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use jiff::civil::Date;
use levamen_balance::{Balance, Balancer};
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_orders::{Demand, Products};
use levamen_quantity::{Exact, Mass};

/// How many doughs there are.
pub const DOUGHS: u64 = 40;

/// What is weighed on a day: by dough, stage and line.
pub type Weighed = BTreeMap<(Date, u64, String, String), Mass>;

/// The products of the workload with their doughs.
pub struct Bakery {
    /// By the number in their names.
    pub products: Products,
    /// By their numbers.
    pub doughs: Vec<Balance>,
}

impl Bakery {
    /// Two hundred products of forty doughs.
    pub fn new() -> Self {
        let texts: Vec<String> = (0..DOUGHS).map(text).collect();
        let layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
        let (book, problems) = Book::read(&[&layer]);
        assert!(problems.is_empty(), "{problems:?}");
        let mut balancer = Balancer::new(&book);
        let doughs = book.entries().filter_map(|(id, _)| balancer.balance(id).ok().cloned()).collect();
        Self { products: Products::new((0..super::PRODUCTS).map(super::product)), doughs }
    }

    /// The dough of a product, and the grams of a piece.
    pub fn made_of(product: u64) -> (u64, u64) {
        (product % DOUGHS, 400 + product * 37 % 800)
    }

    /// Everything that is weighed for a demand, exactly: one multiplication for each day, dough and line.
    pub fn weighed(&self, demand: &Demand) -> Weighed {
        let mut grams: BTreeMap<(Date, u64), Exact> = BTreeMap::new();
        for (day, product, pieces) in demand.iter() {
            let (dough, piece) = Self::made_of(product.index() as u64);
            let sum = grams.entry((day, dough)).or_insert(Exact::ZERO);
            *sum += &exact(pieces.count() * piece);
        }
        let mut weighed = Weighed::new();
        for ((day, dough), grams) in grams {
            let balance = usize::try_from(dough).ok().and_then(|dough| self.doughs.get(dough));
            let batch = balance.and_then(|own| own.where_weighs(&own.weight, &Mass::from_grams(grams)));
            let Some(batch) = batch else { continue };
            for stage in &batch.balance().stages {
                for line in &stage.lines {
                    let key = (day, dough, stage.name.clone(), line.name.clone());
                    weighed.insert(key, batch.mass(&line.share));
                }
            }
        }
        weighed
    }
}

/// A number that is not larger than all pieces of all orders in grams.
fn exact(number: u64) -> Exact {
    i64::try_from(number).map(Exact::from).unwrap_or_default()
}

/// A dough of two flours with a poolish, a levain or both.
pub fn text(number: u64) -> String {
    let (rye, water, fermented) = (5 + number % 30, 60 + number % 25, 10 + number % 20);
    let mut text = format!(
        "dough Dough {number:02}\n\noverall\n  strong white flour  {} %\n  whole rye flour  {rye} %\n  water  {water} %\n  \
         salt  2 %\n  fresh yeast  0.{} %\n",
        100 - rye,
        1 + number % 9
    );
    if !number.is_multiple_of(3) {
        let _ = write!(
            text,
            "\nstage poolish, a poolish\n  takes  {fermented} % of the flour\n  strong white flour  100 %\n  water  100 %\n  \
             fresh yeast  0.1 %\n"
        );
    }
    if number % 3 != 1 {
        let _ = write!(
            text,
            "\nstage levain, a levain\n  takes  {} % of the flour\n  strong white flour  100 %\n  water  80 %\n",
            fermented / 2
        );
    }
    text
}
