//! The facts of an ingredient and of a scale.

use levamen_quantity::Exact;
use nom::Parser;
use nom::sequence::preceded;

use super::amount::expect_end;
use super::make;
use super::stage_fact::alone;
use crate::figure::{Zero, figure, value};
use crate::name::one_spaced;
use crate::name::{LineText, across};
use crate::parsers::{blanks, end, finish, given};
use crate::problems::{amount as amount_problems, number as number_problems};
use crate::section::Section;
use crate::space::trim;
use crate::syntax_error::SyntaxError;
use crate::unit::Unit;
use crate::{DensityFact, Holds, IngredientPart, Quantity, Spoils};

/// `holds 76.15 % water`
pub(crate) fn holds<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<Holds, SyntaxError<'t>> {
    const FORM: &str = "holds 80 % fat";
    let split = alone(keyword, text, FORM)?;
    let Some(measure) = split.measure else { return Err(amount_problems::no_rest(split.written, FORM)) };
    if measure.unit != Unit::Percent {
        return Err(number_problems::wrong(&measure, "a percentage", &format!("`{FORM}`")));
    }
    let percent = value(measure.figure, Zero::Allowed)?;
    if percent > Exact::HUNDRED {
        return Err(amount_problems::over_hundred(measure.written, "an ingredient can hold", true));
    }
    let part = trim(split.after);
    if part.is_empty() {
        return Err(amount_problems::missing_basis(measure.written, FORM));
    }
    let known = IngredientPart::ALL.into_iter().find(|known| known.name() == part);
    let known = known
        .ok_or_else(|| amount_problems::unknown_part(part, &IngredientPart::ALL.map(IngredientPart::name)))?;
    Ok(Holds { percent, part: known, span: source.span(across(text, measure.written, part)) })
}

/// `density 1.03 kg/l`
pub(crate) fn density<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
) -> Result<DensityFact, SyntaxError<'t>> {
    if text.is_empty() {
        return Err(amount_problems::missing_after(keyword, "density 1.03 kg/l"));
    }
    match finish((figure, preceded(blanks, given("kg/l")), end).parse(text))? {
        Some((_, (figure, unit, _))) => Ok(DensityFact {
            figure: value(figure, Zero::Refused)?,
            span: source.span(across(text, figure, unit)),
        }),
        None => Err(amount_problems::density_form(text)),
    }
}

/// Whether `spoils` or `keeps` is the fact here and not the first word of what is weighed, such as `keeps apples 3 %`.
pub(crate) fn is_of_spoiling(rest: &str, within: Option<Section>) -> bool {
    rest.is_empty() || within == Some(Section::Ingredient)
}

/// `spoils`, `spoils when wet`, `keeps`
pub(crate) fn spoils<'t>(keyword: &'t str, rest: &'t str) -> Result<Spoils, SyntaxError<'t>> {
    match (keyword, one_spaced(rest).as_ref()) {
        ("spoils", "") => Ok(Spoils::Always),
        ("spoils", "when wet") => Ok(Spoils::WhenWet),
        ("keeps", "") => Ok(Spoils::Never),
        _ => Err(amount_problems::spoils_form(keyword, rest)),
    }
}

/// `division 0.1 g`, `capacity 500 g`
pub(crate) fn mass<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    text: &'t str,
    form: &str,
) -> Result<Quantity, SyntaxError<'t>> {
    let split = alone(keyword, text, form)?;
    let Some(measure) = split.measure else { return Err(amount_problems::no_rest(split.written, form)) };
    let quantity = make::mass(source, &measure)?;
    expect_end(&split, split.after, form)?;
    Ok(quantity)
}
