//! A dough mixed in several batches.

use levamen_balance::{Balance, BalancedLine, BalancedStage};
use levamen_formula::StageKind;
use levamen_quantity::{Exact, Mass, Share};

/// The balance of a dough whose final dough is mixed in parts: a final dough for each, which takes its share of every
/// line. The stages before are made once for all, and the whole stays what it is.
///
/// The parts are weights of dough; only their proportions count. With less than two the balance is left as it is.
#[must_use]
pub fn split(balance: &Balance, parts: &[Mass]) -> Balance {
    let whole: Exact = parts.iter().map(Mass::grams).sum();
    let shares: Option<Vec<Exact>> = parts.iter().map(|part| part.grams().checked_div(&whole)).collect();
    let mut balance = balance.clone();
    let is_final = |stage: &BalancedStage| stage.kind == StageKind::FinalDough;
    let (Some(shares), 2.., true) = (shares, parts.len(), balance.stages.last().is_some_and(is_final)) else {
        return balance;
    };
    if let Some(last) = balance.stages.pop() {
        balance.stages.extend((1..).zip(&shares).map(|(number, share)| part(&last, share, number)));
    }
    balance
}

/// What a batch is called: `final dough, batch 2`.
pub(crate) fn batch_name(name: &str, number: usize) -> String {
    format!("{name}, batch {number}")
}

/// One batch of the final dough.
fn part(stage: &BalancedStage, share: &Exact, number: usize) -> BalancedStage {
    let of = |whole: &Share| Share::from_fraction(whole.fraction() * share);
    BalancedStage {
        name: batch_name(&stage.name, number),
        lines: stage
            .lines
            .iter()
            .map(|line| BalancedLine { share: of(&line.share), ..line.clone() })
            .collect(),
        own_flour: of(&stage.own_flour),
        flour: of(&stage.flour),
        water: of(&stage.water),
        prefermented_flour: of(&stage.prefermented_flour),
        made: of(&stage.made),
        steam: of(&stage.steam),
        given_back: of(&stage.given_back),
        left_over: of(&stage.left_over),
        taken: of(&stage.taken),
        ..stage.clone()
    }
}
