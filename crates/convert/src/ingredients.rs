//! What a pre-ferment takes of the ingredients of a dough: which flours, what of them is rye or yeast, and the largest share of the
//! flour that can be pre-fermented.
//!
//! For each gram of flour in a pre-ferment its other ingredients are settled. So what it takes grows in proportion to
//! its share of the flour, and the ingredient that runs out first is the limit: an exact quotient.

use levamen_balance::{Balance, BalancedItem, BalancedRow};
use levamen_ferment::Strength;
use levamen_formula::{IngredientId, Pantry, key};
use levamen_language::Problem;
use levamen_quantity::Exact;

use crate::figures::{ShareLimit, finite, quotient};
use crate::problems;
use crate::request::ConversionRequest;
use crate::target::ConversionTarget;

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
pub(crate) fn choose_flours(
    dough: &Balance,
    name: &str,
    request: &ConversionRequest,
    pantry: &Pantry,
) -> Result<(Vec<Flour>, bool), Problem> {
    let all: Vec<&BalancedRow> = flour_rows(dough).collect();
    let names: Vec<&str> = all.iter().map(|row| row.name.as_str()).collect();
    let mut chosen = Vec::new();
    for wanted in &request.flours {
        let row = all.iter().find(|row| key(&row.name) == key(wanted));
        let row = row.ok_or_else(|| problems::unknown_flour(wanted, name, &names))?;
        if !chosen.contains(row) {
            chosen.push(*row);
        }
    }
    if chosen.is_empty() && request.target == ConversionTarget::RyeSour {
        chosen.extend(all.iter().filter(|row| is_rye(pantry, row.ingredient)));
        if chosen.is_empty() {
            return Err(problems::no_rye(name, &names));
        }
    } else if chosen.is_empty() {
        chosen = all;
    }
    Ok(in_proportion(&chosen))
}

/// The flours of a dough.
pub(crate) fn flour_rows(dough: &Balance) -> impl Iterator<Item = &BalancedRow> {
    dough.overall.iter().filter(|row| row.is_flour && row.share.fraction().is_positive())
}

/// Flours in the proportions in which a dough has them. Where a percentage would have more than two decimals, all are
/// rounded down to one, and the flour that there is most of takes the rest.
fn in_proportion(rows: &[&BalancedRow]) -> (Vec<Flour>, bool) {
    let whole: Exact = rows.iter().map(|row| row.share.fraction()).sum();
    let shares: Vec<Exact> = rows.iter().map(|row| quotient(row.share.fraction(), &whole)).collect();
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

/// How strong a commercial yeast is; `None` of what is none.
pub(crate) fn strength(pantry: &Pantry, id: IngredientId) -> Option<Strength> {
    let said = pantry.get(id)?.yeast.as_ref()?;
    Strength::said(said.kind, said.replaces.as_ref())
}

/// Whether an ingredient is a commercial yeast.
pub(crate) fn is_yeast(pantry: &Pantry, id: IngredientId) -> bool {
    strength(pantry, id).is_some()
}

/// Whether an ingredient is a flour of rye.
pub(crate) fn is_rye(pantry: &Pantry, id: IngredientId) -> bool {
    pantry.get(id).is_some_and(|known| known.is_rye)
}

/// What a pre-ferment takes of one ingredient for each gram of the flour in it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct IngredientNeed {
    pub id: IngredientId,
    pub name: String,
    pub grams: Exact,
}

/// The limit of a pre-ferment in a dough, given as the dough without it.
pub(crate) fn share_limit(
    needs: &[IngredientNeed],
    without: &Balance,
    asked: &Exact,
    water: Option<IngredientId>,
) -> Option<ShareLimit> {
    let last = without.stages.last()?;
    let weighed = |wanted: IngredientId| -> Exact {
        let cells = last
            .lines
            .iter()
            .filter(|line| matches!(line.item, BalancedItem::Ingredient { id, .. } if id == wanted));
        cells.map(|line| line.share.fraction()).sum()
    };
    let limits = needs.iter().filter_map(|need| {
        let has = weighed(need.id);
        let share = has.checked_div(&need.grams)?;
        let hydration = if water == Some(need.id) { has.checked_div(asked) } else { None };
        Some(ShareLimit { name: need.name.clone(), has, needs: need.grams.clone(), share, hydration })
    });
    limits.min_by(|one, other| one.share.cmp(&other.share))
}
