//! `ripens 12 to 16 h at 21 °C`

use levamen_quantity::{Duration, Exact, Temperature, TemperatureUnit, TimeUnit};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;
use nom::sequence::preceded;

use crate::Ripens;
use crate::figure::{Zero, figure, value};
use crate::measure::{self, measure};
use crate::name::{LineText, across};
use crate::parsers::{Read, blanks, end, finish, given};
use crate::problems::{amount as amount_problems, number as number_problems};
use crate::space::trim;
use crate::syntax_error::SyntaxError;
use crate::unit::NumberWithUnit;
use crate::unit::Unit;

/// How long a stage stands, and how warm.
pub(crate) fn ripens<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Ripens, SyntaxError<'t>> {
    if text.is_empty() {
        return Err(amount_problems::missing_after(keyword, "ripens 12 h at 21 °C"));
    }
    let warmth = preceded(given("at"), preceded(blanks, measure));
    let Some((_, ((least, most), warmth, _))) = finish((time, opt(warmth), end).parse(text))? else {
        return Err(other_form(text));
    };
    let Unit::Time(unit) = most.unit else {
        return Err(number_problems::wrong(&most, "a time", "`ripens 12 h` or `ripens 90 min`"));
    };
    let temperature = warmth.map(|measure| temperature(&measure, "at 21 °C` or `at 70 °F")).transpose()?;
    let span = source.span(across(text, least.unwrap_or(most.figure), most.written));
    let most_figure = most.value()?;
    let Some(least) = least else {
        let least = Duration::from_unit(&most_figure, unit);
        return Ok(Ripens { least, least_figure: most_figure, most: None, unit, temperature, span });
    };
    let least_figure = value(least, Zero::Refused)?;
    if least_figure > most_figure {
        return Err(amount_problems::time_order(
            across(text, least, most.written),
            least,
            most.figure,
            unit.symbol(),
        ));
    }
    Ok(ranged(least_figure, most_figure, unit, temperature, span))
}

fn ranged(
    least_figure: Exact,
    most_figure: Exact,
    unit: TimeUnit,
    temperature: Option<(Temperature, Exact, TemperatureUnit)>,
    span: crate::Span,
) -> Ripens {
    let (least, most) = (Duration::from_unit(&least_figure, unit), Duration::from_unit(&most_figure, unit));
    Ripens { least, least_figure, most: Some((most, most_figure)), unit, temperature, span }
}

/// `12 h` or `12 to 16 h`: the least where two are given, and the most.
fn time(input: &str) -> Read<'_, (Option<&str>, NumberWithUnit<'_>)> {
    let range = (figure, given("to"), preceded(blanks, measure));
    alt((range.map(|(least, _, most)| (Some(least), most)), measure.map(|most| (None, most)))).parse(input)
}

/// A temperature; the one figure that may be below zero.
pub(super) fn temperature<'t>(
    measure: &NumberWithUnit<'t>,
    example: &str,
) -> Result<(Temperature, Exact, TemperatureUnit), SyntaxError<'t>> {
    let Unit::Temperature(unit) = measure.unit else {
        return Err(number_problems::wrong(measure, "a temperature", &format!("`{example}`")));
    };
    let figure = match measure.figure.strip_prefix('-') {
        Some(below) => -&value(below, Zero::Allowed)?,
        None => value(measure.figure, Zero::Allowed)?,
    };
    let temperature = Temperature::from_unit(&figure, unit);
    // Absolute zero is -273.15 °C by the definition of the degree: BIPM, The International System of Units,
    // 9th edition, 2019, section 2.3.1 (from memory).
    let lowest = &Exact::from(-27_315) / &Exact::HUNDRED;
    if temperature.in_unit(TemperatureUnit::Celsius) < lowest {
        return Err(amount_problems::too_cold(measure.written));
    }
    Ok((temperature, figure, unit))
}

/// What is wrong with words that have none of the forms.
fn other_form(text: &str) -> SyntaxError<'_> {
    let (time, warmth) = text.split_at(text.find(" at ").unwrap_or(text.len()));
    for (part, one, other) in [(time, "h", "min"), (trim(warmth), "°C", "°F")] {
        match measure::split(part) {
            Err(error) if error.is(number_problems::MISSING) => {
                return number_problems::missing(error.words(), one, other);
            }
            Err(error) => return error,
            Ok(Some(split)) => {
                let second = finish(measure(trim(split.after))).ok().flatten();
                if let (Some(first), Some((_, second))) = (split.measure, second) {
                    let both = across(text, first.written, second.written);
                    return number_problems::two(both, &first, &second);
                }
            }
            Ok(None) => {}
        }
    }
    amount_problems::ripens_form(text)
}
