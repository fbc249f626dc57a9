//! What is weighed, and its controlled rounding.

use std::collections::BTreeMap;

use levamen_balance::{BalancedItem, BalancedLine, BalancedStage, Batch};
use levamen_formula::{IngredientId, Scale};
use levamen_quantity::{Exact, Mass};

use crate::rounding::{RoundingCell, controlled};
use crate::rounding_error::RoundingError;
use crate::scales;
use crate::weight::{Weight, in_divisions};

/// Which line of which stage.
pub type Place = (usize, usize);

/// What is weighed, rounded, with its scale.
pub type Weighed<'s> = BTreeMap<Place, (Weight, &'s Scale)>;

/// What stands in one row of the table: the same thing in several stages.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum RowKey<'b> {
    Ingredient(IngredientId),
    Seed(&'b str),
    Piece(&'b str),
    /// A part taken out of another stage's tub.
    Tub(usize),
}

/// The lines weighed with one division, which are rounded together.
#[derive(Default)]
struct Class<'s> {
    places: Vec<(Place, &'s Scale)>,
    cells: Vec<RoundingCell>,
}

/// Rounds what is weighed. Weights that are shown in the same division form one table of ingredients by stages.
///
/// A weight between half a division and one becomes one, outside the table: to keep its sums, the table might
/// leave such a pinch of yeast out.
pub fn weigh<'s>(batch: &Batch<'_>, scales: &'s [Scale]) -> Result<Weighed<'s>, RoundingError> {
    let stages = &batch.balance().stages;
    let mut rows = BTreeMap::new();
    let mut classes: BTreeMap<&Mass, Class<'s>> = BTreeMap::new();
    let mut weighed = Weighed::new();
    for (place, line) in lines(stages).filter(|(place, line)| !takes_the_rest(stages, *place, line)) {
        let mass = batch.mass(&line.share);
        let scale = scales::for_weight(scales, &mass)?;
        let value = in_divisions(&mass, &scale.division)?;
        if value < Exact::ONE && &value + &value >= Exact::ONE {
            weighed.insert(place, (Weight::of_divisions(&Exact::ONE, &scale.division)?, scale));
            continue;
        }
        let next = rows.len();
        let row = *rows.entry(row_key(line)).or_insert(next);
        let class = classes.entry(&scale.division).or_default();
        class.places.push((place, scale));
        class.cells.push(RoundingCell { row, column: place.0, value });
    }
    for (division, class) in classes {
        let rounded = controlled(&class.cells)?;
        for ((place, scale), value) in class.places.into_iter().zip(rounded) {
            weighed.insert(place, (Weight::of_divisions(&value, division)?, scale));
        }
    }
    Ok(weighed)
}

/// Whether a line takes what the others leave in another stage's tub, so that nobody weighs it: nothing is left
/// over there, and no later line takes of it.
pub fn takes_the_rest(stages: &[BalancedStage], place: Place, line: &BalancedLine) -> bool {
    let BalancedItem::Stage(tub) = line.item else { return false };
    let all_is_taken = stages.get(tub).is_some_and(|stage| stage.left_over.fraction().is_zero());
    tub < place.0 && all_is_taken && takers(stages, tub).last() == Some(place)
}

/// The lines that take of a stage.
pub fn takers(stages: &[BalancedStage], tub: usize) -> impl Iterator<Item = Place> + '_ {
    lines(stages).filter(move |(_, line)| line.item == BalancedItem::Stage(tub)).map(|(place, _)| place)
}

fn lines(stages: &[BalancedStage]) -> impl Iterator<Item = (Place, &BalancedLine)> {
    stages
        .iter()
        .enumerate()
        .flat_map(|(at, stage)| stage.lines.iter().enumerate().map(move |(index, line)| ((at, index), line)))
}

fn row_key(line: &BalancedLine) -> RowKey<'_> {
    match line.item {
        BalancedItem::Ingredient { id, .. } => RowKey::Ingredient(id),
        BalancedItem::Seed(_) => RowKey::Seed(&line.name),
        BalancedItem::Piece => RowKey::Piece(&line.name),
        BalancedItem::Stage(tub) => RowKey::Tub(tub),
    }
}
