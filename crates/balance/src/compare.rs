//! Two doughs side by side: two recipes, or one before and after a change.
//!
//! Ingredients and stages are matched by their names, whichever order they are in and whichever book they come from. A
//! stage that the other dough does not have is matched with one of the same kind, where each dough has only one such.

use std::collections::VecDeque;

use levamen_formula::{StageKind, key};
use levamen_quantity::{Mass, Share};
use rustc_hash::FxHashMap;

use crate::figures::{Balance, BalancedLine, BalancedStage, Batch};

/// Two doughs side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Their names.
    pub doughs: [String; 2],
    /// The whole flour of each.
    pub flour: [Mass; 2],
    /// The figures of the whole, each with its name: hydration and so on.
    pub figures: Vec<(&'static str, [Share; 2])>,
    /// The ingredients of the whole, in percent of the whole flour.
    pub rows: Vec<Compared>,
    /// The whole doughs.
    pub dough: Compared,
    /// The stages, in the order of the first dough and then those of the second alone.
    pub stages: Vec<ComparedStage>,
}

/// Something that is weighed in one of two doughs or in both.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// What it is.
    pub name: String,
    /// How much of it is in each dough.
    pub amounts: [Option<ComparedAmount>; 2],
}

/// How much there is of something.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedAmount {
    /// In the whole, of the whole flour; in a stage, of the stage's own flour, and `None` without any.
    pub share: Option<Share>,
    /// Its weight.
    pub weight: Mass,
}

/// A stage of one of two doughs or of both.
#[derive(Debug, Clone, PartialEq)]
pub struct ComparedStage {
    /// What each dough calls it.
    pub names: [Option<String>; 2],
    /// What it is; of the first dough that has it.
    pub kind: StageKind,
    /// What is weighed into it.
    pub lines: Vec<Compared>,
    /// What is in the tub when it is made.
    pub made: Compared,
    /// Water to flour of all that is in it.
    pub hydration: [Option<Share>; 2],
}

impl Compared {
    /// How much more of it the second dough has, in shares and in weight; nothing is less than something. `None` for
    /// shares where one of the doughs has no flour to calculate them by.
    #[must_use]
    pub fn difference(&self) -> (Option<Share>, Mass) {
        let [one, other] = self.amounts.each_ref();
        let share = |amount: &Option<ComparedAmount>| match amount {
            Some(amount) => amount.share.clone(),
            None => Some(Share::default()),
        };
        let weight = |amount: &Option<ComparedAmount>| {
            amount.as_ref().map_or(Mass::ZERO, |amount| amount.weight.clone())
        };
        let share = share(one).zip(share(other)).map(|(one, other)| Comparison::difference(&[one, other]));
        (share, &weight(other) - &weight(one))
    }
}

impl Comparison {
    /// How much more the second of two shares is than the first; below zero where it is less.
    #[must_use]
    pub fn difference([one, other]: &[Share; 2]) -> Share {
        Share::from_fraction(other.fraction() - one.fraction())
    }

    /// Compares two batches at the sizes that they have.
    #[must_use]
    pub fn new(batches: [&Batch<'_>; 2]) -> Self {
        let balances = batches.map(Batch::balance);
        let rows = balances.map(|balance| balance.overall.iter().map(|row| (row.name.as_str(), &row.share)));
        let rows = matched(rows.map(Iterator::collect))
            .into_iter()
            .map(|(name, shares)| compared(name, batches, shares, |_, share| Some(share.clone())));
        let stages = matched_stages(balances).into_iter().map(|stages| ComparedStage::new(batches, stages));
        Self {
            doughs: balances.map(|balance| balance.dough.clone()),
            flour: batches.map(|batch| batch.flour().clone()),
            figures: figures(balances),
            rows: rows.collect(),
            dough: compared("dough", batches, balances.map(|balance| Some(&balance.weight)), |_, share| {
                Some(share.clone())
            }),
            stages: stages.collect(),
        }
    }
}

/// The figures of the whole.
fn figures(balances: [&Balance; 2]) -> Vec<(&'static str, [Share; 2])> {
    let figure = |name, share: fn(&Balance) -> &Share| (name, balances.map(|balance| share(balance).clone()));
    vec![
        figure("hydration", |balance| &balance.hydration),
        figure("effective hydration", |balance| &balance.effective_hydration),
        figure("salt", |balance| &balance.salt),
        figure("pre-fermented flour", |balance| &balance.prefermented_flour),
    ]
}

impl ComparedStage {
    fn new(batches: [&Batch<'_>; 2], stages: [Option<&BalancedStage>; 2]) -> Self {
        let of_own_flour = |side: usize, share: &Share| {
            let own = stages.get(side).copied().flatten()?.own_flour.fraction();
            share.fraction().checked_div(own).map(Share::from_fraction)
        };
        let lines = stages.map(|stage| stage.map_or(&[][..], |stage| stage.lines.as_slice()));
        let lines =
            lines.map(|lines: &[BalancedLine]| lines.iter().map(|line| (line.name.as_str(), line)).collect());
        let lines = matched(lines).into_iter().map(|(name, lines)| {
            let when = lines.iter().flatten().find_map(|line: &&BalancedLine| line.when.as_ref());
            let name = when.map_or_else(|| name.to_owned(), |when| format!("{name}, {when}"));
            compared(&name, batches, lines.map(|line| line.map(|line| &line.share)), of_own_flour)
        });
        let kind = stages.iter().flatten().next().map_or(StageKind::FinalDough, |stage| stage.kind);
        Self {
            names: stages.map(|stage| stage.map(|stage| stage.name.clone())),
            kind,
            lines: lines.collect(),
            made: compared(
                "in the tub",
                batches,
                stages.map(|stage| stage.map(|stage| &stage.made)),
                of_own_flour,
            ),
            hydration: stages.map(|stage| stage.and_then(|stage| stage.hydration.clone())),
        }
    }
}

/// One thing in both batches.
fn compared(
    name: &str,
    batches: [&Batch<'_>; 2],
    shares: [Option<&Share>; 2],
    shown: impl Fn(usize, &Share) -> Option<Share>,
) -> Compared {
    let [one, other] = batches;
    let [in_one, in_other] = shares;
    let amount = |side: usize, batch: &Batch<'_>, share: Option<&Share>| {
        share.map(|share| ComparedAmount { share: shown(side, share), weight: batch.mass(share) })
    };
    Compared { name: name.to_owned(), amounts: [amount(0, one, in_one), amount(1, other, in_other)] }
}

/// What has a name on either side, each with what it is.
type Matched<'n, T> = Vec<(&'n str, [Option<T>; 2])>;

/// Matches two lists by name: in the order of the first, and then what the second has alone. A name that occurs twice is
/// matched in order.
fn matched<'n, T: Copy>([one, other]: [Vec<(&'n str, T)>; 2]) -> Matched<'n, T> {
    let mut places: FxHashMap<_, VecDeque<usize>> = FxHashMap::default();
    for (place, (name, _)) in other.iter().enumerate() {
        places.entry(key(name)).or_default().push_back(place);
    }
    let mut rest: Vec<Option<(&str, T)>> = other.iter().copied().map(Some).collect();
    let mut all: Matched<'n, T> = Vec::new();
    for (name, own) in one {
        let place = places.get_mut(&key(name)).and_then(VecDeque::pop_front);
        let same = place.and_then(|place| rest.get_mut(place)?.take());
        all.push((name, [Some(own), same.map(|(_, same)| same)]));
    }
    all.extend(rest.into_iter().flatten().map(|(name, own)| (name, [None, Some(own)])));
    all
}

/// Matches the stages of two doughs; the final doughs stand last.
fn matched_stages<'b>(balances: [&'b Balance; 2]) -> Vec<[Option<&'b BalancedStage>; 2]> {
    let ahead = balances.map(|balance| balance.stages.split_last().map_or(&[][..], |(_, ahead)| ahead));
    let named = ahead.map(|stages| stages.iter().map(|stage| (stage.name.as_str(), stage)).collect());
    let mut all: Vec<[Option<&'b BalancedStage>; 2]> =
        matched(named).into_iter().map(|(_, stages)| stages).collect();
    for index in 0..all.len() {
        let Some([Some(stage), None]) = all.get(index).copied() else { continue };
        let is_kind = |own: &BalancedStage| own.kind == stage.kind;
        let in_first = all.iter().filter(|pair| matches!(pair, [Some(own), None] if is_kind(own))).count();
        let in_second = all.iter().enumerate().filter_map(|(at, pair)| match pair {
            [None, Some(own)] if is_kind(own) => Some((at, *own)),
            _ => None,
        });
        if let (1, [(at, partner)]) = (in_first, in_second.collect::<Vec<_>>().as_slice()) {
            all.remove(*at);
            if let Some(pair) = all.get_mut(index) {
                *pair = [Some(stage), Some(*partner)];
            }
        }
    }
    all.push(balances.map(|balance| balance.stages.last()));
    all
}

#[cfg(test)]
mod tests {
    use levamen_quantity::Exact;

    use super::*;

    #[test]
    fn names_are_matched_in_the_order_of_the_first() {
        let one = vec![("Water", 1), ("salt", 2)];
        let other = vec![("salt", 3), ("yeast", 4), ("water", 5)];
        let all = matched([one, other]);
        assert_eq!(
            all,
            [("Water", [Some(1), Some(5)]), ("salt", [Some(2), Some(3)]), ("yeast", [None, Some(4)]),]
        );
    }

    #[test]
    fn nothing_is_less_than_something() {
        let amount = ComparedAmount {
            share: Some(Share::from_percent(Exact::from(2))),
            weight: Mass::from_grams(Exact::from(20)),
        };
        let only_first = Compared { name: "salt".to_owned(), amounts: [Some(amount), None] };
        let (share, weight) = only_first.difference();
        assert_eq!(share.unwrap().percent(), Exact::from(-2));
        assert_eq!(*weight.grams(), Exact::from(-20));
    }
}
