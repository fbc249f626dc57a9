//! `from SOURCE AMOUNT, given back`

use nom::Parser;
use nom::branch::alt;
use nom::combinator::value;

use super::amount::{amount, expect_end};
use super::heading;
use crate::measure;
use crate::name::{LineText, across};
use crate::parsers::{Read, comma, end, finish, given};
use crate::problems::{amount as amount_problems, heading as heading_problems};
use crate::space::trim;
use crate::syntax_error::SyntaxError;
use crate::{From, SeedFate, SeedSource, Span};

/// A culture's seed, or a piece of a dough.
pub(crate) fn from<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<From<'t>, SyntaxError<'t>> {
    let Some(split) = measure::split(text)? else {
        let (name, after) = text.split_at(text.find(',').unwrap_or(text.len()));
        let seed = fate(source, after)?;
        return Ok(From { source: origin(source, keyword, trim(name))?, amount: None, seed });
    };
    let from = origin(source, keyword, split.name)?;
    let (amount, after) = amount(source, &split)?;
    if !trim(after).starts_with(',') {
        expect_end(&split, after, "from mother culture 20 %, given back")?;
    }
    Ok(From { source: from, amount: Some(amount), seed: fate(source, after)? })
}

/// Where it comes from.
fn origin<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    name: &'t str,
) -> Result<SeedSource<'t>, SyntaxError<'t>> {
    if name.is_empty() {
        return Err(heading_problems::no_name(keyword, "from mother culture 20 %"));
    }
    if let Some((_, (this, dough, _))) = finish((given("this"), given("dough"), end).parse(name))? {
        return Ok(SeedSource::ThisDough(source.span(across(name, this, dough))));
    }
    heading::name(source, name).map(SeedSource::Named)
}

/// `, given back` or `, stays`, or nothing.
fn fate<'t>(source: LineText<'t>, text: &'t str) -> Result<Option<(SeedFate, Span)>, SyntaxError<'t>> {
    let text = trim(text);
    if text.is_empty() {
        return Ok(None);
    }
    match finish((comma, fate_words, end).parse(text))? {
        Some((_, (comma, fate, _))) => {
            let words = trim(text.get(comma.len()..).unwrap_or_default());
            Ok(Some((fate, source.span(words))))
        }
        None => Err(amount_problems::wrong_end(trim(text.trim_start_matches(',')))),
    }
}

fn fate_words(input: &str) -> Read<'_, SeedFate> {
    alt((value(SeedFate::GivenBack, (given("given"), given("back"))), value(SeedFate::Stays, given("stays"))))
        .parse(input)
}
