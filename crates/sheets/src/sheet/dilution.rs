//! Small weights: stirred into water they become weights that a scale can tell.

use levamen_balance::BalancedItem;
use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass};

use super::{LineSheet, Source, StageSheet, scales};

/// One part in so many of the mixture: the stronger one where it is enough, and otherwise the weaker.
const STRONGER: u32 = 10;
const WEAKER: u32 = 100;

/// What to do about a weight under twenty divisions of its scale.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remedy {
    /// Stir it into some of the stage's water.
    Dilute(Dilution),
    /// A dilution would bring more water than the stage still has.
    TooLittleWater {
        /// What it would bring.
        wanted: Mass,
        /// What there is.
        there: Mass,
    },
    /// Weigh it with care: flour, water, a piece of dough or a part of a tub is not diluted, nor what even one part
    /// in a hundred would not show.
    Care,
}

/// One part of something stirred into water, to be weighed in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dilution {
    /// One part in so many of the mixture, 10 or 100.
    pub one_part_in: u32,
    /// How much of it to weigh for making up the mixture.
    pub make_up: Mass,
    /// How much water to stir that into.
    pub make_up_water: Mass,
    /// How much of the mixture to weigh into the stage.
    pub weigh: Mass,
    /// How much less of the stage's water to weigh.
    pub water_less: Mass,
    /// Whether even so it is under twenty divisions.
    pub still_small: bool,
}

/// Marks the small weights of a stage and says what to do about each. Dilutions share the stage's water.
pub fn offer(stage: &mut StageSheet, scales: &[Scale]) {
    let mut water = stage_water(stage);
    for line in &mut stage.lines {
        let Source::Weighed(on) = &line.source else { continue };
        if line.exact == Mass::ZERO || !scales::is_small(&on.scale, &line.exact) {
            continue;
        }
        let remedy = remedy(line, &on.scale, scales, &water);
        if let Remedy::Dilute(dilution) = &remedy {
            water.weight = &water.weight - &dilution.water_less;
        }
        line.remedy = Some(remedy);
    }
}

/// The water of a stage that is still there to dilute with.
struct Water {
    weight: Mass,
    division: Mass,
}

/// The largest line of water.
fn stage_water(stage: &StageSheet) -> Water {
    let waters = stage
        .lines
        .iter()
        .filter(|line| matches!(line.item, BalancedItem::Ingredient { is_water: true, .. }));
    let largest = waters.max_by(|a, b| a.weight.cmp(&b.weight));
    let division = largest.and_then(|line| match &line.source {
        Source::Weighed(on) => Some(on.scale.division.clone()),
        Source::WholeTub | Source::RestOfTub => None,
    });
    Water {
        weight: largest.map(|line| line.weight.clone()).unwrap_or_default(),
        division: division.unwrap_or_default(),
    }
}

fn remedy(line: &LineSheet, scale: &Scale, scales: &[Scale], water: &Water) -> Remedy {
    match line.item {
        BalancedItem::Ingredient { is_flour: false, is_water: false, .. } | BalancedItem::Seed(_) => {}
        BalancedItem::Ingredient { .. } | BalancedItem::Piece | BalancedItem::Stage(_) => {
            return Remedy::Care;
        }
    }
    let parts = if enough(&line.exact, STRONGER, scales) { STRONGER } else { WEAKER };
    let brings = times(&line.exact, parts - 1);
    if brings > water.weight || water.division == Mass::ZERO {
        return Remedy::TooLittleWater { wanted: brings, there: water.weight.clone() };
    }
    let weigh = on_its_scale(&times(&line.exact, parts), scales);
    if weigh == Mass::ZERO {
        return Remedy::Care;
    }
    let make_up = scales::few_divisions(scale);
    Remedy::Dilute(Dilution {
        one_part_in: parts,
        make_up_water: on_its_scale(&times(&make_up, parts - 1), scales),
        make_up,
        weigh,
        water_less: brings.round_to(&water.division),
        still_small: !enough(&line.exact, parts, scales),
    })
}

/// Whether one part in `parts` makes a weight that its scale can tell.
fn enough(weight: &Mass, parts: u32, scales: &[Scale]) -> bool {
    let mixture = times(weight, parts);
    scales::for_weight(scales, &mixture).is_some_and(|scale| !scales::is_small(scale, &mixture))
}

fn times(weight: &Mass, parts: u32) -> Mass {
    Mass::from_grams(weight.grams() * &Exact::from(i64::from(parts)))
}

fn on_its_scale(weight: &Mass, scales: &[Scale]) -> Mass {
    scales::for_weight(scales, weight)
        .map_or_else(|| weight.clone(), |scale| weight.round_to(&scale.division))
}
