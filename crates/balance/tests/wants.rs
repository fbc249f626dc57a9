//! Figures that a dough must have, bounds, and the most of a figure.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_balance::{Balance, Balancer, Objective, StatedSize};
use levamen_formula::{Book, Formula, NamedFigure, Want};
use levamen_language::{Problem, Span, TextId, read_fact};
use levamen_quantity::{Exact, Mass};

const BREAD: &str = "
dough Harbour bread

overall
  strong white flour  80 %
  wholemeal flour     20 %
  water               70 %
  salt                 2 %

stage poolish
  takes  30 % of the flour
  strong white flour  100 %
  water               100 %

make 100 pieces of 860 g
";

fn book(text: &str) -> (Book, Formula) {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert!(problems.is_empty(), "{problems:?}");
    let formula = book.entries().last().and_then(|(_, entry)| entry.formula.clone()).unwrap();
    (book, formula)
}

/// The dough with some wants, some figures released, and an aim.
fn wish(
    text: &str,
    wants: &[&str],
    free: &[&str],
    aim: Option<(&str, bool)>,
) -> Result<Balance, Vec<Problem>> {
    let (book, mut formula) = book(text);
    let ask = |words: &str, formula: &Formula| NamedFigure::read(words, formula, book.pantry()).unwrap();
    for words in free {
        let asked = ask(words, &formula);
        assert!(formula.release(asked, book.pantry()), "{words}");
    }
    let aim = aim.map(|(words, most)| Objective { figure: ask(words, &formula), maximize: most });
    if let Some(aim) = aim {
        formula.release(aim.figure, book.pantry());
    }
    for text in wants {
        let equation = read_fact(TextId(1), text).unwrap();
        let want =
            Want::read(&equation, TextId(1), Span::default(), &formula, book.pantry()).unwrap().unwrap();
        formula.want(want, book.pantry());
    }
    Balancer::new(&book).balance_as(&formula, aim)
}

fn grams(balance: &Balance, share: &levamen_quantity::Share) -> String {
    balance.batch().mass(share).grams().to_decimal_string()
}

#[test]
fn a_wetter_dough_with_everything_else_as_it_is() {
    let wetter = wish(BREAD, &["hydration 78 %"], &[], None).unwrap();
    assert_eq!(wetter.hydration.percent(), Exact::from(78));
    assert_eq!(wetter.prefermented_flour.percent(), Exact::from(30));
    assert_eq!(wetter.stages[0].hydration.as_ref().unwrap().percent(), Exact::HUNDRED);
    assert_eq!(grams(&wetter, &wetter.weight), "86000");
}

#[test]
fn the_weight_of_a_stage_tells_its_share() {
    // 86 kg of dough at 172 % are 50 kg of flour; 15 kg of poolish hold 7.5 kg: 15 %.
    let poolish = wish(BREAD, &["poolish 15 kg"], &[], None).unwrap();
    assert_eq!(poolish.prefermented_flour.percent(), Exact::from(15));
}

#[test]
fn a_cell_may_be_wanted_and_another_figure_makes_way() {
    // 50 kg of flour are 35 kg of water, 15 of them in the poolish; 21 kg in the final dough leave 14.
    let iced = wish(BREAD, &["water in final dough 21 kg"], &["hydration of poolish"], None).unwrap();
    assert_eq!(iced.hydration.percent(), Exact::from(70));
    assert_eq!(grams(&iced, &iced.stages[0].water), "14000");
}

#[test]
fn the_most_from_what_is_on_hand() {
    // 4.2 kg of poolish hold 2.1 kg of flour, 30 % of 7 kg.
    let most = wish(
        BREAD,
        &["poolish at most 4.2 kg", "strong white flour at most 30 kg"],
        &[],
        Some(("dough", true)),
    );
    let most = most.unwrap();
    assert_eq!(most.batch().flour().grams().to_decimal_string(), "7000");
    // 4 kg of strong flour are 80 % of 5 kg.
    let most = wish(
        BREAD,
        &["poolish at most 4.2 kg", "strong white flour at most 4 kg"],
        &[],
        Some(("dough", true)),
    );
    assert_eq!(most.unwrap().batch().flour().grams().to_decimal_string(), "5000");
}

#[test]
fn what_is_on_hand_is_a_size_by_weight() {
    // 20 kg of wholemeal flour are 20 % of 100 kg.
    let most = wish(BREAD, &["wholemeal flour at most 20 kg"], &[], Some(("dough", true))).unwrap();
    assert_eq!(most.size, StatedSize::Weights { flour: Mass::from_grams(Exact::from(100_000)) });
}

#[test]
fn the_largest_share_that_fits() {
    // The poolish may take all of the water but no more flour than there is strong flour: 70 %.
    let most = wish(BREAD, &[], &[], Some(("flour of poolish", true))).unwrap();
    assert_eq!(most.prefermented_flour.percent(), Exact::from(70));
    let bounded = wish(BREAD, &["poolish at most 20 kg"], &[], Some(("flour of poolish", true))).unwrap();
    assert_eq!(bounded.prefermented_flour.percent(), Exact::from(20));
}

#[test]
fn a_want_in_the_text() {
    let text = BREAD.replace("\nmake", "\nwant\n  hydration  75 %\n  salt at most  2.5 %\n\nmake");
    let (book, _) = book(&text);
    let (id, _) = book.entries().last().unwrap();
    assert_eq!(Balancer::new(&book).balance(id).unwrap().hydration.percent(), Exact::from(75));
}

#[test]
fn what_cannot_be_is_refused() {
    let refused = |wants: &[&str], aim| {
        let problems = wish(BREAD, wants, &[], aim).unwrap_err();
        problems.first().map(|problem| (problem.code, problem.message.clone())).unwrap()
    };
    insta::assert_debug_snapshot!([
        refused(&["hydration at most 65 %"], None),
        refused(&["poolish 80 kg"], None),
        refused(&["water in final dough 500 g"], None),
        refused(&[], Some(("dough", true))),
        refused(&["poolish at most 4 kg", "poolish at least 5 kg"], Some(("dough", true))),
    ]);
}
