//! A balance as a table of figures by name, so that two can be compared whatever the order of their lines.

use std::collections::BTreeMap;

use levamen_balance::{Balance, BalancedStage};
use levamen_quantity::Exact;
use num_traits::Zero;

use crate::oracle::{StageWeights, Weights};
use crate::ratio::{Ratio, from_exact};

/// Every figure that is not zero, as a fraction of the whole flour, by its name.
pub type Matrix = BTreeMap<String, Ratio>;

/// Every figure of a balance.
///
/// # Errors
/// Where a figure is no fraction.
pub fn of_balance(balance: &Balance) -> Result<Matrix, String> {
    let mut figures: Vec<(String, &Exact)> = vec![
        ("weight".to_owned(), balance.weight.fraction()),
        ("hydration".to_owned(), balance.hydration.fraction()),
        ("effective hydration".to_owned(), balance.effective_hydration.fraction()),
        ("salt".to_owned(), balance.salt.fraction()),
        ("pre-fermented flour".to_owned(), balance.prefermented_flour.fraction()),
    ];
    figures.extend(balance.overall.iter().map(|row| (format!("overall/{}", row.name), row.share.fraction())));
    for stage in &balance.stages {
        let named = stage_figures(stage);
        figures.extend(named.map(|(what, figure)| (format!("{}/{what}", stage.name), figure)));
        let lines = stage.lines.iter();
        figures.extend(
            lines.map(|line| (format!("{}/weighs {}", stage.name, line.name), line.share.fraction())),
        );
    }
    let mut matrix = Matrix::new();
    for (name, figure) in figures {
        add(&mut matrix, name, from_exact(figure)?);
    }
    Ok(matrix)
}

fn stage_figures(stage: &BalancedStage) -> impl Iterator<Item = (&'static str, &Exact)> {
    let shares = [
        ("own flour", &stage.own_flour),
        ("flour", &stage.flour),
        ("water", &stage.water),
        ("pre-fermented flour", &stage.prefermented_flour),
        ("made", &stage.made),
        ("steam", &stage.steam),
        ("given back", &stage.given_back),
        ("left over", &stage.left_over),
        ("taken", &stage.taken),
    ];
    let hydration = stage.hydration.iter().map(|share| ("hydration", share));
    shares.into_iter().chain(hydration).map(|(what, share)| (what, share.fraction()))
}

/// The figures that the oracle works out; a balance has these and more.
#[must_use]
pub fn of_weights(weights: &Weights) -> Matrix {
    let mut matrix = Matrix::new();
    add(&mut matrix, "pre-fermented flour".to_owned(), weights.prefermented.clone());
    for (name, weight) in &weights.overall {
        add(&mut matrix, format!("overall/{name}"), weight.clone());
    }
    for stage in &weights.stages {
        for (name, weight) in &stage.lines {
            add(&mut matrix, format!("{}/weighs {name}", stage.name), weight.clone());
        }
        for (what, figure) in oracle_figures(stage) {
            add(&mut matrix, format!("{}/{what}", stage.name), figure.clone());
        }
    }
    matrix
}

fn oracle_figures(stage: &StageWeights) -> [(&'static str, &Ratio); 6] {
    [
        ("own flour", &stage.own_flour),
        ("made", &stage.made),
        ("steam", &stage.steam),
        ("given back", &stage.given_back),
        ("left over", &stage.left_over),
        ("taken", &stage.taken),
    ]
}

fn add(matrix: &mut Matrix, name: String, figure: Ratio) {
    if !figure.is_zero() {
        *matrix.entry(name).or_insert_with(Ratio::zero) += figure;
    }
}

/// Where two tables differ, a line for each figure; `one` may have figures of kinds that `other` has not at all.
#[must_use]
pub fn differences(one: &Matrix, other: &Matrix) -> Vec<String> {
    let names = one.keys().chain(other.keys().filter(|name| !one.contains_key(*name)));
    let differ = names.filter(|name| one.get(*name) != other.get(*name));
    let shown = |figure: Option<&Ratio>| figure.map_or_else(|| "nothing".to_owned(), Ratio::to_string);
    differ.map(|name| format!("{name}: {} and {}", shown(one.get(name)), shown(other.get(name)))).collect()
}

/// Where a balance differs from what the oracle works out: in any figure that either has of the kinds that the oracle
/// knows.
///
/// # Errors
/// Where a figure is no fraction.
pub fn differences_from_oracle(balance: &Balance, weights: &Weights) -> Result<Vec<String>, String> {
    let expected = of_weights(weights);
    let mut found = of_balance(balance)?;
    let of_a_kind = |name: &str| {
        name == "pre-fermented flour"
            || name.starts_with("overall/")
            || name.contains("/weighs ")
            || ["/own flour", "/made", "/steam", "/given back", "/left over", "/taken"]
                .iter()
                .any(|end| name.ends_with(end))
    };
    found.retain(|name, _| of_a_kind(name));
    Ok(differences(&found, &expected))
}
