//! How many more pieces would make a least batch, held against planning the day with one piece more, and one more.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fmt::Write as _;

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{BatchWarning, Day, DayOrders};
use proptest::prelude::*;

/// A dough that keeps a piece of itself, and one that is plain.
const DOUGHS: &str = "\
dough Plain

final dough
  white flour  100 %
  water         61 %
  salt           2 %

dough Daily

overall
  white flour  100 %
  water         65 %
  salt           2 %

stage old dough
  weighs  15 % of the flour
  from this dough
";

/// A small day.
#[derive(Debug, Clone)]
struct Case {
    ordered: u64,
    piece: u64,
    losing: u64,
    spare: u64,
    is_share: bool,
    head: u64,
    is_full: bool,
    is_named: bool,
    /// Least and most dough of each mixer, in hundreds of grams.
    mixers: Vec<(u64, u64)>,
    tomorrow: Option<u64>,
}

fn case() -> impl Strategy<Value = Case> {
    let pieces =
        (1_u64..40, 50_u64..2500, 0_u64..4, 0_u64..8, any::<bool>(), prop_oneof![Just(0_u64), 2_u64..40]);
    let mixers = proptest::collection::vec((1_u64..120, 0_u64..80), 1..4);
    let way = (any::<bool>(), any::<bool>(), proptest::option::of(1_u64..60));
    (pieces, mixers, way).prop_map(|((ordered, piece, losing, spare, is_share, head), mixers, way)| Case {
        ordered,
        piece,
        losing,
        spare,
        is_share,
        head,
        is_full: way.0,
        is_named: way.1,
        mixers: mixers.into_iter().map(|(least, more)| (least, least + more)).collect(),
        tomorrow: way.2,
    })
}

impl Case {
    fn cards(&self, dough: &str) -> String {
        let mut cards =
            format!("bakery Small\n  batches {}\n\n", if self.is_full { "full" } else { "equal" });
        writeln!(cards, "product Piece\n  made of {dough}\n  piece  {} g", self.piece).unwrap();
        if self.losing > 0 {
            writeln!(cards, "  losing  {} %", self.losing).unwrap();
        }
        if self.spare > 0 {
            let unit = if self.is_share { "%" } else { "pieces" };
            writeln!(cards, "  spare  {} {unit}", self.spare + 1).unwrap();
        }
        if self.head > 0 {
            writeln!(cards, "  head  {} pieces", self.head).unwrap();
        }
        for (number, (least, most)) in self.mixers.iter().enumerate() {
            let (least, most) = (least * 100, most * 100);
            writeln!(cards, "\nmixer mixer {number}\n  least  {least} g of dough\n  most  {most} g of dough")
                .unwrap();
        }
        if self.is_named {
            writeln!(cards, "\nmethod {dough}\n  in mixer 0").unwrap();
        }
        cards
    }
}

/// Whether a day has a batch under its mixer's least.
fn is_below(day: &Day) -> bool {
    let remarks = day.doughs.iter().flat_map(|dough| &dough.batches.remarks);
    remarks.into_iter().any(|remark| matches!(remark, BatchWarning::BelowLeast { .. }))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn so_many_more_make_a_least_batch_and_one_less_does_not(case in case(), keeps_old in any::<bool>()) {
        let text = format!("{DOUGHS}\n{}", case.cards(if keeps_old { "Daily" } else { "Plain" }));
        let texts = [(TextId(0), text.as_str())];
        let (book, problems) = Book::read(&[&texts]);
        prop_assert_eq!(problems, []);
        let (bakery, problems) = Bakery::read(&book, &texts);
        prop_assert_eq!(problems, []);
        let tomorrow = case.tomorrow.map(|pieces| DayOrders::from_pieces([(ProductId::new(0), pieces)]));
        let planned = |more: u64| {
            Day::plan(&BookBalances::new(&book), &bakery, &DayOrders::from_pieces([(ProductId::new(0), case.ordered + more)]), tomorrow.as_ref()).unwrap()
        };
        let day = planned(0);
        if !is_below(&day) {
            return Ok(());
        }
        let told = day.more_pieces(&BookBalances::new(&book), &bakery, &day.doughs[0]).map(|more| more.pieces);
        // No pieces that weigh as much as all mixers together and some more can be wanting.
        let found = (1..=600).find(|more| !is_below(&planned(*more)));
        if let Some(found) = found {
            prop_assert_eq!(told, Some(found));
        } else {
            prop_assert!(told.is_none_or(|told| told > 600 && !is_below(&planned(told))), "{told:?}");
        }
    }
}

#[test]
fn spares_and_heads_are_counted_among_what_makes_a_least_batch() {
    let more = |cards: &str, ordered: u64| {
        let text = format!("{DOUGHS}\n{cards}");
        let texts = [(TextId(0), text.as_str())];
        let (book, problems) = Book::read(&[&texts]);
        assert_eq!(problems, []);
        let (bakery, problems) = Bakery::read(&book, &texts);
        assert_eq!(problems, []);
        let day = Day::plan(
            &BookBalances::new(&book),
            &bakery,
            &DayOrders::from_pieces([(ProductId::new(0), ordered)]),
            None,
        )
        .unwrap();
        day.more_pieces(&BookBalances::new(&book), &bakery, &day.doughs[0]).map(|more| more.pieces)
    };
    let mixer = "\nmixer spiral\n  least  6 kg of dough\n  most  60 kg of dough\n";
    // 98 pieces of 60 g are 5.88 kg, with 1 % lost 5.939; one more of 60.6 g makes 6 kg.
    let plain = format!("product Roll\n  made of Plain\n  piece  60 g\n  losing  1 %\n{mixer}");
    assert_eq!(more(&plain, 98), Some(1));
    // 88 are made as three heads of 30; one head more is 7.2 kg, and the 91st order asks for it.
    let heads = format!(
        "product Roll\n  made of Plain\n  piece  60 g\n  spare  2 pieces\n  head  30 pieces\n{mixer}"
    );
    assert_eq!(more(&heads, 88), Some(1));
    assert_eq!(more(&heads, 80), Some(9));
    // A mixer that takes 5.97 kg and nothing else: 97 g and 5970 g have no factor in common, so only 5970 pieces are whole batches.
    let narrow = "product Roll\n  made of Plain\n  piece  97 g\n\n\
                  mixer narrow\n  least  5.97 kg of dough\n  most  5.97 kg of dough\n";
    assert_eq!(more(narrow, 61), Some(5970 - 61));
}
