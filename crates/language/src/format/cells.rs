//! A line as the cells of a table: its name, its figure, and what follows the figure.

use std::borrow::Cow;

use crate::figure;
use crate::name::one_spaced;
use crate::space::{first_word, is_blank, trim, trim_start};
use crate::{Amount, AmountKind, Line, Name, Said, SeedSource, SlotValue, Span, Statement};

/// The cells of a line.
#[derive(Debug, Default)]
pub(super) struct Cells<'t> {
    /// The keyword or the name.
    pub(super) name: Cow<'t, str>,
    /// The figure; `None` where the line has none that is in a column.
    pub(super) figure: Option<&'t str>,
    /// What follows, with the space before it.
    pub(super) rest: String,
}

/// The cells of a line of `text`.
pub(super) fn cells<'t>(line: &Line<'t>, text: &'t str) -> Cells<'t> {
    let end = line.comment.map_or(line.span.end, |comment| comment.start);
    let body = trim(Span::new(line.span.start, end).of(text));
    // What stands from a place to the end of the line's words.
    let from = |start: u32| trim(Span::new(start, end.max(start)).of(text));
    match &line.statement {
        Statement::Empty | Statement::Comment => Cells::default(),
        Statement::Note(words) => named(Cow::Owned(format!("note {}", words.text))),
        Statement::Source(words) => named(Cow::Owned(format!("source {}", words.text))),
        Statement::Unread
        | Statement::Dough(_)
        | Statement::Culture(_)
        | Statement::Ingredient(_)
        | Statement::Scale(_)
        | Statement::Card(_)
        | Statement::Overall
        | Statement::FinalDough
        | Statement::Want
        | Statement::Stage(_)
        | Statement::Spoils(_)
        | Statement::IsFlour => named(Cow::Owned(with_commas(&one_spaced(body)))),
        Statement::Make(_) => named(Cow::Owned(spaced_units(body))),
        Statement::Weigh(weigh) => with_amount(weigh.name.spaced(), &weigh.amount, text, from),
        Statement::From(seed) => {
            let name = match seed.source {
                SeedSource::Named(Name { text, .. }) => format!("from {}", one_spaced(text)),
                SeedSource::ThisDough(_) => "from this dough".to_owned(),
            };
            if let Some(amount) = &seed.amount {
                return with_amount(Cow::Owned(name), amount, text, from);
            }
            let fate = seed.seed.map(|(_, span)| format!(", {}", one_spaced(span.of(text))));
            named(Cow::Owned(name + &fate.unwrap_or_default()))
        }
        Statement::Takes(_)
        | Statement::Weighs(_)
        | Statement::Hydration(_)
        | Statement::LeftOver(_)
        | Statement::Loses(_) => match line.statement.stage_amount() {
            Some((keyword, amount)) => with_amount(Cow::Borrowed(keyword), amount, text, from),
            None => Cells::default(),
        },
        Statement::Ripens(ripens) => measured("ripens", from(ripens.span.start)),
        Statement::Holds(holds) => measured("holds", from(holds.span.start)),
        Statement::Density(density) => measured("density", from(density.span.start)),
        Statement::Division(quantity) => measured("division", from(quantity.span.start)),
        Statement::Capacity(quantity) => measured("capacity", from(quantity.span.start)),
        Statement::Said(said) => of_form(said, body),
    }
}

/// A line without columns.
fn named(name: Cow<'_, str>) -> Cells<'_> {
    Cells { name, figure: None, rest: String::new() }
}

/// A fact of a card. What follows its first words is in the column where it is a figure with a unit, or a count.
fn of_form<'t>(said: &Said<'t>, body: &'t str) -> Cells<'t> {
    let fixed = said.form.keyword().split(' ').count();
    let rest = (0..fixed).fold(body, |rest, _| trim_start(first_word(rest).1));
    let name = |rest: &str| trim(body.get(..body.len() - rest.len()).unwrap_or_default());
    match said.values.as_slice() {
        // These are kept as they are: a word of theirs may begin with a figure.
        [.., SlotValue::Words(words)] => {
            let before = body.get(..body.len() - words.text.len()).unwrap_or_default();
            named(Cow::Owned(format!("{} {}", one_spaced(trim(before)), words.text)))
        }
        [] | [SlotValue::Name(_) | SlotValue::Yeast(_)] => named(one_spaced(body)),
        [SlotValue::Name(name), ..] => {
            let end = body.find(name.text).map_or(0, |start| start + name.text.len());
            let (name, rest) = body.split_at(end);
            measured(one_spaced(name), trim(rest))
        }
        [SlotValue::Clock(_) | SlotValue::Chosen(_), ..] => named(Cow::Owned(spaced_units(body))),
        _ => measured(one_spaced(name(rest)), rest),
    }
}

/// A keyword and what begins with a figure.
fn measured<'t>(keyword: impl Into<Cow<'t, str>>, words: &'t str) -> Cells<'t> {
    let (figure, rest) = split_figure(words);
    Cells { name: keyword.into(), figure: Some(figure), rest: after_space(&spaced_units(rest)) }
}

/// A name and its amount.
fn with_amount<'t>(
    name: Cow<'t, str>,
    amount: &Amount<'t>,
    text: &'t str,
    from: impl Fn(u32) -> &'t str,
) -> Cells<'t> {
    let basis = match &amount.kind {
        AmountKind::Percent { of, .. } => of.as_ref().map(|basis| basis.span),
        _ => None,
    };
    let measure_end = basis.map_or(amount.span.end, |basis| basis.start);
    let measure = trim(Span::new(amount.span.start, measure_end).of(text));
    let (figure, unit) = if amount.kind == AmountKind::Rest { (measure, "") } else { split_figure(measure) };
    let mut rest = after_space(&one_spaced(unit));
    if let Some(basis) = basis {
        // A name may hold a figure that is no amount, so it is not spaced as one.
        rest.push(' ');
        rest.push_str(&one_spaced(basis.of(text)));
    }
    let fate = from(amount.span.end);
    rest.push_str(&with_commas(&one_spaced(fate)));
    Cells { name, figure: Some(figure), rest }
}

/// The figure at the beginning of some words, and what follows it.
fn split_figure(words: &str) -> (&str, &str) {
    match figure::figure(words) {
        Ok((rest, figure)) => (figure, trim(rest)),
        Err(_) => ("", words),
    }
}

fn after_space(words: &str) -> String {
    if words.is_empty() { String::new() } else { format!(" {words}") }
}

/// One space between words and between a figure and its unit.
fn spaced_units(words: &str) -> String {
    let spaced = words.replace(',', " , ");
    let parts = spaced.split(is_blank).filter(|word| !word.is_empty()).flat_map(|word| {
        // `22:00` is one word.
        let is_figure = figure::begins(word) && !word.contains(':');
        let (figure, unit) = if is_figure { split_figure(word) } else { ("", word) };
        [figure, unit].into_iter().filter(|part| !part.is_empty())
    });
    with_commas(&parts.collect::<Vec<_>>().join(" "))
}

/// No space before a comma, and one after it.
fn with_commas(words: &str) -> String {
    words.split(',').map(trim).collect::<Vec<_>>().join(", ")
}
