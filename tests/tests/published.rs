//! Every published worked example, recomputed and compared with its print, figure by figure.

use levamen_balance::Balance;
use levamen_quantity::{Exact, Share};
use levamen_tests::published::{Example, compare, load, names, text};
use levamen_tests::read::last_dough;

/// Balances a text and fails with the source and every figure that does not agree.
fn check(example: &Example, text: &str, compare: impl Fn(&Example, &Balance) -> Vec<String>) {
    let wrong = match last_dough(text) {
        Ok(balance) => compare(example, &balance),
        Err(problems) => vec![problems],
    };
    let (name, source) = (&example.name, &example.source);
    assert!(wrong.is_empty(), "{name}\nsource: {source}\n{}\n\n{text}", wrong.join("\n"));
}

/// A test for each example: from its printed weights, and from its printed percentages where it has some.
macro_rules! examples {
    ($($name:ident: $($form:ident)+;)*) => {
        $(mod $name { $(examples!(@ $form $name);)+ })*

        /// The examples with the forms that are tested.
        const TESTED: &[(&str, &[&str])] = &[$((stringify!($name), &[$(stringify!($form)),+])),*];
    };
    (@ weights $name:ident) => {
        #[test]
        fn from_weights() {
            let example = crate::example(stringify!($name)).unwrap();
            let text = crate::text::from_weights(&example).unwrap();
            crate::check(&example, &text, |example, balance| {
                crate::compare::from_weights(example, balance).unwrap()
            });
        }
    };
    (@ percentages $name:ident) => {
        #[test]
        fn from_percentages() {
            let example = crate::example(stringify!($name)).unwrap();
            let text = crate::text::from_percentages(&example).unwrap().expect("has percentages");
            crate::check(&example, &text, |example, balance| {
                crate::compare::from_percentages(example, balance).unwrap()
            });
        }
    };
}

examples! {
    biga_ciabatta_kilograms: weights percentages;
    biga_ciabatta_pounds: weights percentages;
    biga_ciabatta_wetter: weights percentages;
    durum_sponge_and_grain_soaker: weights;
    feeding_a_liquid_levain: weights;
    feeding_a_stiff_levain: weights;
    five_grain_levain: weights;
    flax_seed_rye: weights;
    honey_rolls: weights;
    levain_and_rye_sour_with_beer: weights;
    levain_with_a_little_yeast: weights;
    liquid_levain_a_little_rye: weights percentages;
    liquid_levain_and_seed_soaker: weights percentages;
    liquid_levain_more_rye: weights percentages;
    old_dough_and_grain_soaker: weights;
    old_dough_on_final_flour: weights;
    poolish_baguette: weights percentages;
    poolish_ciabatta_hundred_pounds: weights percentages;
    poolish_french_bread_kilograms: weights;
    poolish_french_bread_pounds: weights;
    poolish_left_over: weights;
    poolish_three_views: weights;
    rye_four_fifths_and_rye_soaker: weights;
    rye_levain_with_honey: weights;
    rye_sour_and_chops: weights;
    rye_sour_and_old_bread: weights;
    rye_sour_with_caraway: weights percentages;
    rye_sour_with_walnuts: weights;
    rye_two_thirds: weights percentages;
    semolina_liquid_levain: weights percentages;
    single_stage_rye: weights;
    sponge_white_bread: weights;
    stiff_levain_given_back: weights percentages;
    stiff_levain_stays: weights;
    stiff_levain_with_blueberries: weights percentages;
    three_stage_rye: weights;
    two_sours_with_beer: weights;
    whole_wheat_liquid_levain: weights percentages;
}

fn example(name: &str) -> Result<Example, String> {
    load(&name.replace('_', "-"))
}

#[test]
fn every_example_and_every_form_of_it_is_tested() {
    let tested: Vec<String> = TESTED.iter().map(|(name, _)| name.replace('_', "-")).collect();
    assert_eq!(tested, names().unwrap());
    for (name, forms) in TESTED {
        let has_percentages = example(name).unwrap().percent_form.is_some();
        assert_eq!(forms.contains(&"percentages"), has_percentages, "{name}");
    }
}

#[test]
fn a_wrong_figure_is_noticed() {
    let mut wrong = example("biga_ciabatta_kilograms").unwrap();
    wrong.rows[0].2 = "2.1".to_owned();
    let balance = last_dough(&text::from_weights(&wrong).unwrap()).unwrap();
    assert!(!compare::from_weights(&wrong, &balance).unwrap().is_empty());
}

/// The usual ranges were drawn around these; a formula that somebody printed is no slip of the pen.
#[test]
fn no_printed_formula_is_asked_about() {
    let (book, _) = levamen_formula::Book::read::<&str>(&[]);
    let asked = names().unwrap().into_iter().flat_map(|name| {
        let balance = last_dough(&text::from_weights(&load(&name).unwrap()).unwrap()).unwrap();
        let questions = levamen_balance::unusual(&balance, book.pantry(), levamen_language::Place::default());
        questions.into_iter().map(|question| format!("{name}: {}", question.message)).collect::<Vec<_>>()
    });
    assert_eq!(asked.collect::<Vec<_>>(), [""; 0]);
}

/// What the questions about unusual figures say of the printed formulas is what comes out of them, to the digits that are said.
#[test]
fn the_cited_ranges_are_those_of_the_printed_formulas() {
    let balances = names().unwrap().into_iter().map(|name| {
        let text = text::from_weights(&load(&name).unwrap()).unwrap();
        last_dough(&text).unwrap()
    });
    // A feeding alone is no dough, and has no salt.
    let doughs: Vec<Balance> = balances.filter(|balance| balance.salt.fraction().is_positive()).collect();
    assert!(doughs.len() > 30, "{} doughs", doughs.len());
    let range = |figure: fn(&Balance) -> &Share, digits: usize| {
        let mut shares: Vec<Exact> = doughs.iter().map(|dough| figure(dough).percent()).collect();
        shares.sort();
        let [least, .., most] = shares.as_slice() else { panic!("too few doughs") };
        format!(
            "{} to {} % in the printed formulas that were read",
            least.to_fixed(digits),
            most.to_fixed(digits)
        )
    };
    let odd = "dough Odd\n\noverall\n  flour  100 %\n  water  15 %\n  salt  20 %\n";
    let (book, _) = levamen_formula::Book::read::<&str>(&[]);
    let odd = last_dough(odd).unwrap();
    let asked = levamen_balance::unusual(&odd, book.pantry(), levamen_language::Place::default());
    let said: Vec<&str> = asked.iter().flat_map(|question| &question.notes).map(String::as_str).collect();
    for words in [range(|dough| &dough.effective_hydration, 1), range(|dough| &dough.salt, 2)] {
        assert!(said.iter().any(|note| note.contains(&format!(" %: {words}"))), "{words}: {said:?}");
    }
}
