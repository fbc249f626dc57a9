//! Which scale weighs what.

use levamen_formula::Scale;
use levamen_quantity::{Exact, Mass};

/// Under so many divisions a weight is uncertain by more than a fortieth: common practice, no source.
const FEW_DIVISIONS: i64 = 20;

/// A weight on its scale.
#[derive(Debug, Clone, PartialEq)]
pub struct OnScale {
    /// The scale.
    pub scale: Scale,
    /// In how many loads it is weighed; each but the last is a [`OnScale::full_load`].
    pub loads: u64,
}

impl OnScale {
    /// The most that the scale carries in whole divisions.
    #[must_use]
    pub fn full_load(&self) -> Mass {
        full_load(&self.scale)
    }
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

/// The smallest scale that carries a weight; over the largest, the largest. `None` only without scales.
pub fn for_weight<'s>(scales: &'s [Scale], weight: &Mass) -> Option<&'s Scale> {
    scales.iter().find(|scale| *weight <= scale.capacity).or(scales.last())
}

/// Puts a rounded weight on its scale, in as many loads as it takes.
pub fn put(scale: &Scale, weight: &Mass) -> OnScale {
    let loads = weight.grams().checked_div(full_load(scale).grams()).map(|loads| -(-&loads).floor());
    let loads = loads.and_then(|loads| loads.to_i64()).and_then(|loads| u64::try_from(loads).ok());
    OnScale { scale: scale.clone(), loads: loads.unwrap_or(u64::MAX).max(1) }
}

/// Whether a weight is small for a scale.
pub fn is_small(scale: &Scale, weight: &Mass) -> bool {
    *weight < few_divisions(scale)
}

/// The least weight that is not small for a scale.
pub fn few_divisions(scale: &Scale) -> Mass {
    Mass::from_grams(scale.division.grams() * &Exact::from(FEW_DIVISIONS))
}

fn full_load(scale: &Scale) -> Mass {
    let divisions = scale.capacity.grams().checked_div(scale.division.grams()).unwrap_or_default().floor();
    Mass::from_grams(&divisions * scale.division.grams())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(figure: i64) -> Mass {
        Mass::from_grams(Exact::from(figure))
    }

    fn scale(division: i64, capacity: i64) -> Scale {
        Scale { name: format!("to {capacity}"), division: grams(division), capacity: grams(capacity) }
    }

    #[test]
    fn the_smallest_scale_that_carries_it_weighs_it() {
        let scales = that_weigh(&[scale(10, 60_000), scale(1, 5_000)]);
        let name = |weight| for_weight(&scales, &grams(weight)).map(|scale| scale.name.as_str());
        assert_eq!(name(5_000), Some("to 5000"));
        assert_eq!(name(5_001), Some("to 60000"));
        assert_eq!(name(70_000), Some("to 60000"));
    }

    #[test]
    fn loads_are_whole_divisions() {
        assert_eq!(put(&scale(10, 60_000), &grams(60_000)).loads, 1);
        assert_eq!(put(&scale(10, 60_000), &grams(60_010)).loads, 2);
        let odd = put(&scale(10, 25), &grams(40));
        assert_eq!((odd.full_load(), odd.loads), (grams(20), 2));
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
