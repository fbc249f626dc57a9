//! `make …`: how much to bake.

use levamen_quantity::{Exact, MassUnit};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;
use nom::sequence::preceded;

use crate::figure::{Zero, figure, value};
use crate::measure::{self, measure};
use crate::name::LineText;
use crate::parsers::{Read, blanks, comma, end, finish, given};
use crate::problems::{amount as amount_problems, number as number_problems};
use crate::space::trim;
use crate::syntax_error::SyntaxError;
use crate::unit::NumberWithUnit;
use crate::unit::Unit;
use crate::{Make, MakeSize, Quantity, Span};

/// What the words say before they are judged.
enum MakeWords<'t> {
    Pieces { count: &'t str, piece: NumberWithUnit<'t> },
    Whole { of: &'t str, amount: NumberWithUnit<'t> },
}

/// `make 24 pieces of 920 g`, `make 20 kg of dough`, `make 20 kg to divide`, `make 10 kg of flour`; then `, losing 2 %`.
pub(crate) fn make<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Make, SyntaxError<'t>> {
    if text.is_empty() {
        return Err(amount_problems::missing_after(keyword, "make 24 pieces of 920 g"));
    }
    let losing = (comma, given("losing"), preceded(blanks, measure));
    let Some((_, (size, losing, _))) = finish((size, opt(losing), end).parse(text))? else {
        return Err(other_form(text));
    };
    let size = match size {
        MakeWords::Pieces { count, piece } => pieces(source, count, &piece)?,
        MakeWords::Whole { of: "flour", amount } => MakeSize::Flour(mass(source, &amount)?),
        MakeWords::Whole { of: "divide", amount } => MakeSize::ToDivide(mass(source, &amount)?),
        MakeWords::Whole { amount, .. } => MakeSize::Dough(mass(source, &amount)?),
    };
    let loss = losing.map(|(_, _, measure)| loss(source, &measure)).transpose()?;
    Ok(Make { size, loss })
}

fn size(input: &str) -> Read<'_, MakeWords<'_>> {
    let piece_words = alt((given("pieces"), given("piece")));
    let pieces = (figure, piece_words, given("of"), preceded(blanks, measure));
    let of_what = preceded(given("of"), alt((given("dough"), given("flour"))));
    let whole = (measure, alt((of_what, preceded(given("to"), given("divide")))));
    alt((
        pieces.map(|(count, _, _, piece)| MakeWords::Pieces { count, piece }),
        whole.map(|(amount, of)| MakeWords::Whole { of, amount }),
    ))
    .parse(input)
}

fn pieces<'t>(
    source: LineText<'t>,
    written: &'t str,
    piece: &NumberWithUnit<'t>,
) -> Result<MakeSize, SyntaxError<'t>> {
    let count = value(written, Zero::Refused)?;
    if count.floor() != count {
        return Err(amount_problems::whole_pieces(written));
    }
    Ok(MakeSize::Pieces { count, span: source.span(written), piece: mass(source, piece)? })
}

/// A weight; nothing else can be made.
pub(super) fn mass<'t>(
    source: LineText<'t>,
    measure: &NumberWithUnit<'t>,
) -> Result<Quantity, SyntaxError<'t>> {
    match measure.unit {
        Unit::Mass(unit) => measure.quantity(source, unit),
        _ => Err(number_problems::wrong(measure, "a weight", &format!("a weight in {}", mass_symbols()))),
    }
}

fn mass_symbols() -> String {
    MassUnit::ALL.map(MassUnit::symbol).join(", ")
}

/// `losing 2 %`
fn loss<'t>(source: LineText<'t>, measure: &NumberWithUnit<'t>) -> Result<(Exact, Span), SyntaxError<'t>> {
    if measure.unit != Unit::Percent {
        return Err(number_problems::wrong(measure, "a percentage", "`losing 2 %`"));
    }
    let percent = measure.value()?;
    if percent >= Exact::HUNDRED {
        return Err(amount_problems::over_hundred(measure.written, "can be lost", false));
    }
    Ok((percent, source.span(measure.written)))
}

/// What is wrong with words that have none of the forms: a number or unit where one is at error, and otherwise
/// the form.
fn other_form(text: &str) -> SyntaxError<'_> {
    if let Some((before, share)) = text.split_once(" losing ")
        && size(before).is_ok_and(|(rest, _)| trim(rest).is_empty())
    {
        return amount_problems::losing_comma(text, before, share);
    }
    let (size, losing) = text.split_at(text.find(", ").unwrap_or(text.len()));
    for part in [size, trim(losing.trim_start_matches(','))] {
        match measure::split(part) {
            // `24 of 920 g` lacks pieces, not a unit.
            Err(error) if error.is(number_problems::MISSING) && !text.ends_with(error.words()) => {}
            Err(error) if error.is(number_problems::MISSING) => {
                return number_problems::missing(error.words(), "g", "kg");
            }
            Err(error) => return error,
            Ok(Some(split)) => {
                if let Some(Err(error)) = split.measure.map(|measure| measure.value()) {
                    return error;
                }
            }
            Ok(None) => {}
        }
    }
    amount_problems::make_form(text)
}
