//! Faults in numbers.

use levamen_quantity::MAX_DIGITS;

use super::{Fault, quoted};

pub(crate) fn zero(at: &str) -> Fault<'_> {
    Fault::new("zero", at, "an amount of nothing").label("nothing of it").help("leave the line out")
}

/// A card that says there is none of what it is a card of.
pub(crate) fn none_there(at: &str) -> Fault<'_> {
    Fault::new("zero", at, "an amount of nothing")
        .label("nothing of it")
        .help("what is not there has no card: put a `#` before each of its lines, or take them out")
}

pub(crate) fn too_many_digits(at: &str) -> Fault<'_> {
    let digits = at.bytes().filter(u8::is_ascii_digit).count();
    Fault::new("too-many-digits", at, format!("a number of {digits} digits"))
        .label(format!("at most {MAX_DIGITS} digits"))
        .help("write as many digits as a scale can show")
}

pub(crate) fn sign(at: &str) -> Fault<'_> {
    let unsigned = at.trim_start_matches(['+', '-', '\u{2212}', '\u{2013}']);
    Fault::new("sign", at, format!("`{}` has a sign", quoted(at)))
        .label("amounts have no sign")
        .note("nothing can be weighed with less than nothing on the scale")
        .help(format!("write {unsigned}"))
}

pub(crate) fn exponent(at: &str) -> Fault<'_> {
    Fault::new("exponent", at, format!("`{}` has an exponent", quoted(at)))
        .label("not a plain number")
        .help("write all its digits, such as 12500")
}

pub(crate) fn fraction(at: &str) -> Fault<'_> {
    let decimal = match at {
        "½" | "1/2" => "0.5",
        "¼" | "1/4" => "0.25",
        "¾" | "3/4" => "0.75",
        _ => "a decimal, such as 0.5",
    };
    Fault::new("fraction", at, format!("`{}` is a fraction", quoted(at)))
        .label("amounts are decimals")
        .help(format!("write {decimal}"))
}

pub(crate) fn range(at: &str) -> Fault<'_> {
    let ends = at.replace(['-', '+', '\u{2212}', '\u{2013}'], " to ");
    Fault::new("range", at, format!("`{}` is not one number", quoted(at)))
        .label("one number is wanted")
        .help(format!("write one number; only a ripening time has a least and a most: `ripens {ends} h`"))
}

pub(crate) fn two_points(at: &str) -> Fault<'_> {
    Fault::new("two-points", at, format!("`{}` has more than one decimal point", quoted(at)))
        .label("not a number")
        .help("write a number with at most one point, such as 12.5")
}

pub(crate) fn thousands(at: &str) -> Fault<'_> {
    let digits: String = at.chars().filter(char::is_ascii_digit).collect();
    let fault = Fault::new("thousands-mark", at, format!("`{}` has a thousands mark", quoted(at)))
        .label("never guessed")
        .note("a comma, point or mark within a number is read in two ways, by country");
    match at.split_once(',') {
        Some((whole, tail)) if !whole.contains('.') && !tail.contains([',', '.']) => {
            fault.help(format!("write {digits}, or {whole}.{tail} if the comma is a decimal comma"))
        }
        _ => match at.rfind(['.', ',']).and_then(|mark| at.split_at_checked(mark)) {
            Some((whole, tail)) if tail.len() != 4 => {
                let whole: String = whole.chars().filter(char::is_ascii_digit).collect();
                let tail: String = tail.chars().filter(char::is_ascii_digit).collect();
                fault.help(format!("write {whole}.{tail}"))
            }
            _ => fault.help(format!("write {digits}")),
        },
    }
}

pub(crate) fn thousands_space<'t>(at: &'t str, whole: &'t str, unit: &'t str) -> Fault<'t> {
    let digits: String = at.chars().filter(char::is_ascii_digit).collect();
    Fault::new("thousands-mark", at, format!("`{} {unit}` can be read in two ways", quoted(at)))
        .label("one number or two?")
        .help(format!("write {digits} {unit} if it is one number"))
        .help(format!("if {whole} belongs to the name, leave two spaces after it"))
}

pub(crate) fn decimal_comma(at: &str) -> Fault<'_> {
    Fault::new("decimal-comma", at, format!("`{}` has a decimal comma", quoted(at)))
        .label("a comma ends a name or an amount")
        .help(format!("write {}", at.replace(',', ".")))
}

pub(crate) fn bare_point(at: &str) -> Fault<'_> {
    let whole = at.trim_end_matches('.');
    let mended = if whole.starts_with('.') { format!("0{whole}") } else { whole.to_owned() };
    Fault::new("bare-point", at, format!("`{}` has a point without a digit on each side", quoted(at)))
        .label("easily misread")
        .help(format!("write {mended}"))
}

pub(crate) fn not_a_number(at: &str) -> Fault<'_> {
    Fault::new("not-a-number", at, format!("`{}` is not a number", quoted(at)))
        .label("a figure is wanted")
        .help("write digits, such as 75 or 2.5")
}
