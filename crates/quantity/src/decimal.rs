//! Decimals in and out: what a person writes, and what a file shows.

use std::num::NonZero;

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{One, Pow, Signed, ToPrimitive, Zero};
use rust_decimal::Decimal;
use thiserror::Error;

use crate::Exact;

/// The most digits that a written figure may have, and the digit at which an endless decimal is rounded.
pub const MAX_DIGITS: usize = 28;

/// Why a written figure is not a number of the book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
pub enum LiteralError {
    /// Something other than digits and one decimal point between digits.
    #[error("not a decimal number")]
    NotANumber,
    /// More than [`MAX_DIGITS`] digits.
    #[error("more than {MAX_DIGITS} digits")]
    TooLong,
}

impl Exact {
    /// Reads a plain decimal: digits, at most one point with digits on both sides, no sign.
    ///
    /// # Errors
    /// [`LiteralError`], where the text is anything else or longer than [`MAX_DIGITS`] digits.
    pub fn from_literal(text: &str) -> Result<Self, LiteralError> {
        if let Some(short) = short_literal(text.as_bytes()) {
            return Ok(short);
        }
        let (whole, fraction) = text.split_once('.').unwrap_or((text, "0"));
        let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
        if !digits(whole) || !digits(fraction) {
            return Err(LiteralError::NotANumber);
        }
        if text.len() > MAX_DIGITS + usize::from(text.contains('.')) {
            return Err(LiteralError::TooLong);
        }
        Decimal::from_str_exact(text).map(Self::from).map_err(|_| LiteralError::TooLong)
    }

    /// The number as a decimal string: exact where it is a finite decimal, and otherwise rounded once at the
    /// 28th significant digit.
    #[must_use]
    pub fn to_decimal_string(&self) -> String {
        let value = self.to_big();
        match finite_places(value.denom()) {
            Some(places) => {
                let digits = value.numer() * (ten_to(places) / value.denom());
                place_point(&digits, places)
            }
            None => significant(value.numer(), value.denom()),
        }
    }

    /// The number rounded to at most `places` decimals for reading, half away from zero, without needless zeros.
    #[must_use]
    pub fn to_trimmed(&self, places: usize) -> String {
        let text = self.to_fixed(places);
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
    }

    /// The number rounded to `places` decimals for reading, half away from zero.
    #[must_use]
    pub fn to_fixed(&self, places: usize) -> String {
        let digits = short_fixed(self, places).unwrap_or_else(|| {
            let value = self.to_big();
            divide_rounded(&(value.numer() * ten_to(places)), value.denom()).abs().to_string()
        });
        let is_nothing = digits.bytes().all(|digit| digit == b'0');
        let sign = if self.is_negative() && !is_nothing { "-" } else { "" };
        if places == 0 {
            return format!("{sign}{digits}");
        }
        let digits = format!("{digits:0>width$}", width = places + 1);
        let (whole, fraction) = digits.split_at(digits.len() - places);
        format!("{sign}{whole}.{fraction}")
    }

    /// The number as a [`Decimal`] where it fits one exactly; `None` otherwise.
    #[must_use]
    pub fn to_decimal(&self) -> Option<Decimal> {
        let value = self.to_big();
        let places = finite_places(value.denom())?;
        let digits = (value.numer() * (ten_to(places) / value.denom())).to_i128()?;
        Decimal::try_from_i128_with_scale(digits, places.to_u32()?).ok()
    }
}

/// A figure of at most 18 digits, which is all that a scale can show and fits in a word; `None` for any other text.
fn short_literal(text: &[u8]) -> Option<Exact> {
    if text.len() > 19 {
        return None;
    }
    let (mut value, mut scale, mut point) = (0_i64, 1_i64, None);
    for (index, byte) in text.iter().enumerate() {
        match byte {
            b'0'..=b'9' if index - usize::from(point.is_some()) < 18 => {
                value = value * 10 + i64::from(byte - b'0');
                scale *= if point.is_some() { 10 } else { 1 };
            }
            b'.' if point.is_none() && index > 0 => point = Some(index),
            _ => return None,
        }
    }
    let ends_in_digit = text.last().is_some_and(u8::is_ascii_digit);
    NonZero::new(scale).filter(|_| ends_in_digit).map(|scale| Exact::from_words(value, scale))
}

/// The digits of a number in words, rounded to some decimals, half away from zero; `None` where that takes more than
/// wide words hold.
fn short_fixed(number: &Exact, places: usize) -> Option<String> {
    let (numer, denom) = number.in_words()?;
    let power = 10_u128.pow(u32::try_from(places).ok().filter(|places| *places <= 18)?);
    let denom = u128::from(denom.unsigned_abs().get());
    // At most 2^63 · 10^18 · 2 + 2^63, which is below 2^124.
    Some(((u128::from(numer.unsigned_abs()) * power * 2 + denom) / (denom * 2)).to_string())
}

impl From<Decimal> for Exact {
    fn from(value: Decimal) -> Self {
        Self::from_parts(value.mantissa().into(), ten_to(value.scale() as usize))
    }
}

/// How many decimals a fraction in lowest terms with this denominator has; `None` where it never ends.
fn finite_places(denom: &BigInt) -> Option<usize> {
    let twos = denom.trailing_zeros().unwrap_or(0);
    let mut rest = denom >> twos;
    let (five, mut fives) = (BigInt::from(5), 0);
    while rest.is_multiple_of(&five) {
        rest /= &five;
        fives += 1;
    }
    rest.is_one().then(|| fives.max(usize::try_from(twos).unwrap_or(usize::MAX)))
}

fn ten_to(power: usize) -> BigInt {
    Pow::pow(BigInt::from(10), power)
}

/// The quotient rounded to a whole number, half away from zero.
fn divide_rounded(numer: &BigInt, denom: &BigInt) -> BigInt {
    let doubled: BigInt = numer.abs() * 2 + denom;
    let magnitude: BigInt = doubled / (denom * 2);
    if numer.is_negative() { -magnitude } else { magnitude }
}

/// An endless decimal, rounded at the 28th significant digit.
fn significant(numer: &BigInt, denom: &BigInt) -> String {
    // The number of whole digits, or minus the number of zeros after the point: a first guess from the
    // lengths, one too high at most.
    let length = |value: &BigInt| i64::try_from(value.abs().to_string().len()).unwrap_or(i64::MAX);
    let mut exponent = length(numer) - length(denom) + 1;
    let reaches = |exponent: i64| match usize::try_from(exponent - 1) {
        Ok(power) => numer.abs() >= denom * ten_to(power),
        Err(_) => numer.abs() * ten_to(usize::try_from(1 - exponent).unwrap_or(0)) >= *denom,
    };
    if !reaches(exponent) {
        exponent -= 1;
    }
    let shift = i64::try_from(MAX_DIGITS).unwrap_or(28) - exponent;
    if let Ok(places) = usize::try_from(shift) {
        return place_point(&divide_rounded(&(numer * ten_to(places)), denom), places);
    }
    let scale = ten_to(usize::try_from(-shift).unwrap_or(0));
    (divide_rounded(numer, &(denom * &scale)) * scale).to_string()
}

/// Writes `digits / 10^places` without needless zeros.
fn place_point(digits: &BigInt, places: usize) -> String {
    if digits.is_zero() {
        return "0".to_owned();
    }
    let (sign, text) = (if digits.is_negative() { "-" } else { "" }, digits.abs().to_string());
    let text = format!("{text:0>width$}", width = places + 1);
    let (whole, fraction) = text.split_at(text.len() - places);
    let fraction = fraction.trim_end_matches('0');
    if fraction.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{fraction}") }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn ratio(numer: i64, denom: i64) -> Exact {
        Exact::ratio(numer, denom).unwrap()
    }

    #[test]
    fn literals_are_plain_decimals() {
        assert_eq!(Exact::from_literal("0.75"), Ok(ratio(3, 4)));
        assert_eq!(Exact::from_literal("920"), Ok(Exact::from(920)));
        for text in ["", ".5", "5.", "1.2.3", "-1", "+1", "1e5", "NaN", "inf", "1,5", "٣"] {
            assert_eq!(Exact::from_literal(text), Err(LiteralError::NotANumber), "{text}");
        }
        assert_eq!(Exact::from_literal(&"9".repeat(40)), Err(LiteralError::TooLong));
        assert_eq!(Exact::from_literal(&format!("0.{}1", "0".repeat(38))), Err(LiteralError::TooLong));
    }

    #[test]
    fn finite_decimals_are_shown_whole() {
        assert_eq!(ratio(1, 8).to_decimal_string(), "0.125");
        assert_eq!(ratio(-12300, 1).to_decimal_string(), "-12300");
        assert_eq!(ratio(1, 1 << 40).to_decimal_string(), "0.0000000000009094947017729282379150390625");
        assert_eq!(Exact::ZERO.to_decimal_string(), "0");
    }

    #[test]
    fn endless_decimals_have_28_significant_digits() {
        assert_eq!(ratio(1, 3).to_decimal_string(), "0.3333333333333333333333333333");
        assert_eq!(ratio(2, 3).to_decimal_string(), "0.6666666666666666666666666667");
        assert_eq!(ratio(200, 3).to_decimal_string(), "66.66666666666666666666666667");
        assert_eq!(ratio(1, 3000).to_decimal_string(), "0.0003333333333333333333333333333");
        assert_eq!(ratio(100_000, 1_705).to_decimal_string(), "58.65102639296187683284457478");
    }

    #[test]
    fn fixed_places_round_half_away_from_zero() {
        assert_eq!(ratio(5, 1000).to_fixed(2), "0.01");
        assert_eq!(ratio(-5, 1000).to_fixed(2), "-0.01");
        assert_eq!(ratio(2, 3).to_fixed(0), "1");
        assert_eq!(ratio(999, 1000).to_fixed(1), "1.0");
    }

    proptest! {
        #[test]
        fn literals_come_back(whole in 0u64..1_000_000_000_000, fraction in "[0-9]{0,12}[1-9]") {
            let text = format!("{whole}.{fraction}");
            prop_assert_eq!(Exact::from_literal(&text).unwrap().to_decimal_string(), text);
        }

        #[test]
        fn decimals_agree_with_rust_decimal(mantissa in any::<i64>(), scale in 0u32..19) {
            let decimal = Decimal::new(mantissa, scale);
            let exact = Exact::from(decimal);
            prop_assert_eq!(exact.to_decimal_string(), decimal.normalize().to_string());
            prop_assert_eq!(exact.to_decimal(), Some(decimal));
        }

        #[test]
        fn fixed_places_do_not_depend_on_how_a_number_is_held(
            numer in any::<i64>(), denom in 1i64.., places in 0usize..25
        ) {
            let value = ratio(numer, denom);
            let scale = Exact::from_parts(ten_to(places), 1.into());
            let shown = parse(value.to_fixed(places).trim_start_matches('-'));
            let half = ratio(1, 2);
            prop_assert_eq!(&shown * &scale, (&(&value.abs() * &scale) + &half).floor());
        }

        #[test]
        fn an_endless_decimal_is_off_by_less_than_a_unit_of_its_last_digit(numer in 1i64.., denom in 1i64..) {
            let value = ratio(numer, denom);
            let shown = value.to_decimal_string();
            let digits = shown.replace('.', "");
            let digits = digits.trim_start_matches('0');
            if digits.len() == MAX_DIGITS {
                let back = parse(&shown);
                let relative = &(&back - &value).abs() / &value;
                prop_assert!(relative < Exact::from_parts(1.into(), ten_to(27)));
            }
        }
    }

    fn parse(text: &str) -> Exact {
        let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
        Exact::from_parts(format!("{whole}{fraction}").parse().unwrap(), ten_to(fraction.len()))
    }
}
