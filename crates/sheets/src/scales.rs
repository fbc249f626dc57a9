//! Which scale weighs what.

use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass};

use crate::rounding_error::RoundingError;
use crate::weight::{Weight, in_divisions};

/// Under so many divisions a weight is uncertain by more than a fortieth: common practice, no source.
const FEW_DIVISIONS: i64 = 20;

/// A weight on its scale.
#[derive(Debug, Clone, PartialEq)]
pub struct OnScale {
    /// The scale.
    pub scale: Scale,
    /// In how many loads it is weighed; each but the last is a full one. `None` where they are more than can be counted.
    pub loads: Option<u64>,
    /// The most that the scale carries in whole divisions.
    pub full_load: Weight,
    /// What the last load weighs.
    pub last_load: Weight,
}

/// The scales that can weigh anything, the smallest first; the usual ones where there is none.
pub fn that_weigh(scales: &[Scale]) -> Vec<Scale> {
    let can_weigh = |scale: &&Scale| scale.division > Mass::ZERO && scale.division <= scale.capacity;
    let mut able: Vec<Scale> = scales.iter().filter(can_weigh).cloned().collect();
    if able.is_empty() {
        able = Scale::usual();
    }
    able.sort_by(|a, b| (&a.capacity, &a.division, &a.name).cmp(&(&b.capacity, &b.division, &b.name)));
    able
}

/// The smallest scale that carries a weight; over the largest, the largest. An error only without scales.
pub fn for_weight<'s>(scales: &'s [Scale], weight: &Mass) -> Result<&'s Scale, RoundingError> {
    let carries = scales.iter().find(|scale| *weight <= scale.capacity).or(scales.last());
    carries.ok_or_else(|| RoundingError::internal("there is no scale at all"))
}

/// A weight in whole divisions of the scale that weighs it, the nearest.
pub fn nearest(scales: &[Scale], mass: &Mass) -> Result<Weight, RoundingError> {
    Weight::nearest(mass, &for_weight(scales, mass)?.division)
}

/// A weight in whole divisions of the scale that weighs it, never less than it is.
pub fn not_under(scales: &[Scale], mass: &Mass) -> Result<Weight, RoundingError> {
    Weight::not_under(mass, &for_weight(scales, mass)?.division)
}

/// Puts a rounded weight on its scale, in as many loads as it takes.
pub fn put(scale: &Scale, weight: Weight) -> Result<OnScale, RoundingError> {
    let full_load = Weight::not_over(&scale.capacity, &scale.division)?;
    let full = full_load.as_exact();
    let loads = (-(-&in_divisions(&weight.as_exact(), &full)?).floor()).max(Exact::ONE);
    let before = Mass::from_grams(&(&loads - &Exact::ONE) * full.grams());
    let last_load = Weight::nearest(&(&weight.as_exact() - &before), &scale.division)?;
    let loads = loads.to_i64().and_then(|loads| u64::try_from(loads).ok());
    Ok(OnScale { scale: scale.clone(), loads, full_load, last_load })
}

/// Whether a weight is small for a scale.
pub fn is_small(scale: &Scale, weight: &Mass) -> bool {
    *weight < few_divisions(scale)
}

/// The least weight that is not small for a scale.
pub fn few_divisions(scale: &Scale) -> Mass {
    Mass::from_grams(scale.division.grams() * &Exact::from(FEW_DIVISIONS))
}

#[cfg(test)]
mod tests {
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

    #[test]
    fn the_smallest_scale_that_carries_it_weighs_it() {
        let scales = that_weigh(&[scale(10, 60_000), scale(1, 5_000)]);
        let name = |weight| for_weight(&scales, &grams(weight)).map(|scale| scale.name.as_str());
        assert_eq!(name(5_000), Ok("to 5000"));
        assert_eq!(name(5_001), Ok("to 60000"));
        assert_eq!(name(70_000), Ok("to 60000"));
    }

    #[test]
    fn loads_are_whole_divisions() {
        let put = |scale: &Scale, weight: i64| put(scale, shown(weight)).unwrap();
        assert_eq!(put(&scale(10, 60_000), 60_000).loads, Some(1));
        let two = put(&scale(10, 60_000), 60_010);
        assert_eq!((two.loads, two.last_load), (Some(2), shown(10)));
        let odd = put(&scale(10, 25), 40);
        assert_eq!((odd.full_load, odd.loads, odd.last_load), (shown(20), Some(2), shown(20)));
        assert_eq!(put(&scale(10, 25), 0).loads, Some(1));
    }

    #[test]
    fn a_scale_that_cannot_weigh_is_passed_over() {
        assert_eq!(that_weigh(&[scale(0, 100), scale(10, 5)]), that_weigh(&Scale::usual()));
    }

    #[test]
    fn small_is_under_twenty_divisions() {
        assert!(is_small(&scale(1, 500), &grams(19)));
        assert!(!is_small(&scale(1, 500), &grams(20)));
    }
}
