//! What is weighed for one feeding: of each part as much as adds up, and never less than is taken of it later.

use std::collections::BTreeMap;

use levamen_culture::{Feeding, FeedingStep};
use levamen_formula::Scale;
use levamen_quantity::{Mass, Share};

use crate::rounding::{RoundingCell, controlled};
use crate::rounding_error::RoundingError;
use crate::scales::{for_weight, nearest, not_under};
use crate::weight::{Weight, in_divisions};

/// One thing that a culture is fed.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedPart {
    /// What it is called.
    pub name: String,
    /// Its share of all that is new in a feeding.
    pub share: Share,
}

/// The rounded weights of a feeding.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedingWeights {
    /// What is thrown away.
    pub discard: Weight,
    /// What is kept.
    pub old: Weight,
    /// What is added, part by part.
    pub parts: Vec<Weight>,
    /// All that is added.
    pub added: Weight,
    /// What stands in the tub then.
    pub made: Weight,
}

impl FeedingWeights {
    /// The share of old culture, as it is weighed. Of a tub that stays empty it is nothing.
    #[must_use]
    pub fn share_old(&self) -> Share {
        self.old.as_exact().share_of(&self.made.as_exact()).unwrap_or_default()
    }
}

/// What is weighed for a feeding that finds `stock`, before the steps that come `later`.
pub fn weighed(
    scales: &[Scale],
    stock: Weight,
    feeding: &Feeding,
    later: &[FeedingStep],
    parts: &[FeedPart],
) -> Result<FeedingWeights, RoundingError> {
    // Where nothing is thrown away, all that is found is kept, and nobody weighs it.
    let old = if feeding.discard == Mass::ZERO { stock } else { nearest(scales, &feeding.old)?.min(stock) };
    let (taken, kept) = asked_of(scales, later)?;
    let wanted = feeding.made().max(&taken.as_exact() + &kept);
    let new = (&wanted - &old.as_exact()).max(Mass::ZERO);
    let mut parts = split(scales, &new, parts)?;
    let lacking = taken.try_sub(old.try_add(sum(&parts)?)?)?;
    // Rounding must not eat what is needed. It could only where a scale is far too coarse for the culture.
    if lacking >= Weight::ZERO
        && let Some(largest) = parts.iter_mut().max()
    {
        let division = &for_weight(scales, &largest.as_exact())?.division;
        let more = Weight::not_under(&(&lacking.as_exact() + division), division)?;
        *largest = largest.try_add(more)?;
    }
    let added = sum(&parts)?;
    let made = old.try_add(added)?;
    Ok(FeedingWeights { discard: stock.try_sub(old)?, old, parts, added, made })
}

/// What is weighed of each part of what is new.
pub fn split(scales: &[Scale], new: &Mass, parts: &[FeedPart]) -> Result<Vec<Weight>, RoundingError> {
    let exact: Vec<Mass> = parts.iter().map(|part| part.share.of(new)).collect();
    rounded(scales, &exact)
}

/// What is taken before the next feeding, on the scale, and what that feeding then keeps, exact.
fn asked_of(scales: &[Scale], later: &[FeedingStep]) -> Result<(Weight, Mass), RoundingError> {
    let mut taken = Weight::ZERO;
    for step in later {
        match step {
            FeedingStep::Take(take) => taken = taken.try_add(not_under(scales, &take.mass)?)?,
            FeedingStep::Feed(feeding) => return Ok((taken, feeding.old.clone())),
        }
    }
    Ok((taken, Mass::ZERO))
}

/// Parts in whole divisions of the scales that weigh them: those of one division together, so that their sum keeps too.
fn rounded(scales: &[Scale], exact: &[Mass]) -> Result<Vec<Weight>, RoundingError> {
    let mut classes: BTreeMap<&Mass, Vec<(usize, RoundingCell)>> = BTreeMap::new();
    for (column, mass) in exact.iter().enumerate() {
        let division = &for_weight(scales, mass)?.division;
        let cell = RoundingCell { row: 0, column, value: in_divisions(mass, division)? };
        classes.entry(division).or_default().push((column, cell));
    }
    let mut parts = vec![Weight::ZERO; exact.len()];
    for (division, class) in classes {
        let (columns, cells): (Vec<usize>, Vec<RoundingCell>) = class.into_iter().unzip();
        for (column, count) in columns.into_iter().zip(controlled(&cells)?) {
            if let Some(part) = parts.get_mut(column) {
                *part = Weight::of_divisions(&count, division)?;
            }
        }
    }
    Ok(parts)
}

fn sum(parts: &[Weight]) -> Result<Weight, RoundingError> {
    Weight::try_sum(parts.iter().copied())
}
