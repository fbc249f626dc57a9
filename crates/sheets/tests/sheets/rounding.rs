//! What must hold on every sheet, of any dough on any scales.

use levamen_balance::{Balance, BalancedItem};
use levamen_formula::Scale;
use levamen_language::{Kind, SeedFate};
use levamen_quantity::{Exact, Mass};
use levamen_sheets::{LineSheet, LineSource, Sheet, StageSheet, Weight};
use proptest::prelude::*;

use crate::kitchen::{Tub, grams, kitchen};
use crate::{dilution, doughs};

fn sum(weights: impl IntoIterator<Item = Weight>) -> Weight {
    Weight::try_sum(weights).unwrap()
}

/// How far a weight is from its exact mass.
fn off(weight: Weight, exact: &Mass) -> Mass {
    Mass::from_grams((weight.as_exact().grams() - exact.grams()).abs())
}

fn lines_make_the_stage(stage: &StageSheet) -> bool {
    sum(stage.lines.iter().map(|line| line.weight)) == sum([stage.made, stage.steam])
}

fn the_tub_is_emptied(stage: &StageSheet) -> bool {
    stage.made == sum([stage.taken, stage.given_back, stage.left_over])
}

fn nothing_is_below_zero(stage: &StageSheet) -> bool {
    let fates = [stage.made, stage.steam, stage.taken, stage.given_back, stage.left_over];
    fates.into_iter().chain(stage.lines.iter().map(|line| line.weight)).all(|weight| weight >= Weight::ZERO)
}

/// The culture neither grows nor shrinks.
fn as_much_is_kept_as_was_given(sheet: &Sheet) -> bool {
    let lines = sheet.stages.iter().flat_map(|stage| &stage.lines);
    let seeds = lines.filter(|line| line.item == BalancedItem::Seed(SeedFate::GivenBack));
    sum(sheet.stages.iter().map(|stage| stage.given_back)) == sum(seeds.map(|line| line.weight))
}

/// What goes into a stage from another is what that one gives.
fn stages_hand_on_what_they_hold(sheet: &Sheet) -> bool {
    sheet.stages.iter().enumerate().rev().skip(1).all(|(at, stage)| {
        let lines = sheet.stages.iter().flat_map(|stage| &stage.lines);
        stage.taken == sum(lines.filter(|line| line.item == BalancedItem::Stage(at)).map(|line| line.weight))
    })
}

/// Everything fetched is in the dough, or it is said where else.
fn nothing_is_lost(sheet: &Sheet) -> bool {
    let elsewhere = sheet.stages.iter().flat_map(|stage| [stage.steam, stage.given_back, stage.left_over]);
    sum(sheet.overall.iter().map(|fetch| fetch.weight)) == sum([sheet.batch, sum(elsewhere)])
}

/// A weighed line is a whole number of divisions, less than one from the exact weight, and not nothing where the
/// exact weight is at least half a division. What is taken out of a tub is never more than is in there, so that
/// it may be less.
fn is_well_rounded(line: &LineSheet) -> bool {
    let LineSource::Weighed(on) = &line.source else { return true };
    let division = &on.scale.division;
    let is_whole = line.weight.as_exact().round_to(division) == line.weight.as_exact();
    let is_near = off(line.weight, &line.exact) < *division || matches!(line.item, BalancedItem::Stage(_));
    let is_there = line.weight > Weight::ZERO || &line.exact + &line.exact < *division;
    is_whole && is_near && (is_there || matches!(line.item, BalancedItem::Stage(_)))
}

/// Lines weighed with one division, with their stage; those that the table leaves out are left out.
fn class<'s>(sheet: &'s Sheet, division: &Mass) -> Vec<(usize, &'s LineSheet)> {
    let lines = sheet
        .stages
        .iter()
        .enumerate()
        .flat_map(|(at, stage)| stage.lines.iter().map(move |line| (at, line)));
    let in_class = |line: &LineSheet| match &line.source {
        LineSource::Weighed(on) => on.scale.division == *division,
        LineSource::WholeTub | LineSource::RestOfTub => false,
    };
    let is_pinch = |line: &LineSheet| line.exact < *division && &line.exact + &line.exact >= *division;
    lines.filter(|(_, line)| in_class(line) && !is_pinch(line)).collect()
}

/// Within a class no stage, no ingredient and not the whole moves by a division. A part taken out of a tub may be
/// less than its rounding, so that a class which holds one is passed over.
fn sums_stay_near(sheet: &Sheet, division: &Mass) -> bool {
    let class = class(sheet, division);
    if class.iter().any(|(_, line)| matches!(line.item, BalancedItem::Stage(_))) {
        return true;
    }
    let moves_little = |wanted: &dyn Fn(usize, &LineSheet) -> bool| {
        let lines = || class.iter().filter(|(at, line)| wanted(*at, line));
        let exact = Mass::from_grams(lines().map(|(_, line)| line.exact.grams()).sum::<Exact>());
        off(sum(lines().map(|(_, line)| line.weight)), &exact) < *division
    };
    moves_little(&|_, _| true)
        && (0..sheet.stages.len()).all(|stage| moves_little(&|at, _| at == stage))
        && class.iter().all(|(_, line)| moves_little(&|_, other| other.name == line.name))
}

fn holds(balance: &Balance, scales: &[Scale]) -> Result<(), TestCaseError> {
    let sheet = Sheet::new(&balance.batch(), scales).unwrap();
    prop_assert!(stages_hand_on_what_they_hold(&sheet), "{sheet:#?}");
    prop_assert!(as_much_is_kept_as_was_given(&sheet), "{sheet:#?}");
    prop_assert!(nothing_is_lost(&sheet), "{sheet:#?}");
    for stage in &sheet.stages {
        prop_assert!(lines_make_the_stage(stage), "{stage:#?}");
        prop_assert!(dilution::holds(stage), "{stage:#?}");
        prop_assert!(the_tub_is_emptied(stage), "{stage:#?}");
        prop_assert!(nothing_is_below_zero(stage), "{stage:#?}");
        prop_assert!(stage.lines.iter().all(is_well_rounded), "{stage:#?}");
    }
    for line in sheet.stages.iter().flat_map(|stage| &stage.lines) {
        if let LineSource::Weighed(on) = &line.source {
            prop_assert!(sums_stay_near(&sheet, &on.scale.division), "{sheet:#?}");
        }
    }
    prop_assert!(the_largest_change_is_the_largest(&sheet));
    Ok(())
}

fn the_largest_change_is_the_largest(sheet: &Sheet) -> bool {
    let weighed = sheet.stages.iter().flat_map(|stage| &stage.lines);
    let weighed = weighed.filter(|line| matches!(line.source, LineSource::Weighed(_)));
    let change = |line: &LineSheet| off(line.weight, &line.exact);
    let most = weighed.map(change).max().unwrap_or_default();
    let stated = sheet.largest_change.as_ref().map(|change| Mass::from_grams(change.by.grams().abs()));
    most == stated.unwrap_or_default()
}

#[test]
fn the_doughs_of_the_snapshots_hold() {
    for balance in doughs::all() {
        holds(&balance, &[]).unwrap();
    }
}

/// The exact sum over the ingredients and the rounded one differ by less than a division of each scale in use.
#[test]
fn an_ingredient_and_the_batch_stay_near_their_exact_weight() {
    let balance = doughs::seed_given_back();
    let sheet = Sheet::new(&balance.batch(), &[]).unwrap();
    let divisions = Mass::from_grams(grams("11.1"));
    for fetch in &sheet.overall {
        assert!(off(fetch.weight, &fetch.exact) < divisions, "{fetch:?}");
    }
    assert!(off(sheet.batch, &balance.batch().mass(&balance.weight)) < divisions);
}

fn weight() -> impl Strategy<Value = String> {
    let milligrams = prop_oneof![1u64..5_000, 1u64..2_000_000, 1u64..900_000_000];
    milligrams.prop_map(|weight| format!("{}.{:03}", weight / 1000, weight % 1000))
}

/// A levain whose seed stays or is given back, taken in part or whole by a scald and the final dough.
fn any_dough() -> impl Strategy<Value = Balance> {
    // In hundredths of a percent: half and half leaves nothing over, a hair less leaves next to nothing.
    let first = prop_oneof![Just(0i64), Just(5_000), 1i64..=5_000];
    let last = prop_oneof![Just(4_999i64), Just(5_000), 1i64..=5_000];
    let shares = (last, first, 0i64..=9);
    let weights = prop::collection::vec(weight(), 12);
    (weights, shares, any::<bool>()).prop_map(|(weights, (last, first, steam), stays)| {
        let fate = if stays { SeedFate::Stays } else { SeedFate::GivenBack };
        let weight = |at: usize| grams(&weights[at]);
        let goes_on: Exact =
            (0..4).map(weight).sum::<Exact>() + &(if stays { weight(4) } else { Exact::ZERO });
        let of_levain = |share: i64| &goes_on * &Exact::ratio(share, 10_000).unwrap();
        let add = |tub: Tub, name: &str, at: usize| tub.add(name, &weights[at]);
        let mut scald = Exact::ZERO;
        kitchen("any")
            .ahead("levain", Kind::Levain, |tub| {
                let tub = add(add(tub, "white flour", 0), "rye flour", 1);
                add(add(tub, "water", 2), "salt", 3).seed("mother", &weights[4], fate)
            })
            .ahead("scald", Kind::Scald, |tub| {
                let tub = add(add(tub, "rye flour", 5), "water", 6);
                let water = weight(6) * &Exact::ratio(steam, 10).unwrap();
                let tub = tub.steam_exact(water);
                let tub = if first > 0 { tub.take_exact(0, "levain", of_levain(first)) } else { tub };
                scald = tub.made();
                tub
            })
            .last(|tub| {
                let tub = add(add(add(tub, "white flour", 7), "water", 8), "salt", 9);
                let tub = add(tub, "yeast", 10).piece("old dough", &weights[11]);
                tub.take_exact(1, "scald", scald).take_exact(0, "levain", of_levain(last))
            })
    })
}

fn any_scales() -> impl Strategy<Value = Vec<Scale>> {
    let scale = (1i64..20_000, 1i64..40_000).prop_map(|(division, steps)| Scale {
        name: format!("{division} mg"),
        division: Mass::from_grams(Exact::ratio(division, 1000).unwrap()),
        capacity: Mass::from_grams(Exact::ratio(division * steps, 1000).unwrap()),
    });
    prop::collection::vec(scale, 0..4)
}

proptest! {
    #[test]
    fn every_sheet_adds_up(balance in any_dough(), scales in any_scales()) {
        holds(&balance, &scales)?;
    }
}

/// On a scale of 5 g the seed of 17.1 g is weighed as 20 g, so that its tub adds up; the tub goes into the next one whole, and of
/// that 20 g are kept, though 17.1 g by themselves would be 15 g.
#[test]
fn what_is_kept_later_weighs_what_the_seed_did() {
    let dough = doughs::seed_given_back_later();
    let balance = dough.with_flour(Mass::from_grams(grams("1060.5")));
    let division = Mass::from_grams(grams("5"));
    let scale = Scale { name: "5 g".to_owned(), division, capacity: Mass::from_grams(grams("60000")) };
    let sheet = Sheet::new(&balance, &[scale]).unwrap();
    let seed = sheet.stages[0].lines.iter().find(|line| line.name == "mother culture").unwrap();
    assert_eq!(seed.exact.grams().to_trimmed(1), "17.1");
    assert_eq!(sheet.stages[1].lines[0].source, LineSource::WholeTub);
    assert_eq!([seed.weight, sheet.stages[1].given_back].map(|weight| weight.to_string()), ["20", "20"]);
}
