//! The facts of a stage that end with an amount.

use levamen_quantity::Exact;
use nom::Parser;

use super::amount::{amount, nothing_more};
use crate::fault::{Fault, amount as fault, unit as unit_fault};
use crate::measure::{self, Split};
use crate::source::Source;
use crate::words::{end, given, settle, trim};
use crate::{Amount, AmountKind, Basis, Reach};

/// The amount that alone follows a keyword.
pub(crate) fn alone<'t>(keyword: &'t str, text: &'t str, form: &str) -> Result<Split<'t>, Fault<'t>> {
    match measure::split(text)? {
        Some(split) if split.name.is_empty() => Ok(split),
        Some(split) => Err(fault::more(split.name, form)),
        None => Err(fault::missing_after(keyword, form)),
    }
}

/// `takes 18 % of the flour`, `takes 50 % of the rye flour`, `takes 2 kg of flour`
pub(crate) fn takes<'t>(
    source: Source<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Amount<'t>, Fault<'t>> {
    const FORM: &str = "takes 18 % of the flour";
    let split = alone(keyword, text, FORM)?;
    let (mut amount, after) = amount(source, &split)?;
    match &amount.kind {
        AmountKind::Percent { of, .. } => {
            wanted_basis(source, &split, of.as_ref(), FORM, |basis| basis.reach == Reach::Dough)?;
            nothing_more(&split, after, FORM)?;
        }
        AmountKind::Mass(_) => {
            let form = format!("takes {} of flour", split.written);
            let of_flour = settle((given("of"), given("flour"), end).parse(after))?;
            let Some((_, (_, flour, _))) = of_flour else {
                nothing_more(&split, if trim(after).starts_with("of") { "" } else { after }, &form)?;
                return Err(fault::missing_basis(split.written, &form));
            };
            amount.span = amount.span.to(source.span(flour));
        }
        AmountKind::Volume { .. } => return Err(not_a_volume(&split, FORM)),
        AmountKind::Rest => return Err(fault::no_rest(split.written, FORM)),
    }
    Ok(amount)
}

/// `weighs 6 kg`, `weighs 30 % of the flour`, `weighs 20 % of the dough`
pub(crate) fn weighs<'t>(
    source: Source<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Amount<'t>, Fault<'t>> {
    const FORM: &str = "weighs 30 % of the flour";
    let split = alone(keyword, text, "weighs 6 kg")?;
    let (amount, after) = amount(source, &split)?;
    match &amount.kind {
        AmountKind::Percent { of, .. } => {
            let whole = |basis: &Basis<'_>| {
                basis.reach == Reach::Dough && matches!(basis.name.text, "flour" | "dough")
            };
            wanted_basis(source, &split, of.as_ref(), FORM, whole)?;
        }
        AmountKind::Mass(_) => {}
        AmountKind::Volume { .. } => return Err(not_a_volume(&split, "weighs 6 kg")),
        AmountKind::Rest => return Err(fault::no_rest(split.written, "weighs 6 kg")),
    }
    nothing_more(&split, after, "weighs 6 kg")?;
    Ok(amount)
}

/// `hydration 125 %`
pub(crate) fn hydration<'t>(
    source: Source<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Amount<'t>, Fault<'t>> {
    const FORM: &str = "hydration 75 %";
    let split = alone(keyword, text, FORM)?;
    let (amount, after) = amount(source, &split)?;
    match &amount.kind {
        AmountKind::Percent { of: None, .. } => nothing_more(&split, after, FORM)?,
        AmountKind::Percent { of: Some(basis), .. } => {
            return Err(fault::wrong_basis(
                basis.span.of(source.text),
                "`hydration 75 %` alone: it is water over flour",
            ));
        }
        AmountKind::Mass(_) | AmountKind::Volume { .. } => {
            return Err(wrong_unit(&split, "a percentage", FORM));
        }
        AmountKind::Rest => return Err(fault::no_rest(split.written, FORM)),
    }
    Ok(amount)
}

/// `left over 2 %`, `left over 100 g`, `left over rest`
pub(crate) fn left_over<'t>(
    source: Source<'t>,
    body: &'t str,
    text: &'t str,
) -> Result<Amount<'t>, Fault<'t>> {
    const FORM: &str = "left over 5 %";
    let keyword = trim(body.get(..body.len() - text.len()).unwrap_or(body));
    let split = alone(keyword, text, FORM)?;
    let (amount, after) = amount(source, &split)?;
    match &amount.kind {
        AmountKind::Percent { percent, of: None } if *percent >= Exact::HUNDRED => {
            return Err(fault::over_hundred(split.written, "can be left over", false));
        }
        AmountKind::Percent { of: Some(basis), .. } => {
            return Err(fault::wrong_basis(
                basis.span.of(source.text),
                "`left over 5 %` alone: it is a share of what is made",
            ));
        }
        AmountKind::Volume { .. } => return Err(not_a_volume(&split, FORM)),
        _ => {}
    }
    nothing_more(&split, after, FORM)?;
    Ok(amount)
}

/// `loses 8 % of its water`
pub(crate) fn loses<'t>(
    source: Source<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Amount<'t>, Fault<'t>> {
    const FORM: &str = "loses 8 % of its water";
    let split = alone(keyword, text, FORM)?;
    let (amount, after) = amount(source, &split)?;
    match &amount.kind {
        AmountKind::Percent { percent, of } => {
            let water = |basis: &Basis<'_>| basis.reach == Reach::Stage && basis.name.text == "water";
            wanted_basis(source, &split, of.as_ref(), FORM, water)?;
            if *percent >= Exact::HUNDRED {
                return Err(fault::over_hundred(split.written, "can go off as steam", false));
            }
        }
        AmountKind::Mass(_) | AmountKind::Volume { .. } => {
            return Err(wrong_unit(&split, "a percentage", FORM));
        }
        AmountKind::Rest => return Err(fault::no_rest(split.written, FORM)),
    }
    nothing_more(&split, after, FORM)?;
    Ok(amount)
}

/// Refuses a percentage of nothing, or of something that it cannot be a share of here.
fn wanted_basis<'t>(
    source: Source<'t>,
    split: &Split<'t>,
    of: Option<&Basis<'t>>,
    form: &str,
    fits: impl Fn(&Basis<'t>) -> bool,
) -> Result<(), Fault<'t>> {
    match of {
        None => Err(fault::missing_basis(split.written, &with_figure(form, split.written))),
        Some(basis) if fits(basis) => Ok(()),
        Some(basis) => Err(fault::wrong_basis(basis.span.of(source.text), &format!("`{form}`"))),
    }
}

/// A form such as `takes 18 % of the flour` with the baker's own figure in it.
fn with_figure(form: &str, figure: &str) -> String {
    match (form.split_once(' '), form.split_once("% ")) {
        (Some((keyword, _)), Some((_, whole))) => format!("{keyword} {figure} {whole}"),
        _ => form.to_owned(),
    }
}

fn not_a_volume<'t>(split: &Split<'t>, form: &str) -> Fault<'t> {
    wrong_unit(split, "a weight or a percentage", form)
}

fn wrong_unit<'t>(split: &Split<'t>, wanted: &str, form: &str) -> Fault<'t> {
    match &split.measure {
        Some(measure) => unit_fault::wrong(measure, wanted, &format!("`{form}`")),
        None => fault::no_rest(split.written, form),
    }
}
