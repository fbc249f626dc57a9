//! The grammar of one line.
//!
//! The first word says which form a line has; a line that begins with no word of the language weighs something.

pub(crate) mod amount;
mod card_fact;
mod from;
mod heading;
mod make;
mod pantry;
mod ripens;
mod stage_fact;

use stage_fact::StageFact;

use crate::card;
use crate::measure;
use crate::name::LineText;
use crate::problems::{amount as amount_problems, block as block_problems, heading as heading_problems};
use crate::section::Section;
use crate::space::{first_word, is_blank, trim_start};
use crate::syntax_error::SyntaxError;
use crate::{Form, Statement};

/// The words that begin a heading or a section.
pub(crate) const HEADINGS: [&str; 18] = [
    "dough",
    "culture",
    "ingredient",
    "scale",
    "bakery",
    "mixer",
    "method",
    "oven",
    "product",
    "room",
    "shift",
    "supply",
    "tub",
    "overall",
    "stage",
    "final dough",
    "want",
    "make",
];

/// The words that begin a fact.
pub(crate) const FACTS: [&str; 15] = [
    "takes",
    "weighs",
    "hydration",
    "left over",
    "loses",
    "ripens",
    "from",
    "note",
    "holds",
    "density",
    "spoils",
    "keeps",
    "source",
    "division",
    "capacity",
];

/// Reads a line without its indentation and comment.
///
/// `within` is the block that it is in, `None` at the margin: there `dough` is a heading, while `dough improver
/// 1 %` in a block is an ingredient; and a card has facts of its own.
pub(crate) fn read<'t>(
    source: LineText<'t>,
    body: &'t str,
    within: Option<Section>,
) -> Result<Statement<'t>, SyntaxError<'t>> {
    let (first, rest) = first_word(body);
    let rest = trim_start(rest);
    if let Some(said) = within.and_then(|section| of_card(source, body, section)) {
        return said;
    }
    if let Some((fact, keyword, rest)) = StageFact::of_line(body) {
        return fact.read(source, keyword, rest);
    }
    match first {
        "dough" | "culture" | "ingredient" | "scale" => {
            if within.is_some() && matches!(measure::split(rest), Ok(Some(_))) {
                return amount::weigh(source, body);
            }
            heading::item(source, first, rest)
        }
        "overall" if rest.is_empty() => Ok(Statement::Overall),
        "final" if rest == "dough" => Ok(Statement::FinalDough),
        "want" if rest.is_empty() => Ok(Statement::Want),
        "stage" => heading::stage(source, first, rest).map(Statement::Stage),
        "make" => make::make(source, first, rest).map(|make| Statement::Make(Box::new(make))),
        "ripens" => ripens::ripens(source, first, rest).map(|ripens| Statement::Ripens(Box::new(ripens))),
        "from" => from::from(source, first, rest).map(|from| Statement::From(Box::new(from))),
        "note" => verbatim(source, first, rest).map(Statement::Note),
        "source" => verbatim(source, first, rest).map(Statement::Source),
        "flour" if rest.is_empty() => Ok(Statement::IsFlour),
        "holds" => pantry::holds(source, first, rest).map(Statement::Holds),
        "density" => pantry::density(source, first, rest).map(Statement::Density),
        "spoils" | "keeps" if pantry::is_of_spoiling(rest, within) => {
            pantry::spoils(first, rest).map(Statement::Spoils)
        }
        "division" => pantry::mass(source, first, rest, "division 1 g").map(Statement::Division),
        "capacity" => pantry::mass(source, first, rest, "capacity 5 kg").map(Statement::Capacity),
        _ => match card::card(first).filter(|_| within.is_none()) {
            Some(card) => {
                heading::card(source, card, first, rest).map(|card| Statement::Card(Box::new(card)))
            }
            None => capitals(body).and_then(|()| amount::weigh(source, body)),
        },
    }
}

/// A fact of a card, or of the facts that a culture and an ingredient have in the same way. `None` where it is none
/// of them; in a card there is nothing else but notes.
fn of_card<'t>(
    source: LineText<'t>,
    body: &'t str,
    section: Section,
) -> Option<Result<Statement<'t>, SyntaxError<'t>>> {
    let forms = section.forms();
    if forms.is_empty() {
        return None;
    }
    let said = card_fact::read(source, body, forms);
    let is_note = first_word(body).0 == "note";
    match said {
        Some(said) => Some(said.map(|said| Statement::Said(Box::new(said)))),
        None if matches!(section, Section::Card(_)) && !is_note => {
            let mut keywords: Vec<&str> = forms.iter().map(Form::keyword).collect();
            keywords.dedup();
            Some(Err(block_problems::unknown(first_word(body).0, section, &keywords)))
        }
        None => None,
    }
}

/// The words at the beginning of a line that spell a keyword but for capital letters, and the keyword.
pub(crate) fn keyword_in_capitals(body: &str) -> Option<(&str, &'static str)> {
    // Nearly every line has none, and telling is cheap.
    if !body.bytes().take_while(|byte| *byte != b' ').any(|byte| byte.is_ascii_uppercase()) {
        return None;
    }
    HEADINGS.into_iter().chain(FACTS).find_map(|keyword| {
        let (words, rest) = body.split_at_checked(keyword.len())?;
        let ends = rest.is_empty() || rest.starts_with(is_blank);
        (ends && words != keyword && words.eq_ignore_ascii_case(keyword)).then_some((words, keyword))
    })
}

/// Refuses a word of the language in capital letters.
fn capitals(body: &str) -> Result<(), SyntaxError<'_>> {
    keyword_in_capitals(body)
        .map_or(Ok(()), |(words, keyword)| Err(heading_problems::capitals(words, keyword)))
}

/// Words that are kept as they are.
fn verbatim<'t>(
    source: LineText<'t>,
    keyword: &'t str,
    words: &'t str,
) -> Result<crate::Name<'t>, SyntaxError<'t>> {
    if words.is_empty() { Err(amount_problems::missing_words(keyword)) } else { Ok(source.name(words)) }
}
