//! Conversions of random and of published doughs: the whole is the same but for yeast, there and back, exactly.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_balance::{Balance, BalancedItem, BalancedStage};
use levamen_convert::{Conversion, ConversionRequest, ConversionTarget, convert};
use levamen_formula::{Book, IngredientId};
use levamen_language::{Problem, TextId, tidy};
use levamen_quantity::{Exact, Share};
use levamen_tests::generator::{decimal_doughs, doughs};
use levamen_tests::oracle::solve;
use levamen_tests::published::{Example, load, names, text};
use levamen_tests::ways::{from_stages, from_weights};
use levamen_tests::yeast::is_yeast;
use proptest::prelude::*;

/// What a conversion may be refused for, when nothing is misspelt.
const REFUSALS: [&str; 7] = [
    "which-stage",
    "straight-already",
    "more-than-there-is",
    "new-in-the-dough",
    "no-rye",
    "share-of-nothing",
    "wet-seed",
];

/// The rows of the whole but yeast.
fn whole(balance: &Balance) -> Vec<(IngredientId, Exact)> {
    let rows = balance.overall.iter().filter(|row| !is_yeast(&row.name));
    let rows = rows.filter(|row| !row.share.fraction().is_zero());
    let mut rows: Vec<_> = rows.map(|row| (row.ingredient, row.share.fraction().clone())).collect();
    rows.sort_by_key(|(id, _)| *id);
    rows
}

/// What does not hold of a conversion.
fn faults(done: &Conversion) -> Vec<String> {
    let mut faults = Vec::new();
    if whole(&done.before) != whole(&done.after) {
        faults.push("the whole is not what it was".to_owned());
    }
    if tidy(TextId(0), &done.text).as_deref() != Ok(done.text.as_str()) {
        faults.push("the text is not in canonical layout".to_owned());
    }
    let shares = done.after.stages.iter().flat_map(|stage| &stage.lines).map(|line| &line.share);
    if shares.into_iter().any(|share| share.fraction().is_negative()) {
        faults.push("less than nothing of something".to_owned());
    }
    faults
}

fn percent(figure: &str) -> Share {
    Share::from_percent(Exact::from_literal(figure).unwrap())
}

/// Converts the dough of a text, whichever of its pre-ferments is first.
fn first_stage(
    book: &str,
    own: &str,
    dough: &str,
    request: &ConversionRequest,
) -> Result<Conversion, Vec<Problem>> {
    let layers: [&[(TextId, &str)]; 2] = [&[(TextId(0), book)], &[(TextId(1), own)]];
    convert(&layers, dough, request).or_else(|problems| {
        let [problem] = problems.as_slice() else { return Err(problems) };
        let stage = problem.help.iter().find_map(|help| {
            let help = help.to_string();
            Some(help.split_once(": stage \"")?.1.strip_suffix('"')?.to_owned())
        });
        let Some(stage) = stage.filter(|_| problem.code == "which-stage") else {
            return Err(problems);
        };
        convert(&layers, dough, &ConversionRequest { stage: Some(stage), ..request.clone() })
    })
}

/// A target with a share of the flour, or without one.
fn wishes() -> impl Strategy<Value = ConversionRequest> {
    let share =
        proptest::option::of((1_i64..=100).prop_map(|figure| Share::from_percent(Exact::from(figure))));
    let hydration =
        proptest::option::of((45_i64..=125).prop_map(|figure| Share::from_percent(Exact::from(figure))));
    (prop::sample::select(ConversionTarget::ALL.to_vec()), share, hydration, any::<bool>()).prop_map(
        |(target, share, hydration, given_back)| {
            let leaven = target.leaven();
            let mut request = ConversionRequest::new(target);
            // An option that has no meaning for the target is refused.
            request.share = share.filter(|_| leaven.is_some());
            request.hydration = hydration
                .filter(|_| leaven.is_some_and(|leaven| leaven != levamen_convert::RaisedBy::OwnDough));
            request.given_back = given_back && leaven == Some(levamen_convert::RaisedBy::Culture);
            request
        },
    )
}

/// Converts there, and on to each of some others; checks each step.
fn there_and_back(text: &str, request: &ConversionRequest) -> Result<(), TestCaseError> {
    let refused = |problems: &[Problem]| {
        let codes: Vec<&str> = problems.iter().map(|problem| problem.code).collect();
        codes.iter().all(|code| REFUSALS.contains(code) || *code == "no-culture")
    };
    let there = match first_stage(text, "", "Test loaf", request) {
        Ok(there) => there,
        Err(problems) => {
            prop_assert!(refused(&problems), "{problems:?}\n\n{text}\n{request:?}");
            return Ok(());
        }
    };
    prop_assert_eq!(faults(&there), Vec::<String>::new(), "{}\n\n{}", text, there.text);
    for target in [ConversionTarget::Straight, ConversionTarget::Sponge] {
        let own = ConversionRequest {
            stage: (request.target != ConversionTarget::Straight).then(|| stage_name(&there)),
            ..ConversionRequest::new(target)
        };
        match first_stage(text, &there.text, &there.after.dough, &own) {
            Ok(back) => {
                prop_assert_eq!(faults(&back), Vec::<String>::new(), "{}\n\n{}", there.text, back.text);
                prop_assert_eq!(whole(&there.before), whole(&back.after));
            }
            Err(problems) => prop_assert!(refused(&problems), "{problems:?}\n\n{}", there.text),
        }
    }
    Ok(())
}

/// What the new stage of a conversion is called: the one that the dough had not.
fn stage_name(done: &Conversion) -> String {
    let is_new = |stage: &&BalancedStage| !done.before.stages.iter().any(|old| old.name == stage.name);
    done.after.stages.iter().find(is_new).map(|stage| stage.name.clone()).unwrap_or_default()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_whole_stays(model in doughs(), request in wishes()) {
        if solve(&model).is_ok_and(|weights| !weights.is_negative()) {
            there_and_back(&model.document().text(), &request)?;
        }
    }

    #[test]
    fn the_whole_stays_in_whichever_way_it_is_written(model in decimal_doughs(), request in wishes()) {
        let weights = solve(&model).unwrap();
        there_and_back(&from_stages(&model, &weights).unwrap().text(), &request)?;
        there_and_back(&from_weights(&model, &weights, levamen_quantity::MassUnit::Gram).unwrap().text(), &request)?;
    }
}

/// A changed whole is noticed.
#[test]
fn another_whole_is_noticed() {
    let loaf = "dough Loaf\n\noverall\n  rye flour  100 %\n  water  70 %\n  salt  2 %\n  fresh yeast  1 %\n";
    let mut done = first_stage(loaf, "", "Loaf", &ConversionRequest::new(ConversionTarget::Poolish)).unwrap();
    assert_eq!(faults(&done), Vec::<String>::new());
    done.after.overall[1].share = percent("71");
    done.text.push('\n');
    assert_eq!(faults(&done).len(), 2);
}

/// The straight dough of a published formula, by its printed percentages.
fn straight(example: &Example) -> Option<(String, String)> {
    let form = example.percent_form.as_ref()?;
    let rows: Vec<String> = form.overall.iter().map(|row| format!("  {}  {} %\n", row.0, row.1)).collect();
    let flour = form.total_flour.as_ref().map(|figure| format!("{figure} {} of flour", example.unit));
    let dough = form.dough.as_ref().map(|figure| format!("{figure} {} of dough", example.unit));
    let text = format!("dough Straight\n\noverall\n{}\nmake {}\n", rows.concat(), flour.or(dough)?);
    let whole = text::from_percentages(example).ok()??;
    Some((text, whole))
}

/// What a line of a stage weighs, as a share of all flour.
fn weighed(stage: &BalancedStage, name: &str) -> Exact {
    let lines = stage.lines.iter().filter(|line| line.name == name);
    lines.map(|line| line.share.fraction()).sum()
}

/// A published formula with one pre-ferment is what its own straight dough becomes, line by line but for yeast.
fn becomes(name: &str, target: ConversionTarget, change: impl Fn(&mut ConversionRequest)) {
    let example = load(name).unwrap();
    let (straight, printed) = straight(&example).unwrap();
    let form = example.percent_form.as_ref().unwrap();
    let mut request = ConversionRequest {
        share: Some(percent(&form.prefermented_flour_pct)),
        ..ConversionRequest::new(target)
    };
    change(&mut request);
    let layers: [&[(TextId, &str)]; 2] =
        [&[(TextId(0), printed.as_str())], &[(TextId(1), straight.as_str())]];
    let done = convert(&layers, "Straight", &request).unwrap();
    let (book, problems) = Book::read(&[&[(TextId(0), printed.as_str())]]);
    assert!(problems.is_empty(), "{problems:?}");
    let (id, _) = book.entries().find(|(_, entry)| entry.role == levamen_formula::Role::Dough).unwrap();
    let published = levamen_balance::Balancer::new(&book).balance(id).unwrap().clone();
    assert_eq!(published.stages.len(), done.after.stages.len(), "{}", example.source);
    for (ours, theirs) in done.after.stages.iter().zip(&published.stages) {
        for line in theirs.lines.iter().filter(|line| matches!(line.item, BalancedItem::Ingredient { .. })) {
            if !is_yeast(&line.name) {
                let ours = weighed(ours, &line.name);
                assert_eq!(
                    ours,
                    *line.share.fraction(),
                    "{} in {}: {}",
                    line.name,
                    theirs.name,
                    example.source
                );
            }
        }
    }
}

/// `--hydration` and `--yeast` as a source prints them.
fn yeasted(hydration: &'static str, dose: &'static str) -> impl Fn(&mut ConversionRequest) {
    move |request| {
        request.hydration = Some(percent(hydration));
        request.dose = Some(percent(dose));
    }
}

/// Each source stands in its file of `tests/published`.
#[test]
fn published_doughs_with_a_yeasted_pre_ferment() {
    becomes("biga-ciabatta-kilograms", ConversionTarget::Biga, yeasted("60", "0.2"));
    becomes("biga-ciabatta-pounds", ConversionTarget::Biga, yeasted("60", "0.2"));
    becomes("biga-ciabatta-wetter", ConversionTarget::Biga, yeasted("60", "0.1"));
    becomes("poolish-baguette", ConversionTarget::Poolish, yeasted("100", "0.1"));
    becomes("poolish-ciabatta-hundred-pounds", ConversionTarget::Poolish, yeasted("100", "0.1"));
}

#[test]
fn published_doughs_with_a_levain() {
    let levain = |request: &mut ConversionRequest| {
        request.hydration = Some(percent("125"));
        request.seed = Some(percent("20"));
        request.given_back = true;
        request.flours = vec!["bread flour".to_owned()];
    };
    becomes("liquid-levain-a-little-rye", ConversionTarget::LiquidLevain, levain);
    becomes("liquid-levain-more-rye", ConversionTarget::LiquidLevain, levain);
}

/// Every published dough, written by its weights, can be mixed at once, and has the same whole.
#[test]
fn every_published_dough_as_a_straight_dough() {
    let mut count = 0;
    for name in names().unwrap() {
        let example = load(&name).unwrap();
        let Ok(text) = text::from_weights(&example) else { continue };
        let (book, _) = Book::read(&[&[(TextId(0), text.as_str())]]);
        let dough = book.entries().find(|(_, entry)| entry.role == levamen_formula::Role::Dough);
        let Some((_, dough)) = dough else { continue };
        match first_stage(&text, "", &dough.name, &ConversionRequest::new(ConversionTarget::Straight)) {
            Ok(done) => {
                assert_eq!(faults(&done), Vec::<String>::new(), "{name}\n{}", done.text);
                count += 1;
            }
            Err(problems) => assert_eq!(problems[0].code, "straight-already", "{name}: {problems:?}\n{text}"),
        }
    }
    assert!(count > 20, "{count} doughs");
}
