//! The largest share of the flour that can be pre-fermented.
//!
//! For each gram of flour in a pre-ferment its other ingredients are settled. So what it takes grows in proportion to
//! its share of the flour, and the ingredient that runs out first is the limit: an exact quotient.

use levamen_balance::{Balance, BalancedItem};
use levamen_formula::IngredientId;
use levamen_quantity::Exact;

/// What a pre-ferment takes of one ingredient for each gram of the flour in it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Need {
    pub id: IngredientId,
    pub name: String,
    pub grams: Exact,
}

/// The ingredient that runs out first.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Limit {
    /// Which.
    pub name: String,
    /// What there is of it for the pre-ferment, of all flour.
    pub has: Exact,
    /// What it takes for each gram of its flour.
    pub needs: Exact,
    /// The largest share of the flour.
    pub share: Exact,
    /// Where it is the water: the largest hydration at the share that was asked for.
    pub hydration: Option<Exact>,
}

/// The limit of a pre-ferment in a dough, given as the dough without it.
pub(crate) fn limit(
    needs: &[Need],
    without: &Balance,
    asked: &Exact,
    water: Option<IngredientId>,
) -> Option<Limit> {
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
        Some(Limit { name: need.name.clone(), has, needs: need.grams.clone(), share, hydration })
    });
    limits.min_by(|one, other| one.share.cmp(&other.share))
}
