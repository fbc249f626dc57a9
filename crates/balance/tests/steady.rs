//! Random circles of doughs: mixed again from their parts they are the same doughs, and batch after batch, from any
//! beginning, they become what was found.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use std::fmt::Write as _;

use levamen_balance::{Balance, Balancer};
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_quantity::Exact;
use proptest::prelude::*;

const INGREDIENTS: [&str; 4] = ["white flour", "rye flour", "water", "salt"];
const FLOURS: usize = 2;

/// One dough: what is fresh in it, by ingredient, and how much it takes of which others.
#[derive(Debug, Clone)]
struct Mixed {
    fresh: [i64; 4],
    pieces: Vec<(usize, i64)>,
}

/// How the pieces of a circle are stated.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Stated {
    /// Everything in grams.
    ByWeight,
    /// Fresh ingredients in % of the fresh flour, pieces by the flour that comes through them, in % of all flour.
    ByFlour,
}

/// Doughs of which each takes from the next, and some from others.
fn circles() -> impl Strategy<Value = Vec<Mixed>> {
    let dough = (1..=99_i64, 30..=90_i64, 0..=3_i64, 1..=40_i64, prop::option::of((0..5_usize, 1..=30_i64)));
    prop::collection::vec(dough, 2..=5).prop_map(|doughs| {
        let count = doughs.len();
        let numbered = doughs.into_iter().enumerate();
        let mixed = numbered.map(|(number, (white, water, salt, piece, other))| {
            let mut pieces = vec![((number + 1) % count, piece)];
            let more = other.map(|(to, piece)| (to % count, piece));
            pieces.extend(more.filter(|(to, _)| *to != number && *to != pieces[0].0));
            Mixed { fresh: [white, 100 - white, water, salt], pieces }
        });
        mixed.collect()
    })
}

fn name(number: usize) -> String {
    format!("Circle-{number}")
}

fn text_of(doughs: &[Mixed], stated: Stated) -> String {
    let mut text = String::from("ingredient white flour\n  flour\n\ningredient rye flour\n  flour\n");
    let unit = if stated == Stated::ByWeight { "g" } else { "%" };
    for (number, dough) in doughs.iter().enumerate() {
        let _ = writeln!(text, "\ndough {}", name(number));
        if stated == Stated::ByFlour {
            for (to, piece) in &dough.pieces {
                let _ = writeln!(
                    text,
                    "\nstage piece of {0}, an old dough\n  takes  {piece} % of the flour\n  from {0}",
                    name(*to)
                );
            }
        }
        let _ = writeln!(text, "\nfinal dough");
        for (ingredient, amount) in INGREDIENTS.iter().zip(dough.fresh).filter(|(_, amount)| *amount > 0) {
            let _ = writeln!(text, "  {ingredient}  {amount} {unit}");
        }
        if stated == Stated::ByWeight {
            for (to, piece) in &dough.pieces {
                let _ = writeln!(text, "  from {}  {piece} g", name(*to));
            }
        }
    }
    text
}

fn balances(text: &str) -> Vec<Balance> {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert!(problems.is_empty(), "{problems:?}\n{text}");
    let mut balancer = Balancer::new(&book);
    let ids = (0..).map(name).map_while(|name| book.find(&name));
    ids.map(|id| balancer.balance(id).expect("a steady composition").clone()).collect()
}

/// What a dough holds of each ingredient for one of its flour, or of its weight.
fn held(balance: &Balance, stated: Stated) -> [Exact; 4] {
    let whole = match stated {
        Stated::ByWeight => balance.weight.fraction().clone(),
        Stated::ByFlour => Exact::ONE,
    };
    INGREDIENTS.map(|ingredient| {
        let row = balance.overall.iter().find(|row| row.name == ingredient);
        row.map_or(Exact::ZERO, |row| row.share.fraction() / &whole)
    })
}

/// A dough mixed from its fresh part and the pieces of the others, for one of its flour or of its weight.
fn mix<N>(dough: &Mixed, others: &[[N; 4]], stated: Stated, number: impl Fn(i64) -> N) -> [N; 4]
where
    N: Clone,
    for<'a> &'a N: std::ops::Add<&'a N, Output = N>
        + std::ops::Mul<&'a N, Output = N>
        + std::ops::Div<&'a N, Output = N>,
{
    let taken: i64 = dough.pieces.iter().map(|(_, piece)| piece).sum();
    let (fresh, whole) = match stated {
        Stated::ByWeight => (1, dough.fresh.iter().sum::<i64>() + taken),
        // Of 100 parts of flour so many are fresh; there are 100 percent of fresh ingredients to each of these.
        Stated::ByFlour => (100 - taken, 10_000),
    };
    let piece_unit = if stated == Stated::ByWeight { 1 } else { 100 };
    std::array::from_fn(|ingredient| {
        let own = number(dough.fresh[ingredient] * fresh);
        let sum = dough
            .pieces
            .iter()
            .fold(own, |sum, (to, piece)| &sum + &(&number(piece * piece_unit) * &others[*to][ingredient]));
        &sum / &number(whole)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn a_steady_dough_mixed_again_is_the_same_dough(
        doughs in circles(),
        stated in prop_oneof![Just(Stated::ByWeight), Just(Stated::ByFlour)],
    ) {
        let found: Vec<[Exact; 4]> =
            balances(&text_of(&doughs, stated)).iter().map(|balance| held(balance, stated)).collect();
        for (dough, composition) in doughs.iter().zip(&found) {
            prop_assert_eq!(&mix(dough, &found, stated, Exact::from), composition);
        }
    }

    #[test]
    fn batch_after_batch_any_beginning_becomes_the_steady_dough(
        doughs in circles(),
        stated in prop_oneof![Just(Stated::ByWeight), Just(Stated::ByFlour)],
        begin in 0..FLOURS,
    ) {
        let found = balances(&text_of(&doughs, stated));
        // The first batches of all are taken from nothing but one flour.
        let mut batch: Vec<[f64; 4]> = vec![std::array::from_fn(|at| f64::from(u8::from(at == begin))); doughs.len()];
        #[expect(clippy::cast_precision_loss, reason = "the whole numbers here are small")]
        let number = |whole: i64| whole as f64;
        for _ in 0..400 {
            batch = doughs.iter().map(|dough| mix(dough, &batch, stated, number)).collect();
        }
        for (balance, composition) in found.iter().zip(&batch) {
            for (exact, float) in held(balance, stated).iter().zip(composition) {
                prop_assert!((exact.to_f64() - float).abs() < 1e-12, "{} {float}", exact.to_f64());
            }
        }
    }
}
