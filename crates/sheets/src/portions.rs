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

#[cfg(test)]
mod tests {
    use jiff::civil::date;
    use jiff::tz::TimeZone;
    use levamen_culture::Take;
    use levamen_quantity::Exact;

    use super::*;

    fn grams(figure: i64) -> Mass {
        Mass::from_grams(Exact::from(figure))
    }

    fn shown(grams: i64) -> Weight {
        Weight::from_grams(grams.into())
    }

    fn scale(division: i64, capacity: i64) -> Scale {
        Scale { name: format!("to {capacity}"), division: grams(division), capacity: grams(capacity) }
    }

    /// Parts by their shares of what is new.
    fn parts(shares: &[(i64, i64)]) -> Vec<FeedPart> {
        let share = |&(numer, denom): &(i64, i64)| Share::from_fraction(Exact::ratio(numer, denom).unwrap());
        shares.iter().map(|part| FeedPart { name: "flour".to_owned(), share: share(part) }).collect()
    }

    fn at(hour: i8) -> jiff::Zoned {
        date(2026, 11, 27).at(hour, 0, 0, 0).to_zoned(TimeZone::UTC).unwrap()
    }

    fn feeding(discard: i64, old: i64, new: i64) -> Feeding {
        Feeding {
            at: at(8),
            ripe: at(16),
            discard: grams(discard),
            old: grams(old),
            new: grams(new),
            goes_cold: false,
        }
    }

    /// 100 g in three thirds are 34 g, 33 g and 33 g; each alone would be 33 g, and a gram would be missing.
    #[test]
    fn thirds_add_up_to_what_is_new() {
        let third = parts(&[(1, 3); 3]);
        let mut split = split(&[scale(1, 5000)], &grams(100), &third).unwrap();
        split.sort();
        assert_eq!(split, [shown(33), shown(33), shown(34)]);
    }

    /// 910 g, 70 g and 20 g on a scale of 1 g to 500 g and one of 10 g: each part on its own scale.
    #[test]
    fn each_part_is_in_divisions_of_the_scale_that_weighs_it() {
        let scales = [scale(1, 500), scale(10, 60_000)];
        let split = split(&scales, &grams(1003), &parts(&[(91, 100), (7, 100), (2, 100)])).unwrap();
        // 912.73 g to the nearest 10 g; 70.21 g and 20.06 g to the nearest gram.
        assert_eq!(split, [shown(910), shown(70), shown(20)]);
    }

    /// 350 g are found, 250 g thrown away and 100 g kept; 200 g of flour and water come to them, half and half.
    #[test]
    fn what_is_thrown_away_and_kept_is_what_was_found() {
        let parts = parts(&[(1, 2), (1, 2)]);
        let weighed = weighed(&[scale(1, 5000)], shown(350), &feeding(250, 100, 200), &[], &parts).unwrap();
        assert_eq!([weighed.discard, weighed.old], [shown(250), shown(100)]);
        assert_eq!(weighed.parts, [shown(100), shown(100)]);
        assert_eq!([weighed.added, weighed.made], [shown(200), shown(300)]);
        assert_eq!(weighed.share_old(), Share::from_fraction(Exact::ratio(1, 3).unwrap()));
    }

    /// Nothing is thrown away, so all 103 g that are found stay, though the plan counts with 100 g; less is added for them.
    #[test]
    fn all_that_is_found_is_kept_where_nothing_is_thrown_away() {
        let parts = parts(&[(1, 2), (1, 2)]);
        let weighed = weighed(&[scale(1, 5000)], shown(103), &feeding(0, 100, 200), &[], &parts).unwrap();
        assert_eq!([weighed.discard, weighed.old, weighed.made], [shown(0), shown(103), shown(300)]);
        assert_eq!(weighed.added, shown(197));
    }

    /// On a scale of 50 g, 110 g of new food would be 50 g and 50 g: with 50 g of old that is 150 g, and all of it would be taken.
    /// What is taken leaves something, so a division more goes in.
    #[test]
    fn rounding_leaves_more_than_is_taken() {
        let take = FeedingStep::Take(Take { at: at(16), mass: grams(150) });
        let parts = parts(&[(1, 2), (1, 2)]);
        let weighed = weighed(&[scale(50, 5000)], shown(50), &feeding(0, 50, 100), &[take], &parts).unwrap();
        assert!(weighed.made > shown(150), "{weighed:?}");
        assert_eq!(weighed.made, shown(200));
    }

    #[test]
    fn a_tub_that_stays_empty_has_no_old_culture_in_it() {
        let none = weighed(&[scale(1, 500)], shown(0), &feeding(0, 0, 0), &[], &[]).unwrap();
        assert_eq!((none.made, none.share_old()), (shown(0), Share::default()));
    }
}
