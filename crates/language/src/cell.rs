//! A single cell: an amount, a measure or a fact on its own, as it is given with an option or is in a table.
//!
//! Each is read by the rules of the dough texts and has the problems that a text with it would have. One that is read
//! well and is another measure than is wanted, such as a volume for a weight, is a problem with the code [`NO_FIGURE`].

use levamen_quantity::{
    ClockTime, Duration, Exact, Mass, MassUnit, Share, Temperature, TemperatureDifference, TemperatureUnit,
    TimeUnit, Volume, VolumeUnit,
};

use crate::measure;
use crate::name::LineText;
use crate::problems::{amount as amount_problems, block as block_problems};
use crate::section::Section;
use crate::space::trim;
use crate::statement::{self, amount};
use crate::{Amount, AmountKind, Problem, Quantity, Ripens, Statement, TextId, Weigh};

/// The code of the problem of a cell that holds no figure of the kind that is wanted there.
pub const NO_FIGURE: &str = "no-figure";

/// Reads an amount that stands alone, by the same rules as in a dough text.
///
/// ```
/// use levamen_language::{AmountKind, TextId, read_amount};
///
/// let amount = read_amount(TextId(0), "4.2 kg").unwrap();
/// assert!(matches!(amount.kind, AmountKind::Mass(_)));
/// assert_eq!(read_amount(TextId(0), "4,2 kg").unwrap_err().code, "decimal-comma");
/// ```
///
/// # Errors
/// What is wrong with it: the problem that a text with this amount would have.
pub fn read_amount(id: TextId, text: &str) -> Result<Amount<'_>, Problem> {
    let source = LineText { id, text };
    let body = trim(text);
    let read = || {
        let split = measure::split(body)?.filter(|split| split.name.is_empty());
        let Some(split) = split else { return Err(amount_problems::alone(body)) };
        let (amount, after) = amount::amount(source, &split)?;
        amount::expect_end(&split, after, "AMOUNT")?;
        Ok(amount)
    };
    read().map_err(|wrong| wrong.into_problem(source))
}

/// Reads a fact that stands alone, as under a section of a dough text.
///
/// ```
/// use levamen_language::{Statement, TextId, read_fact};
///
/// assert!(matches!(read_fact(TextId(0), "water in final dough 500 g"), Ok(Statement::Weigh(_))));
/// ```
///
/// # Errors
/// What is wrong with it: the problem that a text with this line would have.
pub fn read_fact(id: TextId, text: &str) -> Result<Statement<'_>, Problem> {
    let source = LineText { id, text };
    match statement::read(source, trim(text), Some(Section::Unknown)) {
        // A figure that is wanted goes in at no time.
        Ok(Statement::Weigh(Weigh { when: Some(when), .. })) => {
            Err(block_problems::no_time(when.text, Section::Want).into_problem(source))
        }
        read => read.map_err(|wrong| wrong.into_problem(source)),
    }
}

/// Reads a weight that stands alone.
///
/// ```
/// use levamen_language::{NO_FIGURE, TextId, read_mass};
///
/// assert_eq!(read_mass(TextId(0), "4.2 kg").unwrap().mass.grams().to_decimal_string(), "4200");
/// assert_eq!(read_mass(TextId(0), "2 l").unwrap_err().code, NO_FIGURE);
/// ```
///
/// # Errors
/// What is wrong with it: the problem that a text with this weight would have.
pub fn read_mass(id: TextId, text: &str) -> Result<Quantity, Problem> {
    match read_amount(id, text)?.kind {
        AmountKind::Mass(quantity) => Ok(quantity),
        _ => Err(no_figure(text, "weight", "write a number and g, kg, lb or oz, such as 920 g")),
    }
}

/// Reads a weight whose unit is known, as a number under a heading with the unit.
///
/// # Errors
/// What is wrong with it: the problem that a text with this number and unit would have.
pub fn read_mass_in(id: TextId, text: &str, unit: MassUnit) -> Result<Mass, Problem> {
    let whole = format!("{} {}", trim(text), unit.symbol());
    read_mass(id, &whole).map(|quantity| quantity.mass)
}

/// Reads a volume that stands alone; also the number and the unit as they are written.
///
/// # Errors
/// What is wrong with it: the problem that a text with this volume would have.
pub fn read_volume(id: TextId, text: &str) -> Result<(Volume, Exact, VolumeUnit), Problem> {
    match read_amount(id, text)?.kind {
        AmountKind::Volume { volume, figure, unit } => Ok((volume, figure, unit)),
        _ => Err(no_figure(text, "volume", "write a number and l or ml, such as 20 l")),
    }
}

/// Reads a share that stands alone: a percentage that does not say of what.
///
/// # Errors
/// What is wrong with it: the problem that a text with this percentage would have.
pub fn read_share(id: TextId, text: &str) -> Result<Share, Problem> {
    match read_amount(id, text)?.kind {
        AmountKind::Percent { percent, of: None } => Ok(Share::from_percent(percent)),
        _ => Err(no_figure(text, "share", "write a number and %, such as 10 %")),
    }
}

/// Reads how long something ripens, and how warm where that is said: what may follow `ripens` in a text.
///
/// # Errors
/// What is wrong with it: the problem that a text with this line would have.
pub fn read_ripening(id: TextId, text: &str) -> Result<Ripens, Problem> {
    match read_fact(id, &format!("ripens {}", trim(text)))? {
        Statement::Ripens(ripens) => Ok(*ripens),
        _ => Err(no_figure(text, "time", "write a number and h or min, such as 14 h")),
    }
}

/// Reads a length of time that stands alone; also the number and the unit as they are written. Of a span, such as `12 to
/// 16 h`, it is the least.
///
/// # Errors
/// What is wrong with it: the problem that a text with this time would have.
pub fn read_duration(id: TextId, text: &str) -> Result<(Duration, Exact, TimeUnit), Problem> {
    let Ripens { least, least_figure, unit, .. } = read_ripening(id, text)?;
    Ok((least, least_figure, unit))
}

/// Reads a temperature that stands alone; also the number and the unit as they are written. The degree sign may be left
/// out, which few keyboards have.
///
/// ```
/// use levamen_language::{TextId, read_temperature};
/// use levamen_quantity::TemperatureUnit;
///
/// let (_, figure, unit) = read_temperature(TextId(0), "70F").unwrap();
/// assert_eq!((figure.to_fixed(0).as_str(), unit), ("70", TemperatureUnit::Fahrenheit));
/// assert!(read_temperature(TextId(0), "21 C").is_ok() && read_temperature(TextId(0), "21").is_err());
/// ```
///
/// # Errors
/// What is wrong with it: the problem that a text with this temperature would have.
pub fn read_temperature(id: TextId, text: &str) -> Result<(Temperature, Exact, TemperatureUnit), Problem> {
    let words = trim(text);
    let signed = ['C', 'F', 'c', 'f'].into_iter().find_map(|letter| {
        let figure = words.strip_suffix(letter)?.trim_end();
        let is_figure = figure.ends_with(|last: char| last.is_ascii_digit());
        is_figure.then(|| format!("{figure} °{}", letter.to_ascii_uppercase()))
    });
    let ripens = read_ripening(id, &format!("1 h at {}", signed.as_deref().unwrap_or(words)))?;
    ripens.temperature.ok_or_else(|| {
        Problem::error(NO_FIGURE, format!("`{words}` is not a temperature"))
            .help("write a number and °C or °F, such as 21 °C")
    })
}

/// Reads a difference between two temperatures, which may be below zero; also the number and the unit as they are
/// written.
///
/// # Errors
/// As [`read_temperature`].
pub fn read_temperature_difference(
    id: TextId,
    text: &str,
) -> Result<(TemperatureDifference, Exact, TemperatureUnit), Problem> {
    let (_, figure, unit) = read_temperature(id, text)?;
    Ok((TemperatureDifference::from_unit(&figure, unit), figure, unit))
}

/// Reads a time of day that stands alone.
///
/// ```
/// use levamen_language::read_clock;
///
/// assert_eq!(read_clock("4:30").unwrap().to_string(), "04:30");
/// assert!(read_clock("430").is_err());
/// ```
///
/// # Errors
/// That it is none.
pub fn read_clock(text: &str) -> Result<ClockTime, Problem> {
    let help = "write hours and minutes on a clock of 24 hours, such as 04:30";
    ClockTime::read(text).ok_or_else(|| no_figure(text, "time of day", help))
}

fn no_figure(text: &str, wanted: &str, help: &str) -> Problem {
    Problem::error(NO_FIGURE, format!("`{}` is no {wanted}", trim(text))).help(help)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ID: TextId = TextId(0);

    #[test]
    fn a_measure_is_read_by_the_rules_of_the_texts() {
        assert_eq!(read_mass_in(ID, "1.5", MassUnit::Kilogram).unwrap(), Mass::from_grams(Exact::from(1500)));
        assert_eq!(read_mass_in(ID, "1,5", MassUnit::Gram).unwrap_err().code, "decimal-comma");
        assert_eq!(read_share(ID, "10%").unwrap().percent(), Exact::from(10));
        assert_eq!(read_volume(ID, "500 ml").unwrap().2, VolumeUnit::Millilitre);
        assert_eq!(read_duration(ID, "90min").unwrap().1, Exact::from(90));
        assert!(read_ripening(ID, "12 to 16 h at 21 °C").unwrap().temperature.is_some());
        assert_eq!(read_temperature_difference(ID, "-2 °C").unwrap().1, Exact::from(-2));
    }

    #[test]
    fn another_measure_than_is_wanted_is_no_figure() {
        assert_eq!(read_mass(ID, "10 %").unwrap_err().message, "`10 %` is no weight");
        assert_eq!(read_share(ID, "10 % of the flour").unwrap_err().code, NO_FIGURE);
        assert_eq!(read_volume(ID, "2 kg").unwrap_err().code, NO_FIGURE);
        assert_eq!(read_clock("24:00").unwrap_err().code, NO_FIGURE);
    }
}
