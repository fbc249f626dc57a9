//! `make …`: how much to bake.

use levamen_quantity::{Exact, MassUnit};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;
use nom::sequence::preceded;

use crate::fault::{Fault, amount as fault, unit as unit_fault};
use crate::figure::{Zero, figure, value};
use crate::measure::{self, Measure, measure};
use crate::source::Source;
use crate::unit::Unit;
use crate::words::{Read, blanks, comma, end, given, settle, trim};
use crate::{Make, MakeSize, Quantity, Span};

/// What the words say before they are judged.
enum Size<'t> {
    Pieces { count: &'t str, piece: Measure<'t> },
    Whole { of: &'t str, amount: Measure<'t> },
}

/// `make 24 pieces of 920 g`, `make 20 kg of dough`, `make 20 kg to divide`, `make 10 kg of flour`; then `, losing 2 %`.
pub(crate) fn make<'t>(source: Source<'t>, keyword: &'t str, text: &'t str) -> Result<Make, Fault<'t>> {
    if text.is_empty() {
        return Err(fault::missing_after(keyword, "make 24 pieces of 920 g"));
    }
    let losing = (comma, given("losing"), preceded(blanks, measure));
    let Some((_, (size, losing, _))) = settle((size, opt(losing), end).parse(text))? else {
        return Err(other_form(text));
    };
    let size = match size {
        Size::Pieces { count, piece } => pieces(source, count, &piece)?,
        Size::Whole { of: "flour", amount } => MakeSize::Flour(mass(source, &amount)?),
        Size::Whole { of: "divide", amount } => MakeSize::ToDivide(mass(source, &amount)?),
        Size::Whole { amount, .. } => MakeSize::Dough(mass(source, &amount)?),
    };
    let loss = losing.map(|(_, _, measure)| loss(source, &measure)).transpose()?;
    Ok(Make { size, loss })
}

fn size(input: &str) -> Read<'_, Size<'_>> {
    let piece_words = alt((given("pieces"), given("piece")));
    let pieces = (figure, piece_words, given("of"), preceded(blanks, measure));
    let of_what = preceded(given("of"), alt((given("dough"), given("flour"))));
    let whole = (measure, alt((of_what, preceded(given("to"), given("divide")))));
    alt((
        pieces.map(|(count, _, _, piece)| Size::Pieces { count, piece }),
        whole.map(|(amount, of)| Size::Whole { of, amount }),
    ))
    .parse(input)
}

fn pieces<'t>(source: Source<'t>, written: &'t str, piece: &Measure<'t>) -> Result<MakeSize, Fault<'t>> {
    let count = value(written, Zero::Refused)?;
    if count.floor() != count {
        return Err(fault::whole_pieces(written));
    }
    Ok(MakeSize::Pieces { count, span: source.span(written), piece: mass(source, piece)? })
}

/// A weight; nothing else can be made.
pub(super) fn mass<'t>(source: Source<'t>, measure: &Measure<'t>) -> Result<Quantity, Fault<'t>> {
    match measure.unit {
        Unit::Mass(unit) => measure.quantity(source, unit),
        _ => Err(unit_fault::wrong(measure, "a weight", &format!("a weight in {}", mass_symbols()))),
    }
}

fn mass_symbols() -> String {
    MassUnit::ALL.map(MassUnit::symbol).join(", ")
}

/// `losing 2 %`
fn loss<'t>(source: Source<'t>, measure: &Measure<'t>) -> Result<(Exact, Span), Fault<'t>> {
    if measure.unit != Unit::Percent {
        return Err(unit_fault::wrong(measure, "a percentage", "`losing 2 %`"));
    }
    let percent = measure.value()?;
    if percent >= Exact::HUNDRED {
        return Err(fault::over_hundred(measure.written, "can be lost", false));
    }
    Ok((percent, source.span(measure.written)))
}

/// What is wrong with words that have none of the forms: a number or unit where one is at fault, and otherwise
/// the form.
fn other_form(text: &str) -> Fault<'_> {
    if let Some((before, share)) = text.split_once(" losing ")
        && size(before).is_ok_and(|(rest, _)| trim(rest).is_empty())
    {
        return fault::losing_comma(text, before, share);
    }
    let (size, losing) = text.split_at(text.find(", ").unwrap_or(text.len()));
    for part in [size, trim(losing.trim_start_matches(','))] {
        match measure::split(part) {
            // `24 of 920 g` lacks pieces, not a unit.
            Err(fault) if fault.is(unit_fault::MISSING) && !text.ends_with(fault.words()) => {}
            Err(fault) if fault.is(unit_fault::MISSING) => {
                return unit_fault::missing(fault.words(), "g", "kg");
            }
            Err(fault) => return fault,
            Ok(Some(split)) => {
                if let Some(Err(fault)) = split.measure.map(|measure| measure.value()) {
                    return fault;
                }
            }
            Ok(None) => {}
        }
    }
    fault::make_form(text)
}
