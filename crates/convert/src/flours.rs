//! Which flours a new pre-ferment is made of, and in which proportions.

use levamen_balance::{Balance, BalancedRow};
use levamen_formula::{IngredientId, Pantry, key};
use levamen_language::Problem;
use levamen_quantity::Exact;

use crate::declared::is_rye;
use crate::fault;
use crate::request::Request;
use crate::target::Target;
use crate::written::finite;

/// One flour of a pre-ferment.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Flour {
    pub id: IngredientId,
    pub name: String,
    /// Of the flour that is weighed into the pre-ferment as such.
    pub share: Exact,
}

/// The flours of a pre-ferment, and whether their proportions had to be rounded.
///
/// # Errors
/// A flour that the dough has not; a rye sour in a dough without rye.
pub(crate) fn choose(
    dough: &Balance,
    name: &str,
    request: &Request,
    pantry: &Pantry,
) -> Result<(Vec<Flour>, bool), Problem> {
    let all: Vec<&BalancedRow> = rows(dough).collect();
    let names: Vec<&str> = all.iter().map(|row| row.name.as_str()).collect();
    let mut chosen = Vec::new();
    for wanted in &request.flours {
        let row = all.iter().find(|row| key(&row.name) == key(wanted));
        let row = row.ok_or_else(|| fault::unknown_flour(wanted, name, &names))?;
        if !chosen.contains(row) {
            chosen.push(*row);
        }
    }
    if chosen.is_empty() && request.target == Target::RyeSour {
        chosen.extend(all.iter().filter(|row| is_rye(pantry, row.ingredient)));
        if chosen.is_empty() {
            return Err(fault::no_rye(name, &names));
        }
    } else if chosen.is_empty() {
        chosen = all;
    }
    Ok(in_proportion(&chosen))
}

/// The flours of a dough.
pub(crate) fn rows(dough: &Balance) -> impl Iterator<Item = &BalancedRow> {
    dough.overall.iter().filter(|row| row.is_flour && row.share.fraction().is_positive())
}

/// Flours in the proportions in which a dough has them. Where a percentage would have more than two decimals, all are
/// rounded down to one, and the flour that there is most of takes the rest.
fn in_proportion(rows: &[&BalancedRow]) -> (Vec<Flour>, bool) {
    let whole: Exact = rows.iter().map(|row| row.share.fraction()).sum();
    let shares: Vec<Exact> =
        rows.iter().map(|row| row.share.fraction().checked_div(&whole).unwrap_or_default()).collect();
    let is_short =
        |share: &Exact| finite(&(share * &Exact::from(10_000))).is_some_and(|words| !words.contains('.'));
    let is_rounded = !shares.iter().all(is_short);
    let mut flours: Vec<Flour> = rows
        .iter()
        .zip(shares)
        .map(|(row, share)| {
            let thousandth = &Exact::ONE / &Exact::from(1000);
            let down = &(&share * &Exact::from(1000)).floor() * &thousandth;
            Flour { id: row.ingredient, name: row.name.clone(), share: if is_rounded { down } else { share } }
        })
        .collect();
    let weighed: Exact = flours.iter().map(|flour| &flour.share).sum();
    if let Some(most) = flours.iter_mut().max_by(|one, other| one.share.cmp(&other.share)) {
        most.share = &most.share + &(&Exact::ONE - &weighed);
    }
    flours.retain(|flour| flour.share.is_positive());
    (flours, is_rounded)
}
