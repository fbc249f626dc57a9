//! Numbers as a person writes them.

use levamen_quantity::{Exact, LiteralError};
use nom::Parser;
use nom::bytes::complete::take_while1;

use crate::parsers::{Mismatch, Read};
use crate::problems::number as number_problems;
use crate::syntax_error::SyntaxError;

/// Whether nothing is a sensible figure here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Zero {
    Allowed,
    Refused,
}

/// Whether a word may be meant as a number: it begins with a digit, or with a point or sign and a digit.
pub(crate) fn begins(input: &str) -> bool {
    let mut characters = input.chars();
    match characters.next() {
        Some(first) if first.is_ascii_digit() => true,
        Some('.' | '+' | '-' | '\u{2212}' | '\u{2013}') => {
            characters.next().is_some_and(|next| next.is_ascii_digit() || next == '.')
        }
        Some(first) => is_vulgar_fraction(first),
        None => false,
    }
}

/// The characters of a number, right or wrong: everything that some people write in one.
pub(crate) fn figure(input: &str) -> Read<'_, &str> {
    let plain = input.bytes().take_while(|byte| byte.is_ascii_digit() || *byte == b'.').count();
    // Most figures are digits up to a space or a per cent sign.
    if plain > 0 && matches!(input.as_bytes().get(plain), Some(b' ' | b'%') | None) {
        let (digits, rest) = input.split_at(plain);
        return Ok((rest, digits));
    }
    if !begins(input) {
        return Err(nom::Err::Error(Mismatch::OtherForm));
    }
    let (rest, _) = take_while1(is_figure).parse(input)?;
    let written = input.get(..input.len() - rest.len() + exponent(rest)).unwrap_or(input);
    // A comma after a number ends it.
    let written = written.trim_end_matches(',');
    Ok((input.get(written.len()..).unwrap_or_default(), written))
}

fn is_figure(character: char) -> bool {
    character.is_ascii_digit()
        || matches!(character, '.' | ',' | '\'' | '’' | '/' | '+' | '-' | '\u{2212}' | '\u{2013}')
        || is_vulgar_fraction(character)
}

fn is_vulgar_fraction(character: char) -> bool {
    matches!(character, '¼' | '½' | '¾' | '⅐'..='⅞')
}

/// How long the exponent at the beginning of a text is, such as `e5`.
fn exponent(rest: &str) -> usize {
    let Some(tail) = rest.strip_prefix(['e', 'E']) else { return 0 };
    let digits = tail.strip_prefix(['+', '-']).unwrap_or(tail);
    let count = digits.bytes().take_while(u8::is_ascii_digit).count();
    if count == 0 { 0 } else { rest.len() - digits.len() + count }
}

/// The number that some characters stand for.
pub(crate) fn value(written: &str, zero: Zero) -> Result<Exact, SyntaxError<'_>> {
    match Exact::from_literal(written) {
        Ok(figure) if figure.is_zero() && zero == Zero::Refused => Err(number_problems::zero(written)),
        Ok(figure) => Ok(figure),
        Err(LiteralError::TooLong) => Err(number_problems::too_many_digits(written)),
        Err(LiteralError::NotANumber) => Err(wrong(written)),
    }
}

/// What is wrong with a number that is none.
fn wrong(written: &str) -> SyntaxError<'_> {
    if written.starts_with(['+', '-', '\u{2212}', '\u{2013}']) {
        return number_problems::sign(written);
    }
    if written.contains(['e', 'E']) {
        return number_problems::exponent(written);
    }
    if written.contains('/') || written.contains(is_vulgar_fraction) {
        return number_problems::fraction(written);
    }
    if written.contains(['-', '+', '\u{2212}', '\u{2013}']) {
        return number_problems::range(written);
    }
    let by_threes = || written.split('.').skip(1).all(|group| group.len() == 3);
    if !written.contains([',', '\'', '’']) && written.matches('.').count() > 1 && !by_threes() {
        return number_problems::two_points(written);
    }
    if written.contains(['\'', '’']) || written.matches([',', '.']).count() > 1 {
        return number_problems::thousands(written);
    }
    match written.split_once(',') {
        Some((whole, tail)) if tail.len() == 3 && whole.len() <= 3 && whole != "0" => {
            number_problems::thousands(written)
        }
        Some(_) => number_problems::decimal_comma(written),
        None => number_problems::bare_point(written),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The characters that are taken for a number at the beginning of a text.
    fn taken(text: &str) -> Option<&str> {
        figure(text).ok().map(|(_, figure)| figure)
    }

    #[test]
    fn a_number_is_taken_with_all_that_some_people_write_in_one() {
        for text in
            ["75", "2.5", "1,5", "1.000,5", "1'000", "1/2", "½", "2½", "-5", "+5", "1e5", "1e-5", ".5", "5."]
        {
            assert_eq!(taken(text), Some(text));
        }
        assert_eq!(taken("80% of"), Some("80"));
        assert_eq!(taken("24, then"), Some("24"));
        assert_eq!(taken("1el"), Some("1"));
        assert_eq!(taken("T65"), None);
        assert_eq!(taken("-a"), None);
    }

    #[test]
    fn only_plain_numbers_have_a_value() {
        assert_eq!(value("2.50", Zero::Refused).unwrap(), Exact::ratio(5, 2).unwrap());
        assert!(value("0", Zero::Refused).is_err());
        assert!(value("0", Zero::Allowed).unwrap().is_zero());
        assert!(value("1,5", Zero::Allowed).is_err());
    }
}
