//! Problems of numbers and their units.

use levamen_quantity::{Duration, Exact, MAX_DIGITS, Mass, MassUnit, TimeUnit, Volume};

use crate::syntax_error::{SyntaxError, quoted};
use crate::unit::NumberWithUnit;
use crate::unit::{Advice, Unit};
use crate::words::listed_quoted;

pub(crate) fn zero(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("zero", at, "an amount of nothing").label("nothing of it").help("leave the line out")
}

/// A card that says there is none of what it is a card of.
pub(crate) fn none_there(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("zero", at, "an amount of nothing")
        .label("nothing of it")
        .help("what is not there has no card: put a `#` before each of its lines, or take them out")
}

pub(crate) fn too_many_digits(at: &str) -> SyntaxError<'_> {
    let digits = at.bytes().filter(u8::is_ascii_digit).count();
    SyntaxError::new("too-many-digits", at, format!("a number of {digits} digits"))
        .label(format!("at most {MAX_DIGITS} digits"))
        .help("write as many digits as a scale can show")
}

pub(crate) fn sign(at: &str) -> SyntaxError<'_> {
    let unsigned = at.trim_start_matches(['+', '-', '\u{2212}', '\u{2013}']);
    SyntaxError::new("sign", at, format!("`{}` has a sign", quoted(at)))
        .label("amounts have no sign")
        .note("nothing can be weighed with less than nothing on the scale")
        .help(format!("write {unsigned}"))
}

pub(crate) fn exponent(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("exponent", at, format!("`{}` has an exponent", quoted(at)))
        .label("not a plain number")
        .help("write all its digits, such as 12500")
}

pub(crate) fn fraction(at: &str) -> SyntaxError<'_> {
    let decimal = match at {
        "½" | "1/2" => "0.5",
        "¼" | "1/4" => "0.25",
        "¾" | "3/4" => "0.75",
        _ => "a decimal, such as 0.5",
    };
    SyntaxError::new("fraction", at, format!("`{}` is a fraction", quoted(at)))
        .label("amounts are decimals")
        .help(format!("write {decimal}"))
}

pub(crate) fn range(at: &str) -> SyntaxError<'_> {
    let ends = at.replace(['-', '+', '\u{2212}', '\u{2013}'], " to ");
    SyntaxError::new("range", at, format!("`{}` is not one number", quoted(at)))
        .label("one number is wanted")
        .help(format!("write one number; only a ripening time has a least and a most: `ripens {ends} h`"))
}

pub(crate) fn two_points(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("two-points", at, format!("`{}` has more than one decimal point", quoted(at)))
        .label("not a number")
        .help("write a number with at most one point, such as 12.5")
}

pub(crate) fn thousands(at: &str) -> SyntaxError<'_> {
    let digits: String = at.chars().filter(char::is_ascii_digit).collect();
    let error = SyntaxError::new("thousands-mark", at, format!("`{}` has a thousands mark", quoted(at)))
        .label("never guessed")
        .note("a comma, point or mark within a number is read in two ways, by country");
    match at.split_once(',') {
        Some((whole, tail)) if !whole.contains('.') && !tail.contains([',', '.']) => {
            error.help(format!("write {digits}, or {whole}.{tail} if the comma is a decimal comma"))
        }
        _ => match at.rfind(['.', ',']).and_then(|mark| at.split_at_checked(mark)) {
            Some((whole, tail)) if tail.len() != 4 => {
                let whole: String = whole.chars().filter(char::is_ascii_digit).collect();
                let tail: String = tail.chars().filter(char::is_ascii_digit).collect();
                error.help(format!("write {whole}.{tail}"))
            }
            _ => error.help(format!("write {digits}")),
        },
    }
}

pub(crate) fn thousands_space<'t>(at: &'t str, whole: &'t str, unit: &'t str) -> SyntaxError<'t> {
    let digits: String = at.chars().filter(char::is_ascii_digit).collect();
    SyntaxError::new("thousands-mark", at, format!("`{} {unit}` can be read in two ways", quoted(at)))
        .label("one number or two?")
        .help(format!("write {digits} {unit} if it is one number"))
        .help(format!("if {whole} belongs to the name, leave two spaces after it"))
}

pub(crate) fn decimal_comma(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("decimal-comma", at, format!("`{}` has a decimal comma", quoted(at)))
        .label("a comma ends a name or an amount")
        .help(format!("write {}", at.replace(',', ".")))
}

pub(crate) fn bare_point(at: &str) -> SyntaxError<'_> {
    let whole = at.trim_end_matches('.');
    let mended = if whole.starts_with('.') { format!("0{whole}") } else { whole.to_owned() };
    SyntaxError::new("bare-point", at, format!("`{}` has a point without a digit on each side", quoted(at)))
        .label("easily misread")
        .help(format!("write {mended}"))
}

pub(crate) fn not_a_number(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("not-a-number", at, format!("`{}` is not a number", quoted(at)))
        .label("a figure is wanted")
        .help("write digits, such as 75 or 2.5")
}

/// A number without a unit, where either of two units is likely.
pub(crate) fn missing<'t>(figure: &'t str, one: &str, other: &str) -> SyntaxError<'t> {
    let words = quoted(figure);
    SyntaxError::new(MISSING, figure, format!("`{words}` has no unit"))
        .label(format!("{words} what?"))
        .help(format!("write {words} {one} or {words} {other}"))
}

/// Two units after one number.
pub(crate) fn two_units<'t>(at: &'t str, figure: &str, one: &str, other: &str) -> SyntaxError<'t> {
    let figure = quoted(figure);
    SyntaxError::new("two-units", at, format!("`{}` has two units", quoted(at)))
        .label("one unit is wanted")
        .help(format!("write {figure} {one} or {figure} {other}"))
}

/// The code of a number without a unit. Where other units are likely, the error is reported again with those.
pub(crate) const MISSING: &str = "missing-unit";

pub(crate) fn miswritten<'t>(unit: &'t str, figure: &'t str, advice: Advice) -> SyntaxError<'t> {
    let error =
        SyntaxError::new("unknown-unit", unit, format!("`{}` is not a unit of the book", quoted(unit)));
    match advice {
        Advice::Write(symbol) => {
            error.label(format!("write {symbol}")).help(format!("write {} {symbol}", quoted(figure)))
        }
        Advice::Convert(symbol) => error.label(format!("give it in {symbol}")).help(format!(
            "work the figure out in {symbol}: the units are {}",
            listed_quoted(Unit::SYMBOLS, "and")
        )),
        Advice::Weigh => error
            .label("not a weight")
            .note("spoons and cups hold a different weight each time")
            .help("weigh it once and write the grams"),
    }
}

pub(crate) fn unknown(unit: &str) -> SyntaxError<'_> {
    SyntaxError::new("unknown-unit", unit, format!("`{}` is not a unit of the book", quoted(unit)))
        .label("not a unit")
        .nearest(unit, Unit::SYMBOLS.into_iter().filter(|symbol| symbol.len() > 1))
        .help(format!("the units are {}", listed_quoted(Unit::SYMBOLS, "and")))
}

/// A unit that measures something else than what is wanted here.
pub(crate) fn wrong<'t>(measure: &NumberWithUnit<'t>, wanted: &str, example: &str) -> SyntaxError<'t> {
    let measures = measure.unit.measures();
    SyntaxError::new(
        "wrong-unit",
        measure.written,
        format!("`{}` is {measures}; {wanted} is wanted here", quoted(measure.written)),
    )
    .label(measures)
    .help(format!("write {example}"))
}

/// Two amounts in a row, such as `3 kg 200 g`.
pub(crate) fn two<'t>(
    at: &'t str,
    first: &NumberWithUnit<'t>,
    second: &NumberWithUnit<'t>,
) -> SyntaxError<'t> {
    let error = SyntaxError::new("two-amounts", at, format!("`{}` is two amounts", quoted(at)))
        .label("one figure is wanted");
    match sum(first, second) {
        Some(total) => error.help(format!("write one figure: {total}")),
        None => {
            error.help("write one figure on a line, and what it is a share of after it: `80 % of the flour`")
        }
    }
}

/// Both amounts in the unit of the first.
fn sum(first: &NumberWithUnit<'_>, second: &NumberWithUnit<'_>) -> Option<String> {
    let (one, other) = (first.value().ok()?, second.value().ok()?);
    let factor = in_base(second.unit)?.checked_div(&in_base(first.unit)?)?;
    let same = matches!(
        (first.unit, second.unit),
        (Unit::Mass(_), Unit::Mass(_)) | (Unit::Time(_), Unit::Time(_)) | (Unit::Volume(_), Unit::Volume(_))
    );
    let total = &one + &(&other * &factor);
    let shown = total.to_decimal_string();
    let shown = if shown.len() > 8 { total.to_fixed(4) } else { shown };
    same.then(|| format!("{shown} {}", first.unit.symbol()))
}

/// A unit in the base unit of its kind.
fn in_base(unit: Unit) -> Option<Exact> {
    match unit {
        Unit::Mass(unit) => Some(Mass::from_unit(Exact::ONE, unit).in_unit(MassUnit::Gram)),
        Unit::Time(unit) => Some(Duration::from_unit(&Exact::ONE, unit).in_unit(TimeUnit::Minute)),
        Unit::Volume(unit) => Some(Volume::from_unit(Exact::ONE, unit).millilitres().clone()),
        Unit::Percent | Unit::Temperature(_) => None,
    }
}
