//! Exact numbers that owe nothing to the tool: quotients of big integers, written out as decimals.

use levamen_quantity::Exact;
use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{One, Signed, Zero};

/// An exact number.
pub type Ratio = BigRational;

/// The quotient of two whole numbers, of which the second is not zero.
#[must_use]
pub fn ratio(numer: i64, denom: i64) -> Ratio {
    Ratio::new(numer.into(), denom.into())
}

/// A whole number.
#[must_use]
pub fn whole(value: i64) -> Ratio {
    Ratio::from_integer(value.into())
}

/// A percentage as a fraction of one.
#[must_use]
pub fn fraction(percent: &Ratio) -> Ratio {
    percent / whole(100)
}

/// The number of the tool as one of ours. Its debug form is the fraction that loses nothing.
///
/// # Errors
/// Where that form is not a fraction.
pub fn from_exact(value: &Exact) -> Result<Ratio, String> {
    let shown = format!("{value:?}");
    let (numer, denom) = shown.split_once('/').unwrap_or((&shown, "1"));
    let part = |text: &str| text.parse::<BigInt>().map_err(|error| format!("{shown}: {error}"));
    Ok(Ratio::new(part(numer)?, part(denom)?))
}

/// A number that is not negative as a decimal; `None` where the decimal never ends.
#[must_use]
pub fn decimal(value: &Ratio) -> Option<String> {
    let ten = BigInt::from(10);
    let (mut scaled, mut places) = (value.clone(), 0_usize);
    while !scaled.denom().is_one() {
        // More decimals than any figure of a text may have.
        if places > 60 || value.is_negative() {
            return None;
        }
        scaled *= &ten;
        places += 1;
    }
    let digits = format!("{:0>width$}", scaled.numer().to_string(), width = places + 1);
    let (whole, decimals) = digits.split_at(digits.len() - places);
    Some(if decimals.is_empty() { whole.to_owned() } else { format!("{whole}.{decimals}") })
}

/// Whether a number is a decimal short enough to be written in a text: 28 digits.
#[must_use]
pub fn is_short(value: &Ratio) -> bool {
    decimal(value).is_some_and(|text| text.bytes().filter(u8::is_ascii_digit).count() <= 28)
}

/// The sum of numbers.
pub fn sum<'r>(terms: impl IntoIterator<Item = &'r Ratio>) -> Ratio {
    terms.into_iter().fold(Ratio::zero(), |sum, term| sum + term)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_end_where_the_denominator_is_of_twos_and_fives() {
        assert_eq!(decimal(&ratio(1, 8)).as_deref(), Some("0.125"));
        assert_eq!(decimal(&ratio(45_359_237, 100_000)).as_deref(), Some("453.59237"));
        assert_eq!(decimal(&whole(20)).as_deref(), Some("20"));
        assert_eq!(decimal(&ratio(1, 3)), None);
    }

    #[test]
    fn numbers_of_the_tool_come_over_whole() {
        let third = &Exact::ONE / &Exact::from(3);
        assert_eq!(from_exact(&third), Ok(ratio(1, 3)));
        assert_eq!(from_exact(&Exact::from(-7)), Ok(whole(-7)));
    }
}
