//! A number and its unit: what ends a name and says how much.

use levamen_quantity::{Exact, Mass, MassUnit};
use nom::combinator::map_opt;
use nom::{Parser, sequence::preceded};

use crate::Quantity;
use crate::figure::{self, Zero};
use crate::name::{LineText, across};
use crate::parsers::{Read, blanks, word};
use crate::problems::number as number_problems;
use crate::space::{first_word, is_blank, trim, trim_start};
use crate::syntax_error::SyntaxError;
use crate::unit::{Advice, NumberWithUnit, Unit, miswritten};

impl<'t> NumberWithUnit<'t> {
    /// The number; nothing is refused.
    pub(crate) fn value(&self) -> Result<Exact, SyntaxError<'t>> {
        figure::value(self.figure, Zero::Refused)
    }

    /// The mass of this number and unit.
    pub(crate) fn quantity(&self, source: LineText<'t>, unit: MassUnit) -> Result<Quantity, SyntaxError<'t>> {
        let figure = self.value()?;
        let mass = Mass::from_unit(figure.clone(), unit);
        Ok(Quantity { mass, figure, unit, span: source.span(self.written) })
    }
}

/// A number with a unit at the beginning of a text.
pub(crate) fn measure(input: &str) -> Read<'_, NumberWithUnit<'_>> {
    let (rest, digits) = figure::figure(input)?;
    let (rest, unit) = preceded(blanks, map_opt(word, Unit::from_symbol)).parse(rest)?;
    let written = input.get(..input.len() - rest.len()).unwrap_or(input);
    Ok((rest, NumberWithUnit { figure: digits, unit, written }))
}

/// Words up to their quantity.
#[derive(Debug)]
pub(crate) struct Split<'t> {
    /// All the words that were split.
    pub(crate) text: &'t str,
    /// The words before it.
    pub(crate) name: &'t str,
    /// The quantity; `None` for `rest`.
    pub(crate) measure: Option<NumberWithUnit<'t>>,
    /// The quantity as written.
    pub(crate) written: &'t str,
    /// What follows it.
    pub(crate) after: &'t str,
}

/// Splits words at their quantity: the first number that a unit follows, or `rest` as the last word.
///
/// The words have no space around them. `None` where there is no quantity and no sign that one was meant. A number
/// without a unit belongs to the name: `type 550 flour 100 %`.
pub(crate) fn split(text: &str) -> Result<Option<Split<'_>>, SyntaxError<'_>> {
    let mut rest = text;
    let (mut before, mut name) = ("", "");
    while !rest.is_empty() {
        if figure::begins(rest) {
            if let Ok((after, measure)) = measure(rest) {
                thousands_space(text, before, &measure)?;
                return Ok(Some(Split {
                    text,
                    name,
                    measure: Some(measure),
                    written: measure.written,
                    after,
                }));
            }
            almost(rest)?;
        }
        let (here, next) = first_word(rest);
        if here == "rest" && (trim(next).is_empty() || trim(next).starts_with(',')) {
            return Ok(Some(Split { text, name, measure: None, written: here, after: next }));
        }
        if here.is_empty() {
            break;
        }
        before = here;
        name = text.get(..text.len() - next.len()).unwrap_or_default();
        rest = trim_start(next);
    }
    no_number(text)?;
    Ok(None)
}

/// A name and an amount that stand together without a space: `water60%`.
pub(crate) fn run_together(text: &str) -> Option<(&str, &str)> {
    let digits = text.char_indices().filter(|(_, letter)| letter.is_ascii_digit());
    digits.map(|(at, _)| text.split_at(at)).find(|(name, amount)| {
        name.ends_with(char::is_alphabetic) && measure(amount).is_ok_and(|(after, _)| trim(after).is_empty())
    })
}

/// Refuses a number whose unit is missing or miswritten.
///
/// A number may belong to a name, so only what is hardly anything else is an error: a miswritten unit, a number
/// at the end, or a number before `of`.
fn almost(text: &str) -> Result<(), SyntaxError<'_>> {
    let Ok((rest, digits)) = figure::figure(text) else { return Ok(()) };
    let spaced = trim_start(rest);
    let (unit, after) = first_word(spaced);
    let after = trim(after);
    if unit.is_empty() || (unit == "of" && spaced.len() < rest.len()) {
        return Err(number_problems::missing(digits, "%", "g"));
    }
    if figure::begins(unit) {
        return Ok(());
    }
    let (next, _) = first_word(after);
    let ends = matches!(next, "" | "of" | "at" | "to") || figure::begins(next);
    let Some(advice) = miswritten(unit) else {
        let is_short = after.is_empty() && unit.chars().count() <= 2;
        return if is_short { Err(number_problems::unknown(unit)) } else { Ok(()) };
    };
    if let Some(second) = miswritten(next) {
        // `21 degrees Celsius` says its unit last, `10 fl oz` first: a fluid ounce is no ounce.
        let advice = if matches!(advice, Advice::Convert(_)) { advice } else { second };
        return Err(number_problems::miswritten(across(text, unit, next), digits, advice));
    }
    // `1 cup water` is an error wherever it is: no name has a cup in it.
    let is_meant = ends || advice == Advice::Weigh;
    if is_meant { Err(number_problems::miswritten(unit, digits, advice)) } else { Ok(()) }
}

/// Refuses `1 000 g`, where a space may part thousands or a name and its amount. Two spaces part no thousands.
fn thousands_space<'t>(
    text: &'t str,
    before: &'t str,
    measure: &NumberWithUnit<'t>,
) -> Result<(), SyntaxError<'t>> {
    if measure.unit == Unit::Percent || !figure::begins(before) {
        return Ok(());
    }
    let whole = measure.figure.split('.').next().unwrap_or_default();
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    let parted = whole.len() == 3 && before.len() <= 3;
    let both = across(text, before, measure.figure);
    let is_close = both.len() <= before.len() + measure.figure.len() + 1;
    if parted && is_close && digits(before) && digits(whole) {
        return Err(number_problems::thousands_space(both, before, measure.unit.symbol()));
    }
    Ok(())
}

/// Refuses words that stand for no number where a number is wanted.
fn no_number(text: &str) -> Result<(), SyntaxError<'_>> {
    let mut words = text.split(is_blank).filter(|word| !word.is_empty()).rev();
    let last = words.next().unwrap_or_default();
    let figure = if Unit::from_symbol(last).is_some() { words.next().unwrap_or_default() } else { last };
    let bare = figure.trim_start_matches(['-', '+']).trim_end_matches(['%']);
    let is_none =
        ["nan", "inf", "infinity", "infinite"].into_iter().any(|word| bare.eq_ignore_ascii_case(word));
    if is_none { Err(number_problems::not_a_number(figure)) } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The name and the amount of some words.
    fn parts(text: &str) -> (&str, &str) {
        split(text).unwrap().map(|split| (split.name, split.written)).unwrap()
    }

    #[test]
    fn a_number_belongs_to_the_name_unless_a_unit_follows_it() {
        assert_eq!(parts("type 550 flour 100 %"), ("type 550 flour", "100 %"));
        assert_eq!(parts("T65 flour 80%"), ("T65 flour", "80%"));
        assert_eq!(parts("00 flour 1.5 kg"), ("00 flour", "1.5 kg"));
        assert_eq!(parts("7 grain mix  12 %"), ("7 grain mix", "12 %"));
        assert_eq!(parts("flour 550 100 %"), ("flour 550", "100 %"));
        assert_eq!(parts("levain 2 20 g"), ("levain 2", "20 g"));
        assert_eq!(parts("levain 2  200 g"), ("levain 2", "200 g"));
        assert!(split("levain 2 200 g").unwrap_err().is("thousands-mark"));
    }

    #[test]
    fn rest_is_an_amount_at_the_end_alone() {
        assert_eq!(parts("water rest"), ("water", "rest"));
        assert_eq!(parts("rest of the starter 20 g"), ("rest of the starter", "20 g"));
        assert!(split("rest of the starter").unwrap().is_none());
    }

    #[test]
    fn a_name_that_runs_into_its_amount_is_told_from_a_name_with_a_number() {
        assert_eq!(run_together("white flour100 %"), Some(("white flour", "100 %")));
        assert_eq!(run_together("T65 flour60%"), Some(("T65 flour", "60%")));
        assert_eq!(run_together("T65 flour"), None);
        assert_eq!(run_together("water"), None);
    }

    #[test]
    fn a_unit_ends_at_a_space_or_comma() {
        let split = split("levain 20 g, given back").unwrap().unwrap();
        assert_eq!((split.written, split.after), ("20 g", ", given back"));
        assert!(super::split("flour 20 grains").unwrap().is_none());
    }
}
