//! Salt in a pre-ferment: what is known of it, and that it is not counted.

use levamen_quantity::{Exact, Share};

use crate::answer::Remark;
use crate::figure::percent;

/// From this on, in percent of flour, salt stops the acid bacteria of a culture, and not its yeasts: M. Brandt, W. Hammes, M.
/// Gänzle, European Food Research and Technology 218 (2004) 333-338, abstract.
const STOPS_BACTERIA: i64 = 4;

/// Under this, in tenths of a percent of flour, it is what yeast and milk bring along, and not worth a word: our own choice.
const TRACE: i64 = 1;

/// What to look at in a pre-ferment that has salt: no time, temperature or amount that is answered counts it.
///
/// The share is that of salt in the pre-ferment's own flour. `None` without salt, or with a trace of it.
#[must_use]
pub fn salt_remark(salt: &Share) -> Option<Remark> {
    if &salt.percent() * &Exact::from(10) < Exact::from(TRACE) {
        return None;
    }
    let effect = if salt.percent() >= Exact::from(STOPS_BACTERIA) {
        "from 4 % on it stops the acid bacteria, and not the yeasts (Brandt, Hammes, Gänzle, 2004)"
    } else {
        "it slows yeasts and bacteria (common practice), so a time noted without salt is too short"
    };
    let message =
        format!("{} of salt on its flour is not counted beyond your own time: {effect}", percent(salt));
    Some(Remark::new("salt-not-counted", message))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn salt_is_said_and_its_effect_by_its_share() {
        let said = |figure: &str| {
            let share = Share::from_percent(Exact::from_literal(figure).unwrap());
            salt_remark(&share).map(|remark| remark.message)
        };
        assert_eq!(said("0"), None);
        assert_eq!(said("0.004"), None, "what a little yeast brings");
        assert!(said("2").unwrap().starts_with("2 % of salt on its flour is not counted"));
        assert!(said("2").unwrap().contains("slows"));
        assert!(said("4").unwrap().contains("stops the acid bacteria"));
    }
}
