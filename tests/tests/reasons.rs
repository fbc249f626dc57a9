//! Explanations are tested, not trusted: every figure that can be asked for is explained, every explanation adds up, and
//! what it explains is the figure that is shown.

use levamen_balance::{Balance, BalancedItem, BalancedStage, Balancer, Reason, ReasonValue};
use levamen_formula::{Book, Formula, NamedFigure, StageId};
use levamen_language::TextId;
use levamen_quantity::{Exact, Share};
use levamen_tests::generator::doughs;
use levamen_tests::oracle::solve;
use levamen_tests::published;
use levamen_tests::read::told;
use levamen_tests::reasons::faults;
use proptest::prelude::*;

/// What is wrong with the explanations of the last dough of a text.
fn wrong(text: &str) -> Result<Vec<String>, String> {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    let (id, entry) = book.entries().last().ok_or("no dough")?;
    let formula = entry.formula.as_ref().ok_or_else(|| told(&problems))?;
    let mut balancer = Balancer::new(&book);
    let balance = balancer.balance(id).cloned().map_err(told)?;
    let mut wrong = Vec::new();
    for asked in NamedFigure::all(formula) {
        let name = asked.name(formula, book.pantry());
        let why = balancer.why(id, asked).map_err(|problems| told(&problems))?;
        wrong.extend(faults(&why, formula).into_iter().map(|fault| format!("{name}: {fault}")));
        let shown = shown(&balance, formula, asked);
        if why.root.value.figure() != &shown {
            wrong.push(format!("{name}: {:?} is explained and {shown:?} shown", why.root.value.figure()));
        }
        if why.root.figure != name {
            wrong.push(format!("{name}: explained as {}", why.root.figure));
        }
    }
    Ok(wrong)
}

/// The figure as the balance has it.
fn shown(balance: &Balance, formula: &Formula, asked: NamedFigure) -> Exact {
    let stage = |id| stage(balance, formula, id);
    let figure = match asked {
        NamedFigure::Hydration(None) | NamedFigure::Water(None) => Some(balance.hydration.fraction().clone()),
        NamedFigure::Hydration(Some(id)) => {
            stage(id).and_then(|stage| stage.hydration.as_ref()).map(|share| share.fraction().clone())
        }
        NamedFigure::EffectiveHydration => Some(balance.effective_hydration.fraction().clone()),
        NamedFigure::DoughYield => Some(balance.dough_yield()),
        NamedFigure::Salt => Some(balance.salt.fraction().clone()),
        NamedFigure::PrefermentedFlour(None) => Some(balance.prefermented_flour.fraction().clone()),
        NamedFigure::PrefermentedFlour(Some(id)) => {
            stage(id).map(|stage| stage.prefermented_flour.fraction().clone())
        }
        NamedFigure::Flour(None) => Some(Exact::ONE),
        NamedFigure::Flour(Some(id)) => stage(id).map(|stage| contents(balance, stage).0),
        NamedFigure::Water(Some(id)) => stage(id).map(|stage| contents(balance, stage).1),
        NamedFigure::OwnFlour(id) => stage(id).map(|stage| stage.own_flour.fraction().clone()),
        NamedFigure::Dough => Some(balance.weight.fraction().clone()),
        NamedFigure::ToDivide => Some(balance.weight.fraction() * formula.loss.rest().fraction()),
        NamedFigure::Row(id) => {
            let row = balance.overall.iter().find(|row| row.ingredient == id);
            row.map(|row| row.share.fraction().clone())
        }
        NamedFigure::Line(id, line) => {
            let written = formula.stage(id).and_then(|stage| stage.lines.get(line as usize));
            let name = written.map(|line| (&*line.name, line.when.as_deref()));
            let lines = stage(id).into_iter().flat_map(|stage| &stage.lines);
            let named =
                lines.into_iter().find(|own| Some((own.name.as_str(), own.when.as_deref())) == name);
            named.map(|line| line.share.fraction().clone())
        }
        NamedFigure::Cell(id, ingredient) => stage(id).map(|stage| {
            let own = |line: &&levamen_balance::BalancedLine| matches!(line.item, BalancedItem::Ingredient { id, .. } if id == ingredient);
            stage.lines.iter().filter(own).map(|line| line.share.fraction()).sum()
        }),
        NamedFigure::Taken(id) => stage(id).map(|stage| stage.taken.fraction().clone()),
        NamedFigure::Made(id) => stage(id).map(|stage| stage.made.fraction().clone()),
        NamedFigure::Seed(id) => stage(id).map(|stage| {
            let seeds = stage.lines.iter().filter(|line| matches!(line.item, BalancedItem::Seed(_)));
            seeds.map(|line| line.share.fraction()).sum()
        }),
        NamedFigure::GivenBack(id) => stage(id).map(|stage| stage.given_back.fraction().clone()),
        NamedFigure::LeftOver(id) => stage(id).map(|stage| stage.left_over.fraction().clone()),
        NamedFigure::Steam(id) => stage(id).map(|stage| stage.steam.fraction().clone()),
    };
    figure.unwrap_or_default()
}

fn stage<'b>(balance: &'b Balance, formula: &Formula, id: StageId) -> Option<&'b BalancedStage> {
    let name = &formula.stage(id)?.name;
    balance.stages.iter().find(|stage| stage.name == **name)
}

/// The flour and the added water that the dough gets through a stage, followed from tub to tub.
fn contents(balance: &Balance, wanted: &BalancedStage) -> (Exact, Exact) {
    let mut inside: Vec<(Exact, Exact)> = Vec::new();
    for stage in &balance.stages {
        let (mut flour, mut water) = (stage.flour.fraction().clone(), stage.water.fraction().clone());
        for (child, part) in portions(balance, stage) {
            flour += &(&inside[child].0 * &part);
            water += &(&inside[child].1 * &part);
        }
        inside.push((flour, water));
    }
    // The share of each tub that reaches the dough, from the final dough backwards.
    let mut reaching = vec![Exact::ZERO; balance.stages.len()];
    if let Some(last) = reaching.last_mut() {
        *last = Exact::ONE;
    }
    for (at, stage) in balance.stages.iter().enumerate().rev() {
        for (child, part) in portions(balance, stage) {
            let more = &part * &reaching[at];
            reaching[child] += &more;
        }
    }
    let at = balance.stages.iter().position(|stage| std::ptr::eq(stage, wanted)).unwrap_or_default();
    (&inside[at].0 * &reaching[at], &inside[at].1 * &reaching[at])
}

/// The tubs that a stage takes from, and which share of each. What is given back is no flour and water of the dough.
fn portions(balance: &Balance, stage: &BalancedStage) -> Vec<(usize, Exact)> {
    let taken = stage.lines.iter().filter_map(|line| match line.item {
        BalancedItem::Stage(child) => Some((child, line.share.fraction())),
        _ => None,
    });
    let part = |(child, weight): (usize, &Exact)| {
        let tub: &BalancedStage = &balance.stages[child];
        (child, weight / &(tub.made.fraction() - tub.given_back.fraction()))
    };
    taken.map(part).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_explanation_adds_up(model in doughs()) {
        prop_assume!(solve(&model).is_ok_and(|weights| !weights.is_negative()));
        let text = model.document().text();
        let wrong = wrong(&text).map_err(|problems| TestCaseError::fail(format!("{problems}\n\n{text}")))?;
        prop_assert!(wrong.is_empty(), "{}\n\n{text}", wrong.join("\n"));
    }
}

/// Weights, separate batches, and equations that are coupled.
#[test]
fn published_examples_are_explained() {
    for name in published::names().unwrap() {
        let example = published::load(&name).unwrap();
        let texts = [
            published::text::from_percentages(&example).unwrap(),
            published::text::from_weights(&example).ok(),
        ];
        for text in texts.into_iter().flatten() {
            let wrong = wrong(&text).unwrap();
            assert!(wrong.is_empty(), "{name}\n{}\n\n{text}", wrong.join("\n"));
        }
    }
}

/// What happens rarely in random doughs, a file each.
#[test]
fn every_kind_of_dough_is_explained() {
    insta::glob!("../reasons", "*.dough", |path| {
        let text = std::fs::read_to_string(path).unwrap();
        let wrong = wrong(&text).unwrap();
        assert!(wrong.is_empty(), "{}\n{}", path.display(), wrong.join("\n"));
    });
}

/// An explanation with one figure changed anywhere in it does not add up.
#[test]
fn a_wrong_explanation_is_noticed() {
    let text = include_str!("../reasons/own-flour.dough");
    let (book, _) = Book::read(&[&[(TextId(0), text)]]);
    let (id, entry) = book.entries().last().unwrap();
    let formula = entry.formula.as_ref().unwrap();
    let asked = NamedFigure::read("dough", formula, book.pantry()).unwrap();
    let why = Balancer::new(&book).why(id, asked).unwrap();
    assert!(faults(&why, formula).is_empty());
    let count = count(&why.root);
    assert!(count > 4);
    for index in 0..count {
        let mut spoilt = why.clone();
        spoil(&mut spoilt.root, &mut index.clone());
        assert!(!faults(&spoilt, formula).is_empty(), "{index} of {count}");
    }
}

fn count(reason: &Reason) -> usize {
    1 + reason.parts.iter().map(|part| count(&part.reason)).sum::<usize>()
}

/// Makes one reason a little larger: the one at that place in reading order.
fn spoil(reason: &mut Reason, index: &mut usize) {
    if *index == 0 {
        let more = |share: &Share| Share::from_fraction(share.fraction() + &Exact::ONE);
        match &mut reason.value {
            ReasonValue::Weight(share) | ReasonValue::Ratio(share) => *share = more(share),
            ReasonValue::Number(number) => *number += &Exact::ONE,
        }
    }
    // Past nought, so that nothing else is changed.
    *index = index.wrapping_sub(1);
    for part in &mut reason.parts {
        spoil(&mut part.reason, index);
    }
}
