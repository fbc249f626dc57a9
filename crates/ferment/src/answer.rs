//! What leaves a model: answers, remarks, refusals, and the figures in them.
//!
//! A model reckons in floating point and knows two or three digits, so what leaves it is rounded here, once, and says to how many.

use levamen_language::{Hint, Problem};
use levamen_quantity::{Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};

/// Why a question has no answer, in the baker's words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FermentError {
    /// A stable name for this kind of error, such as `too-hot-for-yeast`.
    pub code: &'static str,
    /// What is wrong: one line that can stand alone.
    pub message: String,
    /// Why.
    pub notes: Vec<String>,
    /// How to mend it.
    pub help: Vec<Hint>,
}

/// Something to look at again beside an answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// A stable name for this kind of remark, such as `cold-culture`.
    pub code: &'static str,
    /// What to look at, and why.
    pub message: String,
}

/// An answer, and what to look at again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Answer<T> {
    /// What was asked for.
    pub found: T,
    /// What to look at again.
    pub remarks: Vec<Remark>,
}

impl FermentError {
    /// An error of a kind.
    pub(crate) fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, message: message.into(), notes: Vec::new(), help: Vec::new() }
    }

    /// What cannot happen, and is a mistake of this program where it does.
    #[must_use]
    pub fn internal(what: &str) -> Self {
        debug_assert!(false, "{what}");
        let Problem { code, message, notes, help, .. } = Problem::internal(what);
        Self { code, message, notes, help }
    }

    /// Says why.
    pub(crate) fn note(mut self, text: impl Into<String>) -> Self {
        self.notes.push(text.into());
        self
    }

    /// Says how to mend it.
    pub(crate) fn help(mut self, text: impl Into<Hint>) -> Self {
        self.help.push(text.into());
        self
    }
}

impl Remark {
    pub(crate) fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, message: message.into() }
    }
}

/// Degrees Celsius, for a model.
pub(crate) fn celsius(temperature: &Temperature) -> f64 {
    temperature.in_unit(TemperatureUnit::Celsius).to_f64()
}

/// Hours, for a model.
pub(crate) fn hours(time: &Duration) -> f64 {
    time.in_unit(TimeUnit::Hour).to_f64()
}

/// A time to the minute; a time that is no number is none.
pub(crate) fn minutes(hours: f64) -> Duration {
    Duration::from_unit(&fixed(hours * 60.0, 0), TimeUnit::Minute)
}

/// Whole minutes of hours; none where it is no number.
pub(crate) fn whole_minutes(hours: f64) -> i64 {
    debug_assert!(hours.is_finite(), "no time: {hours}");
    fixed(hours * 60.0, 0).to_i64().unwrap_or_default()
}

/// A temperature to a tenth of a degree Celsius.
pub(crate) fn tenth_of_a_degree(celsius: f64) -> Temperature {
    Temperature::from_unit(&fixed(celsius, 1), TemperatureUnit::Celsius)
}

/// A number rounded to `digits` significant digits.
pub(crate) fn significant(value: f64, digits: i32) -> Exact {
    if value == 0.0 || !value.is_finite() {
        return Exact::ZERO;
    }
    // Between 1e-9 and 1e9 every step of a decimal is exact enough for the two or three digits wanted.
    let exponent = (-9..=9).find(|power| value.abs() < 10_f64.powi(*power)).unwrap_or(9);
    let places = digits - exponent;
    if let Ok(places) = usize::try_from(places) {
        fixed(value, places)
    } else {
        let step = 10_f64.powi(-places);
        fixed((value / step).round() * step, 0)
    }
}

/// A number rounded to `places` decimals; nothing where it is no number or past counting.
pub(crate) fn fixed(value: f64, places: usize) -> Exact {
    let text = format!("{:.places$}", value.abs());
    let magnitude = Exact::from_literal(&text).unwrap_or_default();
    if value < 0.0 { -&magnitude } else { magnitude }
}

/// `21 °C`, with a decimal where there is one.
pub(crate) fn degrees(at: &Temperature) -> String {
    format!("{} °C", at.in_unit(TemperatureUnit::Celsius).to_trimmed(1))
}

/// `13 h 20 min`
pub(crate) fn time(time: &Duration) -> String {
    let minutes = time.in_unit(TimeUnit::Minute).round_to(&Exact::ONE);
    let hours = (&minutes / &Exact::from(60)).floor();
    let rest = &minutes - &(&hours * &Exact::from(60));
    match (hours.is_zero(), rest.is_zero()) {
        (true, _) => format!("{} min", rest.to_fixed(0)),
        (false, true) => format!("{} h", hours.to_fixed(0)),
        (false, false) => format!("{} h {} min", hours.to_fixed(0), rest.to_fixed(0)),
    }
}

/// `2 %`, with as many as two decimals where there are any.
pub(crate) fn percent(share: &Share) -> String {
    share.to_percent(2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn significant_digits_are_counted_from_the_first() {
        for (value, digits, written) in
            [(0.077_4, 2, "0.077"), (12.34, 2, "12"), (1234.0, 2, "1200"), (-0.5, 2, "-0.5"), (0.0, 2, "0")]
        {
            assert_eq!(significant(value, digits).to_decimal_string(), written);
        }
        assert_eq!(significant(f64::NAN, 2), Exact::ZERO);
        assert_eq!(fixed(f64::INFINITY, 1), Exact::ZERO);
    }
}
