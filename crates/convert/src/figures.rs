//! Exact figures as a dough text can have them, and how far they go.

use levamen_quantity::Exact;

/// A part of a whole that is never nothing: a weight, flour, what a tub holds.
pub(crate) fn quotient(part: &Exact, whole: &Exact) -> Exact {
    debug_assert!(!whole.is_zero(), "a part of nothing");
    part.checked_div(whole).unwrap_or_default()
}

/// The most characters of a figure: 28 digits and a point.
const LONGEST: usize = 29;

/// A figure digit by digit; `None` where it never ends or is too long for a text.
pub(crate) fn finite(figure: &Exact) -> Option<String> {
    let words = figure.to_decimal()?.normalize().to_string();
    (words.len() <= LONGEST && !words.starts_with('-')).then_some(words)
}

/// A share as a text has it. What is asked for was read from a text or rounded; anything else is cut at 28 digits, and
/// the balance of the text would show.
pub(crate) fn percent(share: &Exact) -> String {
    let percent = share * &Exact::HUNDRED;
    format!("{} %", finite(&percent).unwrap_or_else(|| percent.to_fixed(6)))
}

/// The least number of at least a thousand with which all of some shares end after a few decimals.
pub(crate) fn lowest<'s>(shares: impl Iterator<Item = &'s Exact>) -> Exact {
    let mut scale = Exact::ONE;
    for share in shares {
        scale = &scale * &endless(&(share * &scale).denominator());
    }
    while scale < Exact::from(1000) {
        scale = &scale * &Exact::from(10);
    }
    scale
}

/// What is left of a whole number without its factors 2 and 5.
fn endless(whole: &Exact) -> Exact {
    let mut rest = whole.clone();
    for factor in [Exact::from(2), Exact::from(5)] {
        loop {
            let less = &rest / &factor;
            if less.floor() != less {
                break;
            }
            rest = less;
        }
    }
    rest
}

/// A share rounded to two significant digits, as yeast is written; what is not nothing does not become nothing.
pub(crate) fn two_digits(share: &Exact) -> Exact {
    let mut division = Exact::ONE;
    if !share.is_positive() {
        return Exact::ZERO;
    }
    let ten = Exact::from(10);
    while *share < &division * &ten {
        division = &division / &ten;
    }
    share.round_to(&division)
}

/// The ingredient that runs out first.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ShareLimit {
    /// Which.
    pub name: String,
    /// What there is of it for the pre-ferment, of all flour.
    pub has: Exact,
    /// What it takes for each gram of its flour.
    pub needs: Exact,
    /// The largest share of the flour.
    pub share: Exact,
    /// Where it is the water: the largest hydration at the share that was asked for.
    pub hydration: Option<Exact>,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratio(numer: i64, denom: i64) -> Exact {
        Exact::ratio(numer, denom).unwrap()
    }

    #[test]
    fn figures_end_or_are_refused() {
        assert_eq!(finite(&ratio(1, 8)).as_deref(), Some("0.125"));
        assert_eq!(finite(&ratio(1, 3)), None);
    }

    #[test]
    fn a_batch_in_which_all_weights_end() {
        let shares = [ratio(9, 55), ratio(1, 3), ratio(1, 4)];
        assert_eq!(lowest(shares.iter()), Exact::from(3300));
    }

    #[test]
    fn yeast_has_two_digits() {
        for (share, rounded) in
            [(ratio(12_345, 10_000_000), "0.0012"), (ratio(2, 100), "0.02"), (ratio(999, 1000), "1")]
        {
            assert_eq!(two_digits(&share).to_decimal_string(), rounded);
        }
    }
}
