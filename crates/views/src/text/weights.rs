//! Rounded weights for the bench: never a kilogram where a gram could be read.

use std::borrow::Cow;

use levamen_quantity::{Exact, Mass, MassUnit};
use levamen_sheets::Weight;

/// The most decimals that a weight is shown with, for scales whose division is no short decimal.
const MOST_PLACES: usize = 4;

/// A weight of either sort: exact, or as a scale shows it. A reader sees no difference.
pub trait AnyWeight {
    /// Its mass.
    fn mass(&self) -> Cow<'_, Mass>;
}

impl AnyWeight for Mass {
    fn mass(&self) -> Cow<'_, Mass> {
        Cow::Borrowed(self)
    }
}

impl AnyWeight for Weight {
    fn mass(&self) -> Cow<'_, Mass> {
        Cow::Owned(self.as_exact())
    }
}

/// A weight in one of two columns, kilograms from one kilogram up and grams below, with the decimals that its scale
/// shows.
pub fn in_columns(weight: &impl AnyWeight, division: &Mass) -> [String; 2] {
    let text = with_unit(weight, division);
    if unit_of(&weight.mass()) == MassUnit::Kilogram { [text, String::new()] } else { [String::new(), text] }
}

/// A weight with its unit and the decimals that its scale shows.
pub fn with_unit(weight: &impl AnyWeight, division: &Mass) -> String {
    let weight = weight.mass();
    let unit = unit_of(&weight);
    let figure = weight.in_unit(unit).to_fixed(places(&division.in_unit(unit)));
    format!("{figure} {}", unit.symbol())
}

fn unit_of(weight: &Mass) -> MassUnit {
    if *weight.grams() >= Exact::from(1000) { MassUnit::Kilogram } else { MassUnit::Gram }
}

/// How many decimals a step has.
fn places(step: &Exact) -> usize {
    let text = step.to_decimal_string();
    text.split_once('.').map_or(0, |(_, decimals)| decimals.len()).min(MOST_PLACES)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(weight: &str, division: &str) -> [String; 2] {
        let grams = |text| Mass::from_grams(Exact::from_literal(text).unwrap());
        in_columns(&grams(weight), &grams(division))
    }

    #[test]
    fn decimals_are_those_of_the_scale() {
        assert_eq!(shown("12430", "10"), ["12.43 kg", ""]);
        assert_eq!(shown("3300", "1"), ["3.300 kg", ""]);
        assert_eq!(shown("999", "1"), ["", "999 g"]);
        assert_eq!(shown("6.6", "0.1"), ["", "6.6 g"]);
        assert_eq!(shown("6607.3", "0.1"), ["6.6073 kg", ""]);
    }

    #[test]
    fn a_division_in_ounces_does_not_fill_the_line() {
        assert_eq!(shown("28.349523125", "2.8349523125"), ["", "28.3495 g"]);
    }
}
