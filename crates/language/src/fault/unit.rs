//! Faults in units.

use levamen_quantity::{Duration, Exact, Mass, MassUnit, TimeUnit, Volume};

use super::{Fault, listed, quoted};
use crate::measure::Measure;
use crate::unit::{Advice, Unit};

/// A number without a unit, where either of two units is likely.
pub(crate) fn missing<'t>(figure: &'t str, one: &str, other: &str) -> Fault<'t> {
    let words = quoted(figure);
    Fault::new(MISSING, figure, format!("`{words}` has no unit"))
        .label(format!("{words} what?"))
        .help(format!("write {words} {one} or {words} {other}"))
}

/// Two units after one number.
pub(crate) fn two_units<'t>(at: &'t str, figure: &str, one: &str, other: &str) -> Fault<'t> {
    let figure = quoted(figure);
    Fault::new("two-units", at, format!("`{}` has two units", quoted(at)))
        .label("one unit is wanted")
        .help(format!("write {figure} {one} or {figure} {other}"))
}

/// The code of a number without a unit. Where other units are likely, the fault is told again with those.
pub(crate) const MISSING: &str = "missing-unit";

pub(crate) fn miswritten<'t>(unit: &'t str, figure: &'t str, advice: Advice) -> Fault<'t> {
    let fault = Fault::new("unknown-unit", unit, format!("`{}` is not a unit of the book", quoted(unit)));
    match advice {
        Advice::Write(symbol) => {
            fault.label(format!("write {symbol}")).help(format!("write {} {symbol}", quoted(figure)))
        }
        Advice::Convert(symbol) => fault.label(format!("give it in {symbol}")).help(format!(
            "work the figure out in {symbol}: the units are {}",
            listed(&Unit::SYMBOLS, "and")
        )),
        Advice::Weigh => fault
            .label("not a weight")
            .note("spoons and cups hold a different weight each time")
            .help("weigh it once and write the grams"),
    }
}

pub(crate) fn unknown(unit: &str) -> Fault<'_> {
    Fault::new("unknown-unit", unit, format!("`{}` is not a unit of the book", quoted(unit)))
        .label("not a unit")
        .nearest(unit, Unit::SYMBOLS.into_iter().filter(|symbol| symbol.len() > 1))
        .help(format!("the units are {}", listed(&Unit::SYMBOLS, "and")))
}

/// A unit that measures something else than what is wanted here.
pub(crate) fn wrong<'t>(measure: &Measure<'t>, wanted: &str, example: &str) -> Fault<'t> {
    let measures = measure.unit.measures();
    Fault::new(
        "wrong-unit",
        measure.written,
        format!("`{}` is {measures}; {wanted} is wanted here", quoted(measure.written)),
    )
    .label(measures)
    .help(format!("write {example}"))
}

/// Two amounts in a row, such as `3 kg 200 g`.
pub(crate) fn two<'t>(at: &'t str, first: &Measure<'t>, second: &Measure<'t>) -> Fault<'t> {
    let fault = Fault::new("two-amounts", at, format!("`{}` is two amounts", quoted(at)))
        .label("one figure is wanted");
    match sum(first, second) {
        Some(total) => fault.help(format!("write one figure: {total}")),
        None => {
            fault.help("write one figure on a line, and what it is a share of after it: `80 % of the flour`")
        }
    }
}

/// Both amounts in the unit of the first.
fn sum(first: &Measure<'_>, second: &Measure<'_>) -> Option<String> {
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
