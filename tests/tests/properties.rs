//! What must hold of every dough: nothing is lost and nothing counted twice, what the text states is so, and the
//! bench sheet still adds up.

use levamen_balance::{Balance, BalancedItem, Balancer};
use levamen_formula::{Book, Scale};
use levamen_language::TextId;
use levamen_quantity::{Exact, Mass};
use levamen_sheets::{LineSource, Sheet, Weight};
use levamen_tests::audit::{faults, unfulfilled};
use levamen_tests::generator::doughs;
use levamen_tests::model::Model;
use levamen_tests::oracle::solve;
use levamen_tests::read::last_dough;
use proptest::prelude::*;

/// Doughs that can be made.
fn possible() -> impl Strategy<Value = Model> {
    doughs().prop_filter("less than nothing of something", |model| {
        solve(model).is_ok_and(|weights| !weights.is_negative())
    })
}

/// What does not hold of the last dough of a text.
fn wrong(text: &str) -> Result<Vec<String>, String> {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    let (id, entry) = book.entries().last().ok_or("no dough")?;
    let formula = entry.formula.as_ref().ok_or_else(|| levamen_tests::read::told(&problems))?;
    let mut balancer = Balancer::new(&book);
    let balance = balancer.balance(id).cloned().map_err(levamen_tests::read::told)?;
    let mut wrong = faults(&book, &mut balancer, id, &balance)?;
    wrong.extend(unfulfilled(formula, &balance));
    Ok(wrong)
}

fn sum(weights: impl IntoIterator<Item = Weight>) -> Mass {
    Mass::from_grams(weights.into_iter().map(|weight| weight.as_exact().grams().clone()).sum())
}

/// What does not add up on a sheet.
fn not_added_up(sheet: &Sheet, balance: &Balance) -> Vec<String> {
    let mut wrong = Vec::new();
    for (at, stage) in sheet.stages.iter().enumerate() {
        if sum(stage.lines.iter().map(|line| line.weight)) != sum([stage.made, stage.steam]) {
            wrong.push(format!("the lines of {}", stage.name));
        }
        if sum([stage.taken, stage.left_over, stage.given_back]) != stage.made.as_exact() {
            wrong.push(format!("what becomes of {}", stage.name));
        }
        let lines = sheet.stages.iter().flat_map(|stage| &stage.lines);
        let taken = sum(lines.filter(|line| line.item == BalancedItem::Stage(at)).map(|line| line.weight));
        if at + 1 < sheet.stages.len() && taken != stage.taken.as_exact() {
            wrong.push(format!("what is taken of {}", stage.name));
        }
        wrong.extend(badly_rounded(stage).map(|line| format!("{}/{line}", stage.name)));
    }
    if sheet.stages.len() != balance.stages.len() {
        wrong.push("stages are missing".to_owned());
    }
    wrong
}

/// Ingredients that are no whole number of divisions, or off by a division or more.
fn badly_rounded(stage: &levamen_sheets::StageSheet) -> impl Iterator<Item = String> + '_ {
    let weighed = stage.lines.iter().filter_map(|line| match (&line.source, line.item) {
        (LineSource::Weighed(on), BalancedItem::Ingredient { .. }) => Some((line, &on.scale.division)),
        _ => None,
    });
    let badly = weighed.filter(|(line, division)| {
        let off = (line.weight.as_exact().grams() - line.exact.grams()).abs();
        line.weight.as_exact().round_to(division) != line.weight.as_exact() || off >= *division.grams()
    });
    badly.map(|(line, _)| line.name.clone())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn everything_adds_up_and_is_as_stated(model in possible()) {
        let text = model.document().text();
        let wrong = wrong(&text).map_err(|problems| TestCaseError::fail(format!("{problems}\n\n{text}")))?;
        prop_assert!(wrong.is_empty(), "{}\n\n{text}", wrong.join("\n"));
    }

    #[test]
    fn the_sheet_adds_up(model in possible()) {
        let text = model.document().text();
        let balance = last_dough(&text).map_err(TestCaseError::fail)?;
        let wrong = not_added_up(&Sheet::new(&balance.batch(), &Scale::usual()).unwrap(), &balance);
        prop_assert!(wrong.is_empty(), "{}\n\n{text}", wrong.join("\n"));
    }

    #[test]
    fn a_batch_weighs_what_the_text_makes(model in possible(), pieces in 1_u32..500, grams in 30_u32..2000, loss in 0_u32..20) {
        let mut document = model.document();
        let losing = if loss > 0 { format!(", losing {loss} %") } else { String::new() };
        document.sections.retain(|section| !section.heading.starts_with("make "));
        let text = format!("{}\nmake {pieces} pieces of {grams} g{losing}\n", document.text());
        let balance = last_dough(&text).map_err(|problems| TestCaseError::fail(format!("{problems}\n\n{text}")))?;
        let dough = balance.batch().mass(&balance.weight);
        let divided = dough.grams() * &(&Exact::ONE - &(&Exact::from(loss) / &Exact::from(100)));
        prop_assert_eq!(divided, &Exact::from(pieces) * &Exact::from(grams));
    }
}

#[test]
fn a_dough_that_does_not_add_up_is_noticed() {
    let text = "dough Plain\n\noverall\n  flour  100 %\n  water  65 %\n\nmake 1 kg of flour\n";
    assert!(wrong(text).unwrap().is_empty());
    let (book, _) = Book::read(&[&[(TextId(0), text)]]);
    let (id, entry) = book.entries().last().unwrap();
    let mut balancer = Balancer::new(&book);
    let mut balance = balancer.balance(id).unwrap().clone();
    let water = balance.overall.pop().unwrap();
    assert!(!unfulfilled(entry.formula.as_ref().unwrap(), &balance).is_empty());
    assert!(!faults(&book, &mut balancer, id, &balance).unwrap().is_empty());
    balance.overall.push(water);
    balance.stages[0].lines.pop();
    assert!(!faults(&book, &mut balancer, id, &balance).unwrap().is_empty());
}
