//! The rounded weights of one feeding.

use levamen_culture::{Feeding, FeedingStep};
use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass};

use super::{Part, Weighed};
use crate::rounding::{Cell, controlled};
use crate::sheet::scales::for_weight;

/// A weight in whole divisions of its scale, the nearest.
pub(crate) fn to_scale(scales: &[Scale], mass: &Mass) -> Mass {
    for_weight(scales, mass).map_or_else(|| mass.clone(), |scale| mass.round_to(&scale.division))
}

/// A weight in whole divisions of its scale, and not less than it is: what a levain needs it gets.
pub(super) fn enough(scales: &[Scale], mass: &Mass) -> Mass {
    let Some(scale) = for_weight(scales, mass) else { return mass.clone() };
    let division = scale.division.grams();
    Mass::from_grams(&-(-&(mass.grams() / division)).floor() * division)
}

/// What is weighed for a feeding that finds `stock`, before the steps that come `later`.
pub(super) fn weighed(
    scales: &[Scale],
    stock: &Mass,
    feeding: &Feeding,
    later: &[FeedingStep],
    parts: &[Part],
) -> Weighed {
    // Where nothing is thrown away, all that is found is kept, and nobody weighs it.
    let old = if feeding.discard.grams().is_zero() {
        stock.clone()
    } else {
        to_scale(scales, &feeding.old).min(stock.clone())
    };
    let (taken, kept) = asked_of(scales, later);
    let wanted = feeding.made().max(&taken + &kept);
    let new = Mass::from_grams((wanted.grams() - old.grams()).max(Exact::ZERO));
    let mut parts = split(scales, &new, parts);
    let lacking = &taken - &sum(&old, &parts);
    // Rounding must not eat what is needed. It could only where a scale is far too coarse for the culture.
    if !lacking.grams().is_negative()
        && let Some(largest) = parts.iter_mut().max()
        && let Some(scale) = for_weight(scales, largest)
    {
        let more = enough(std::slice::from_ref(scale), &(&lacking + &scale.division));
        *largest = &*largest + &more;
    }
    let made = sum(&old, &parts);
    Weighed { discard: stock - &old, old, parts, made }
}

/// What is weighed of each part of what is new.
pub(crate) fn split(scales: &[Scale], new: &Mass, parts: &[Part]) -> Vec<Mass> {
    let exact: Vec<Exact> = parts.iter().map(|part| part.share.fraction() * new.grams()).collect();
    rounded(scales, &exact)
}

/// What is taken before the next feeding, on the scale, and what that feeding then keeps.
fn asked_of(scales: &[Scale], later: &[FeedingStep]) -> (Mass, Mass) {
    let mut taken = Mass::ZERO;
    for step in later {
        match step {
            FeedingStep::Take(take) => taken = &taken + &enough(scales, &take.mass),
            FeedingStep::Feed(feeding) => return (taken, feeding.old.clone()),
        }
    }
    (taken, Mass::ZERO)
}

/// Parts in whole divisions of the scales that weigh them: those of one division together, so that their sum keeps too.
fn rounded(scales: &[Scale], exact: &[Exact]) -> Vec<Mass> {
    let scaled: Vec<(Exact, Mass)> = exact
        .iter()
        .map(|grams| {
            let division =
                for_weight(scales, &Mass::from_grams(grams.clone())).map(|scale| scale.division.clone());
            (grams.clone(), division.unwrap_or_else(|| Mass::from_grams(Exact::ONE)))
        })
        .collect();
    let mut divisions: Vec<Mass> = scaled.iter().map(|(_, division)| division.clone()).collect();
    divisions.sort();
    divisions.dedup();
    let mut parts = vec![Mass::ZERO; exact.len()];
    for division in divisions {
        let own = || scaled.iter().enumerate().filter(|(_, (_, own))| *own == division);
        let cells: Vec<Cell> = own()
            .map(|(column, (grams, _))| Cell { row: 0, column, value: grams / division.grams() })
            .collect();
        for ((column, _), count) in own().zip(controlled(&cells)) {
            if let Some(part) = parts.get_mut(column) {
                *part = Mass::from_grams(&count * division.grams());
            }
        }
    }
    parts
}

fn sum(old: &Mass, parts: &[Mass]) -> Mass {
    parts.iter().fold(old.clone(), |sum, part| &sum + part)
}
