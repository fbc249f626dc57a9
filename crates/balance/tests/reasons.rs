//! What a reason is called, and which words of the text it names.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use levamen_balance::{Balancer, Reason, ReasonKind};
use levamen_formula::{Book, NamedFigure, StageId};
use levamen_language::TextId;

/// A scald of 300 g, of which 30 g go off and a tenth of the rest is left: 243 g go on. The sour that it goes into loses
/// nothing.
const TEXT: &str = "
dough Rye

stage scald
  rye flour  100 g
  water      200 g
  loses  15 % of its water
  left over  10 %

stage sour, a levain
  rye flour  200 g
  water      200 g
  scald      243 g

final dough
  rye flour  710 g
  water      300 g
  salt        20 g
  sour       643 g
";

/// The reason of a figure; it may be one of the scald.
fn why(figure: impl Fn(StageId) -> NamedFigure) -> Reason {
    let (book, problems) = Book::read(&[&[(TextId(0), TEXT)]]);
    assert_eq!(problems, []);
    let (id, _) = book.entries().last().expect("a dough");
    let mut stages = book.formula(id).expect("a formula").stages();
    let (scald, _) = stages.find(|(_, stage)| &*stage.name == "scald").expect("the scald");
    Balancer::new(&book).why(id, figure(scald)).expect("a reason").root
}

/// What says that more is weighed than goes on.
fn losses(reason: &Reason) -> Vec<&str> {
    let ReasonKind::Weighed(places) = &reason.kind else { return Vec::new() };
    places.iter().map(|place| &TEXT[place.span.start as usize..place.span.end as usize]).collect()
}

#[test]
fn steam_is_named_for_the_water_and_not_for_the_flour() {
    let flour = why(NamedFigure::OwnFlour);
    assert_eq!(losses(&flour), ["10 %"]);
    let water = why(|scald| NamedFigure::Line(scald, 1));
    assert_eq!(losses(&water), ["15 % of its water", "10 %"]);
}

#[test]
fn what_a_reason_rests_on_has_a_name_of_its_own() {
    let left_over = why(NamedFigure::LeftOver);
    assert_eq!(left_over.parts[0].reason.figure, "made of scald");
    let dough_yield = why(|_| NamedFigure::DoughYield);
    assert_eq!(dough_yield.parts[0].reason.figure, "hydration");
}
