//! Problems of what is weighed and how much of it.

use crate::syntax_error::{SyntaxError, quoted};
use crate::words::listed_quoted;

pub(crate) fn missing(name: &str, keywords: impl IntoIterator<Item = &'static str>) -> SyntaxError<'_> {
    let words = quoted(name);
    let first = name.split_whitespace().next().unwrap_or_default();
    let error = SyntaxError::new("missing-amount", name, format!("`{words}` has no amount"))
        .label("how much?")
        .nearest(first, keywords);
    // A line that is a misspelt fact is no ingredient: an amount after it would not mend it.
    if error.is_helped() {
        error
    } else {
        error.help(format!("write a number and a unit after it, such as `{words} 2 %`"))
    }
}

pub(crate) fn run_together<'t>(at: &'t str, name: &str, amount: &str) -> SyntaxError<'t> {
    SyntaxError::new("missing-amount", at, format!("`{}` has no amount", quoted(at)))
        .label("the number is part of the name")
        .help(format!("write a space before the number: `{} {}`", quoted(name), quoted(amount)))
}

pub(crate) fn alone(text: &str) -> SyntaxError<'_> {
    SyntaxError::new("missing-amount", text, format!("`{}` is no amount", quoted(text)))
        .label("a number and its unit")
        .help("write a number and its unit, such as 920g, 4.2kg or 2%")
}

pub(crate) fn missing_after<'t>(keyword: &'t str, form: &str) -> SyntaxError<'t> {
    SyntaxError::new("missing-amount", keyword, format!("`{}` has no amount", quoted(keyword)))
        .label("how much?")
        .help(format!("write `{form}`"))
}

pub(crate) fn missing_name(amount: &str) -> SyntaxError<'_> {
    let words = quoted(amount);
    SyntaxError::new("missing-name", amount, format!("`{words}` of what?"))
        .label("nothing is named")
        .help(format!("write the name first: `water {words}`"))
}

pub(crate) fn amount_first<'t>(amount: &'t str, name: &str) -> SyntaxError<'t> {
    SyntaxError::new("amount-first", amount, format!("`{}` stands before its name", quoted(amount)))
        .label("the amount ends the line")
        .help(format!("write `{} {}`", quoted(name), quoted(amount)))
}

pub(crate) fn more<'t>(at: &'t str, form: &str) -> SyntaxError<'t> {
    SyntaxError::new("more-words", at, format!("`{}` is more than the line can say", quoted(at)))
        .label("nothing is expected here")
        .help(format!("the form is `{form}`"))
        .help("anything else goes on a line of its own, or after a #")
}

pub(crate) fn basis_article<'t>(at: &'t str, name: &str) -> SyntaxError<'t> {
    let name = quoted(name);
    let (message, name) = match name.as_str() {
        "" | "the" | "its" => (format!("`{}` does not say of what", quoted(at)), "flour".to_owned()),
        _ => (format!("`{}` does not say of which {name}", quoted(at)), name),
    };
    SyntaxError::new("which-whole", at, message)
        .label("the dough's or its own?")
        .help(format!("write `of the {name}` for the whole dough's, `of its {name}` for this stage's own"))
}

/// A share without the whole that it is a share of.
pub(crate) fn missing_basis<'t>(amount: &'t str, help: &str) -> SyntaxError<'t> {
    SyntaxError::new("which-whole", amount, format!("`{}` of what?", quoted(amount)))
        .label("of what?")
        .help(format!("write `{help}`"))
}

/// A share of something that it cannot be a share of here.
pub(crate) fn wrong_basis<'t>(basis: &'t str, forms: &str) -> SyntaxError<'t> {
    SyntaxError::new("wrong-whole", basis, format!("`{}` cannot be meant here", quoted(basis)))
        .label("not this whole")
        .help(format!("write {forms}"))
}

pub(crate) fn over_hundred<'t>(at: &'t str, what: &str, with_hundred: bool) -> SyntaxError<'t> {
    let most = if with_hundred { "at most 100 %" } else { "less than 100 %" };
    SyntaxError::new("over-100", at, format!("`{}` is more than {what}", quoted(at)))
        .label(most)
        .help(format!("write {most}"))
}

pub(crate) fn no_rest<'t>(at: &'t str, form: &str) -> SyntaxError<'t> {
    SyntaxError::new("no-rest", at, "`rest` cannot be meant here")
        .label("a figure is wanted")
        .help(format!("write `{form}`, or leave the line out: the balance finds what is not stated"))
}

pub(crate) fn wrong_end(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("more-words", at, format!("`{}` is not what becomes of a seed", quoted(at)))
        .label("`given back` or `stays`")
        .help("write `, given back` where the same weight of ripe culture is kept, `, stays` where the seed counts in the dough")
}

pub(crate) fn make_form(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("make-form", at, format!("`{}` does not say how much to make", quoted(at)))
        .label("not one of the forms")
        .help("write `make 24 pieces of 920 g`, `make 20 kg of dough`, `make 20 kg to divide` or `make 10 kg of flour`")
        .help("what is lost comes last: `make 24 pieces of 920 g, losing 2 %`")
}

pub(crate) fn losing_comma<'t>(at: &'t str, size: &str, share: &str) -> SyntaxError<'t> {
    SyntaxError::new("make-form", at, "`losing` has no comma before it")
        .label("a comma parts the two")
        .help(format!("write `make {}, losing {}`", quoted(size), quoted(share)))
}

pub(crate) fn whole_pieces(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("whole-pieces", at, format!("`{}` is not a whole number of pieces", quoted(at)))
        .label("a whole number is wanted")
        .help("write whole pieces, or the weight: `make 20 kg of dough`")
}

pub(crate) fn ripens_form(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("ripens-form", at, format!("`{}` does not say how long", quoted(at)))
        .label("not one of the forms")
        .help("write `ripens 12 h`, `ripens 12 to 16 h` or `ripens 90 min`, and the temperature after it: `at 21 °C`")
}

pub(crate) fn time_order<'t>(at: &'t str, least: &str, most: &str, unit: &str) -> SyntaxError<'t> {
    SyntaxError::new("time-order", at, format!("`{}` ends before it begins", quoted(at)))
        .label("the least time comes first")
        .help(format!("write {most} to {least} {unit}"))
}

pub(crate) fn too_cold(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("too-cold", at, format!("`{}` is below absolute zero", quoted(at)))
        .label("there is no such temperature")
        .help("write the temperature of the room or the retarder, such as 21 °C")
}

pub(crate) fn unknown_part<'t>(at: &'t str, parts: &[&'static str]) -> SyntaxError<'t> {
    let error = SyntaxError::new(
        "unknown-part",
        at,
        format!("`{}` is no part of an ingredient that the book counts", quoted(at)),
    )
    .label("not a part")
    .nearest(at, parts.iter().copied());
    error.help(format!("an ingredient holds {}", listed_quoted(parts, "or")))
}

pub(crate) fn density_form(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("density-form", at, format!("`{}` is not a density", quoted(at)))
        .label("kilograms a litre are wanted")
        .help("write `density 1.03 kg/l`")
}

pub(crate) fn spoils_form<'t>(keyword: &str, rest: &'t str) -> SyntaxError<'t> {
    SyntaxError::new("spoils-form", rest, format!("`{keyword} {}` has no meaning", quoted(rest)))
        .label("not a way to spoil")
        .help("write `spoils`, `spoils when wet` for what is dry until it is soaked, or `keeps`")
}

pub(crate) fn missing_words(keyword: &str) -> SyntaxError<'_> {
    SyntaxError::new("missing-words", keyword, format!("`{}` says nothing", quoted(keyword)))
        .label("words are wanted after it")
        .help("write the words on the same line, or leave the line out")
}

/// `6 1/2 lb` is six and a half, and not a half of something called `6`: a fraction behind a whole number.
pub(crate) fn with_whole<'t>(error: SyntaxError<'t>, name: &str, after: &str) -> SyntaxError<'t> {
    let halves = [("1/2", "5"), ("½", "5"), ("1/4", "25"), ("¼", "25"), ("3/4", "75"), ("¾", "75")];
    let decimals =
        halves.into_iter().find(|(written, _)| *written == error.words()).map(|(_, decimals)| decimals);
    let whole = name.rsplit(' ').next().filter(|last| last.bytes().all(|byte| byte.is_ascii_digit()));
    match (error.is("fraction"), whole, decimals) {
        (true, Some(whole), Some(decimals)) if !whole.is_empty() => {
            let unit = after.split_whitespace().next().map(|unit| format!(" {unit}")).unwrap_or_default();
            error.instead(format!("write {whole}.{decimals}{unit}"))
        }
        _ => error,
    }
}
