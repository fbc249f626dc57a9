//! Small days held against plain enumeration: every number of pieces, every way to part a dough into batches.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fmt::Write as _;

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{BatchWarning, Day, DayOrders, Pieces};
use levamen_quantity::{Exact, Mass};

/// Flour is half of the dough, so a mixer's most flour is half of its most dough.
const DOUGH: &str = "dough Batter\n\nfinal dough\n  white flour  100 %\n  water  100 %\n\n";

/// A mixer's bounds in whole kilograms of dough; a least of 0 is none.
#[derive(Debug, Clone, Copy)]
struct Bounds {
    least: u64,
    most: u64,
}

/// A small day: the cards of its bakery, and the pieces that are ordered.
struct Small {
    cards: String,
    ordered: u64,
}

impl Small {
    /// Pieces of a kilogram, so that a piece is a kilogram of dough.
    fn of_kilograms(dough: u64, batching: &str, mixers: &[Bounds]) -> Self {
        let mut cards =
            format!("bakery Small\n  batches {batching}\n\nproduct Piece\n  made of Batter\n  piece  1 kg\n");
        for (number, Bounds { least, most }) in mixers.iter().enumerate() {
            // Every other mixer is bounded by its flour.
            let (unit, most) = if number % 2 == 0 { ("dough", *most * 1000) } else { ("flour", most * 500) };
            writeln!(cards, "\nmixer mixer {number}\n  most  {most} g of {unit}").unwrap();
            if *least > 0 {
                writeln!(cards, "  least  {least} kg of dough").unwrap();
            }
        }
        Self { cards, ordered: dough }
    }

    /// The one dough of the day.
    fn planned(&self) -> levamen_plan::DayDough {
        let text = format!("{DOUGH}{}", self.cards);
        let texts = [(TextId(0), text.as_str())];
        let (book, problems) = Book::read(&[&texts]);
        assert_eq!(problems, []);
        let (bakery, problems) = Bakery::read(&book, &texts);
        assert_eq!(problems, []);
        let day = Day::plan(
            &BookBalances::new(&book),
            &bakery,
            &DayOrders::from_pieces([(ProductId::new(0), self.ordered)]),
            None,
        )
        .unwrap();
        day.doughs.into_iter().next().unwrap()
    }
}

/// Every way to part a dough into batches of whole kilograms within bounds, largest first.
fn ways(dough: u64, Bounds { least, most }: Bounds) -> Vec<Vec<u64>> {
    if dough == 0 {
        return vec![Vec::new()];
    }
    let first = (least.max(1)..=most.min(dough)).rev();
    let with = |batch| {
        let rest = ways(dough - batch, Bounds { least, most: batch });
        rest.into_iter().map(move |rest| [&[batch], rest.as_slice()].concat())
    };
    first.flat_map(with).collect()
}

fn kg(figure: u64) -> Mass {
    Mass::from_grams(Exact::from(i64::try_from(figure * 1000).unwrap()))
}

/// All bounds of a small mixer, those with a least near to the most among them.
fn all_bounds() -> impl Iterator<Item = Bounds> {
    (1..=9).flat_map(|most| (0..=most).map(move |least| Bounds { least, most }))
}

fn is_told_too_small(remarks: &[BatchWarning]) -> bool {
    remarks.iter().any(|remark| matches!(remark, BatchWarning::BelowLeast { .. }))
}

#[test]
fn batches_are_as_few_as_can_be_and_within_the_bounds_if_there_is_any_such_way() {
    for (bounds, dough) in all_bounds().flat_map(|bounds| (1..=16).map(move |dough| (bounds, dough))) {
        let fewest = ways(dough, Bounds { least: 0, ..bounds }).iter().map(Vec::len).min().unwrap();
        let within = ways(dough, bounds);
        for batching in ["equal", "full"] {
            let batches = Small::of_kilograms(dough, batching, &[bounds]).planned().batches;
            let case = format!("{dough} kg, {bounds:?}, {batching}: {batches:?}");
            assert_eq!(batches.parts.len(), fewest, "{case}");
            assert!(batches.parts.iter().all(|part| *part <= kg(bounds.most)), "{case}");
            assert_eq!(batches.parts.iter().map(Mass::grams).sum::<Exact>(), *kg(dough).grams(), "{case}");
            assert_eq!(is_told_too_small(&batches.remarks), within.is_empty(), "{case}");
        }
    }
}

#[test]
fn full_batches_are_as_many_as_leave_the_others_at_their_least() {
    for (bounds, dough) in all_bounds().flat_map(|bounds| (1..=16).map(move |dough| (bounds, dough))) {
        let full = |way: &Vec<u64>| way.iter().filter(|batch| **batch == bounds.most).count();
        let within = ways(dough, bounds);
        let fewest = within.iter().map(Vec::len).min();
        let Some(most_full) = within.iter().filter(|way| Some(way.len()) == fewest).map(full).max() else {
            continue;
        };
        let parts = Small::of_kilograms(dough, "full", &[bounds]).planned().batches.parts;
        let own = parts.iter().filter(|part| **part == kg(bounds.most)).count();
        assert_eq!(own, most_full, "{dough} kg, {bounds:?}: {parts:?}");
    }
}

#[test]
fn a_dough_without_a_method_goes_into_the_smallest_mixer_that_takes_it_whole() {
    let mixers = [(1, 4), (0, 6), (5, 9)].map(|(least, most)| Bounds { least, most });
    let orders = [[0, 1, 2], [2, 1, 0], [1, 0, 2], [1, 2, 0]];
    for (order, dough) in orders.iter().flat_map(|order| (1..=14).map(move |dough| (order, dough))) {
        let mixers = order.map(|index| mixers[index]);
        let own = Small::of_kilograms(dough, "equal", &mixers).planned().batches.mixer.unwrap();
        let takes = mixers.iter().filter(|mixer| mixer.least <= dough && dough <= mixer.most);
        let smallest = takes.map(|mixer| mixer.most).min();
        let largest = mixers.iter().map(|mixer| mixer.most).max().unwrap();
        assert_eq!(mixers[own.index()].most, smallest.unwrap_or(largest), "{dough} kg, {mixers:?}");
    }
}

/// The least number of pieces that are whole heads and leave the spare, found by trying one after the other.
fn least_pieces(ordered: u64, percent: u64, pieces: u64, head: u64) -> u64 {
    let enough = |made: &u64| {
        let spare = made - ordered;
        made.is_multiple_of(head) && spare * 100 >= percent * ordered && spare >= pieces
    };
    if ordered == 0 { 0 } else { (ordered..10_000).find(enough).unwrap() }
}

#[test]
fn pieces_are_the_fewest_whole_heads_that_leave_the_spare() {
    for (percent, pieces) in [(0, 0), (1, 0), (7, 0), (100, 0), (0, 1), (0, 5)] {
        let spare = match (percent, pieces) {
            (0, 0) => String::new(),
            (0, pieces) => format!("  spare  {pieces} pieces\n"),
            (percent, _) => format!("  spare  {percent} %\n"),
        };
        for (head, ordered) in
            [1, 4, 30].into_iter().flat_map(|head| (1..=65).map(move |ordered| (head, ordered)))
        {
            let cards = format!(
                "product Roll\n  made of Batter\n  piece  60 g\n  losing  4 %\n  head  {head} pieces\n{spare}"
            );
            let need = Small { cards, ordered }.planned().need;
            let made = least_pieces(ordered, percent, pieces, head);
            // 60 g over 0.96 are 62.5 g.
            let dough =
                Exact::from(i64::try_from(made * 625).unwrap()).checked_div(&Exact::from(10)).unwrap();
            let right = Pieces { product: ProductId::new(0), ordered, made, dough: Mass::from_grams(dough) };
            assert_eq!(
                need.pieces,
                [right],
                "{ordered} ordered, heads of {head}, spare {percent} % or {pieces}"
            );
        }
    }
}

#[test]
fn all_ways_are_tried() {
    assert_eq!(ways(5, Bounds { least: 2, most: 3 }), [[3, 2]]);
    assert_eq!(ways(4, Bounds { least: 0, most: 4 }).len(), 5);
    assert!(ways(7, Bounds { least: 4, most: 6 }).is_empty());
}
