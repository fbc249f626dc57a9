//! Enough for the pieces. Rounding may leave a batch some grams short of the pieces that it is made for; then lines that
//! it rounded down are rounded up, as few and by as little as will do, until the pieces come out.

use levamen_balance::{BalancedItem, Batch};
use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass};

use super::cells::{Place, Weighed};
use super::lines::{StageSheet, mixed};
use super::stages;
use crate::pieces::{BatchPieces, loss, to_divide};
use crate::rounding_error::RoundingError;
use crate::weight::Weight;

/// How many lines may go up. Rounding leaves a batch short of less than a division for each of its scales, so few do.
const TRIES: usize = 64;

/// The stages of a batch with enough dough for its pieces. Where no line that was rounded down can make up for it, as
/// much as there is.
pub fn fill<'s>(
    batch: &Batch<'_>,
    mut weighed: Weighed<'s>,
    scales: &'s [Scale],
) -> Result<Vec<StageSheet>, RoundingError> {
    let mut filled = stages::fill(batch, &weighed, scales)?;
    let Some(pieces) = BatchPieces::of(batch)? else { return Ok(filled) };
    let wanted = pieces.mass();
    // A size that was not asked for with the piece for the next batch in it does not leave that either.
    let keeps = to_divide(batch) >= wanted;
    let left = |stages: &[StageSheet]| -> Result<Mass, RoundingError> {
        let kept = if keeps { kept_back(stages)? } else { Weight::ZERO };
        Ok(loss(batch).rest().of(&mixed_weight(stages)?.try_sub(kept)?.as_exact()))
    };
    let mut lines = rounded_down(batch, &weighed);
    for _ in 0..TRIES {
        let so_far = left(&filled)?;
        if so_far >= wanted {
            break;
        }
        let Some(place) = lines.best(&(&wanted - &so_far)) else { break };
        let Some((weight, scale)) = weighed.get(&place).copied() else { continue };
        let division = Weight::of_divisions(&Exact::ONE, &scale.division)?;
        weighed.insert(place, (weight.try_add(division)?, scale));
        let more = stages::fill(batch, &weighed, scales)?;
        if left(&more)? > so_far {
            filled = more;
        } else {
            weighed.insert(place, (weight, scale));
        }
    }
    Ok(filled)
}

/// What of a batch is kept for the next one: as much as it took of the last.
pub fn kept_back(stages: &[StageSheet]) -> Result<Weight, RoundingError> {
    let lines = stages.iter().flat_map(|stage| &stage.lines);
    Weight::try_sum(lines.filter(|line| line.is_of_last_batch()).map(|line| line.weight))
}

/// The weight of the dough.
pub fn mixed_weight(stages: &[StageSheet]) -> Result<Weight, RoundingError> {
    Weight::try_sum(mixed(stages).map(|stage| stage.taken))
}

/// The ingredients that were rounded down, the heaviest last.
fn rounded_down(batch: &Batch<'_>, weighed: &Weighed<'_>) -> RoundedDown {
    let stages = &batch.balance().stages;
    let mut lines: Vec<(Mass, Mass, Place)> = Vec::new();
    for (place, (weight, scale)) in weighed {
        let line = stages.get(place.0).and_then(|stage| stage.lines.get(place.1));
        let Some(line) = line.filter(|line| matches!(line.item, BalancedItem::Ingredient { .. })) else {
            continue;
        };
        let exact = batch.mass(&line.share);
        if weight.as_exact() < exact {
            lines.push((exact, scale.division.clone(), *place));
        }
    }
    lines.sort();
    RoundedDown(lines)
}

/// Lines that may go up: the exact weight, the division and the place of each.
struct RoundedDown(Vec<(Mass, Mass, Place)>);

impl RoundedDown {
    /// Takes out the line to round up: of those whose division makes up for all that is missing the one with the finest
    /// scale, else one with the coarsest; the heaviest of equals.
    fn best(&mut self, missing: &Mass) -> Option<Place> {
        let enough = |division: &Mass| division >= missing;
        let better = |one: &Mass, other: &Mass| match (enough(one), enough(other)) {
            (true, true) => one < other,
            (false, false) => one > other,
            (is_enough, _) => is_enough,
        };
        let mut best: Option<(usize, &Mass)> = None;
        for (index, (_, division, _)) in self.0.iter().enumerate().rev() {
            if best.is_none_or(|(_, known)| better(division, known)) {
                best = Some((index, division));
            }
        }
        let (index, _) = best?;
        Some(self.0.remove(index).2)
    }
}
