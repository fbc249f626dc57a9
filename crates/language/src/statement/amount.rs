//! `NAME AMOUNT`, and the amounts that other facts share.

use levamen_quantity::Volume;
use nom::Parser;
use nom::branch::alt;

use super::heading;
use crate::measure::{self, Split};
use crate::name::one_spaced;
use crate::name::{LineText, across};
use crate::parsers::{Read, fail, finish, given};
use crate::problems::{amount as amount_problems, heading as heading_problems, number as number_problems};
use crate::space::{first_word, trim};
use crate::syntax_error::SyntaxError;
use crate::unit::NumberWithUnit;
use crate::unit::Unit;
use crate::{Amount, AmountKind, Basis, BasisScope, Name, Statement, Weigh};

/// `NAME AMOUNT`: an ingredient, or another stage that is taken in; then `, WORDS` that say when it goes in.
pub(crate) fn weigh<'t>(source: LineText<'t>, body: &'t str) -> Result<Statement<'t>, SyntaxError<'t>> {
    let Some(split) = measure::split(body)? else { return Err(no_amount(body)) };
    if split.name.is_empty() {
        let name = trim(split.after);
        let named = !name.is_empty() && !name.starts_with([',', '#']);
        return Err(if named {
            amount_problems::amount_first(split.written, name)
        } else {
            amount_problems::missing_name(split.written)
        });
    }
    heading::misspelt(split.name)?;
    let name = heading::name(source, split.name)?;
    let (amount, after) = amount(source, &split)
        .map_err(|wrong| amount_problems::with_whole(wrong, split.name, split.after))?;
    let when = when(source, after)?;
    if when.is_none() {
        expect_end(&split, after, "NAME AMOUNT")?;
    }
    Ok(Statement::Weigh(Weigh { name, amount, when }))
}

/// `, after the autolyse`: when something goes in. What becomes of a seed is said of `from` alone.
fn when<'t>(source: LineText<'t>, after: &'t str) -> Result<Option<Name<'t>>, SyntaxError<'t>> {
    let Some(words) = trim(after).strip_prefix(',').map(trim) else { return Ok(None) };
    let says_when = words.contains(char::is_alphabetic) && measure::measure(words).is_err();
    if !says_when || words.contains(',') || matches!(one_spaced(words).as_ref(), "given back" | "stays") {
        return Ok(None);
    }
    heading::name(source, words).map(Some)
}

/// What is wrong with a line that has no amount.
fn no_amount(body: &str) -> SyntaxError<'_> {
    if let Some((name, rest)) = body.split_once(',') {
        let comma = body.get(name.len()..body.len() - rest.len()).unwrap_or(body);
        return heading_problems::comma_in_name(comma, name);
    }
    match (heading::misspelt(body), measure::run_together(body)) {
        (Err(misspelt), _) => misspelt,
        (Ok(()), Some((name, amount))) => amount_problems::run_together(body, name, amount),
        (Ok(()), None) => amount_problems::missing(body, super::FACTS.into_iter().chain(super::HEADINGS)),
    }
}

/// The amount of a split line, with the whole that it is a share of, and what follows.
pub(crate) fn amount<'t>(
    source: LineText<'t>,
    split: &Split<'t>,
) -> Result<(Amount<'t>, &'t str), SyntaxError<'t>> {
    let Some(measure) = &split.measure else {
        return Ok((Amount { kind: AmountKind::Rest, span: source.span(split.written) }, split.after));
    };
    let mut kind =
        kind(source, measure, "an amount", "a percentage, a weight or a volume, such as 2 % or 20 g")?;
    let mut span = source.span(split.written);
    let mut after = split.after;
    if let AmountKind::Percent { of, .. } = &mut kind
        && !after.is_empty()
        && let Some((rest, basis)) = finish(basis(source, after))?
    {
        span = span.to(basis.span);
        after = rest;
        *of = Some(basis);
    }
    Ok((Amount { kind, span }, after))
}

/// What a number and its unit say.
pub(crate) fn kind<'t>(
    source: LineText<'t>,
    measure: &NumberWithUnit<'t>,
    wanted: &str,
    example: &str,
) -> Result<AmountKind<'t>, SyntaxError<'t>> {
    match measure.unit {
        Unit::Percent => Ok(AmountKind::Percent { percent: measure.value()?, of: None }),
        Unit::Mass(unit) => measure.quantity(source, unit).map(AmountKind::Mass),
        Unit::Volume(unit) => {
            let figure = measure.value()?;
            Ok(AmountKind::Volume { volume: Volume::from_unit(figure.clone(), unit), figure, unit })
        }
        Unit::Time(_) | Unit::Temperature(_) => Err(number_problems::wrong(measure, wanted, example)),
    }
}

/// `of the NAME`, `of its NAME`: the name runs to a comma or the end.
pub(crate) fn basis<'t>(source: LineText<'t>, input: &'t str) -> Read<'t, Basis<'t>> {
    let (after_of, of) = given("of").parse(input)?;
    let (words, rest) = after_of.split_at(after_of.find(',').unwrap_or(after_of.len()));
    let words = trim(words);
    let (name, article) = match alt((given("the"), given("its"))).parse(words) {
        Ok(found) => found,
        Err(nom::Err::Error(_)) => {
            let whole = if words.is_empty() { of } else { across(input, of, words) };
            return fail(amount_problems::basis_article(whole, words));
        }
        Err(mismatch) => return Err(mismatch),
    };
    let name = trim(name);
    if name.is_empty() {
        return fail(amount_problems::basis_article(across(input, of, article), ""));
    }
    let reach = if article == "the" { BasisScope::Dough } else { BasisScope::Stage };
    match heading::name(source, name) {
        Ok(name) => {
            let span = source.span(of).to(name.span);
            Ok((rest, Basis { reach, name, span }))
        }
        Err(wrong) => fail(wrong),
    }
}

/// Refuses words after a fact that is complete.
pub(crate) fn expect_end<'t>(split: &Split<'t>, after: &'t str, form: &str) -> Result<(), SyntaxError<'t>> {
    if after.is_empty() {
        return Ok(());
    }
    let after = trim(after);
    if let (Some(first), Ok((_, second))) = (&split.measure, measure::measure(after)) {
        return Err(number_problems::two(across(split.text, first.written, second.written), first, &second));
    }
    if let (Some(first), (second, "")) = (&split.measure, first_word(after))
        && Unit::from_symbol(second).is_some()
    {
        let both = across(split.text, first.written, second);
        return Err(number_problems::two_units(both, first.figure, first.unit.symbol(), second));
    }
    Err(amount_problems::more(after, form))
}
