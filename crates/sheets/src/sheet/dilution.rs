//! Small weights: stirred into water they become weights that a scale can tell.

use levamen_balance::BalancedItem;
use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass};

use super::lines::{Dilution, LineSheet, LineSource, SmallWeightRemedy, StageSheet};
use crate::rounding_error::RoundingError;
use crate::scales;
use crate::weight::Weight;

/// One part in so many of the mixture: the stronger one where it is enough, and otherwise the weaker.
const STRONGER: u32 = 10;
const WEAKER: u32 = 100;

/// Marks the small weights of a stage and says what to do about each. Dilutions share the stage's water.
pub fn offer(stage: &mut StageSheet, scales: &[Scale]) -> Result<(), RoundingError> {
    let mut water = stage_water(stage);
    for line in &mut stage.lines {
        let LineSource::Weighed(on) = &line.source else { continue };
        if line.exact == Mass::ZERO || !scales::is_small(&on.scale, &line.exact) {
            continue;
        }
        let remedy = remedy(line, &on.scale, scales, &water)?;
        if let SmallWeightRemedy::Dilute(dilution) = &remedy {
            water.weight = water.weight.try_sub(dilution.water_less)?;
        }
        line.remedy = Some(remedy);
    }
    Ok(())
}

/// The water of a stage that is still there to dilute with.
struct Water {
    weight: Weight,
    /// What it is weighed in; `None` where none of it is weighed.
    division: Option<Mass>,
}

/// The largest line of water.
fn stage_water(stage: &StageSheet) -> Water {
    let waters = stage
        .lines
        .iter()
        .filter(|line| matches!(line.item, BalancedItem::Ingredient { is_water: true, .. }));
    let largest = waters.max_by(|a, b| a.weight.cmp(&b.weight));
    let division = largest.and_then(|line| match &line.source {
        LineSource::Weighed(on) => Some(on.scale.division.clone()),
        LineSource::WholeTub | LineSource::RestOfTub => None,
    });
    Water { weight: largest.map_or(Weight::ZERO, |line| line.weight), division }
}

fn remedy(
    line: &LineSheet,
    scale: &Scale,
    scales: &[Scale],
    water: &Water,
) -> Result<SmallWeightRemedy, RoundingError> {
    match line.item {
        BalancedItem::Ingredient { is_flour: false, is_water: false, .. } | BalancedItem::Seed(_) => {}
        BalancedItem::Ingredient { .. } | BalancedItem::Piece | BalancedItem::Stage(_) => {
            return Ok(SmallWeightRemedy::Care);
        }
    }
    let parts = if enough(&line.exact, STRONGER, scales)? { STRONGER } else { WEAKER };
    let brings = times(&line.exact, parts - 1);
    let division = water.division.as_ref().filter(|_| brings <= water.weight.as_exact());
    let Some(division) = division else {
        return Ok(SmallWeightRemedy::TooLittleWater { wanted: brings, there: water.weight });
    };
    let weigh = scales::nearest(scales, &times(&line.exact, parts))?;
    if weigh.is_zero() {
        return Ok(SmallWeightRemedy::Care);
    }
    let make_up = scales::few_divisions(scale);
    Ok(SmallWeightRemedy::Dilute(Dilution {
        one_part_in: parts,
        make_up_water: scales::nearest(scales, &times(&make_up, parts - 1))?,
        make_up: Weight::nearest(&make_up, &scale.division)?,
        weigh,
        water_less: Weight::nearest(&brings, division)?,
        still_small: !enough(&line.exact, parts, scales)?,
    }))
}

/// Whether one part in `parts` makes a weight that its scale can tell.
fn enough(weight: &Mass, parts: u32, scales: &[Scale]) -> Result<bool, RoundingError> {
    let mixture = times(weight, parts);
    Ok(!scales::is_small(scales::for_weight(scales, &mixture)?, &mixture))
}

fn times(weight: &Mass, parts: u32) -> Mass {
    Mass::from_grams(weight.grams() * &Exact::from(i64::from(parts)))
}
