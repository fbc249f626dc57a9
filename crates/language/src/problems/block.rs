//! Problems of how lines stand together, and of the facts of cards.

use crate::Form;
use crate::section::Section;
use crate::syntax_error::{SyntaxError, quoted};
use crate::words::listed_quoted;

pub(crate) fn margin(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("indentation", at, format!("`{at}` does not stand at the left margin"))
        .label("indented")
        .help("take the space before it away")
}

pub(crate) fn deeper(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("indentation", at, format!("`{}` stands deeper than the lines around it", quoted(at)))
        .label("too deep")
        .note("only a heading opens a block, and the lines of a block stand in one column")
        .help("indent it as the line before")
}

pub(crate) fn shallower(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("indentation", at, format!("`{}` stands between two blocks", quoted(at)))
        .label("belongs to neither")
        .help("indent it as the other lines of its block")
}

pub(crate) fn uneven_section(at: &str) -> SyntaxError<'_> {
    SyntaxError::new(
        "indentation",
        at,
        format!("`{}` stands in another column than the dough's first section", quoted(at)),
    )
    .label("sections stand in one column")
    .help("move all sections of a dough to the left margin")
}

pub(crate) fn too_nested(at: &str, most: usize) -> SyntaxError<'_> {
    SyntaxError::new("too-nested", at, format!("stages are nested more than {most} deep"))
        .label("one too many")
        .note("the lines under it are not read")
        .help("build the levain in fewer steps, or keep the first ones as a culture")
}

pub(crate) fn no_dough(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("no-dough", at, format!("`{}` belongs to no dough", quoted(at)))
        .label("which dough?")
        .help("write `dough` and its name above it")
}

pub(crate) fn outside(at: &str, in_dough: bool) -> SyntaxError<'_> {
    let error =
        SyntaxError::new("outside", at, format!("`{}` stands in no block", quoted(at))).label("outside");
    if in_dough {
        error.help("indent it under `overall`, a `stage` or `final dough`")
    } else {
        error.help("indent it under the heading it belongs to, such as `dough` with `overall`, `culture` or `ingredient`")
    }
}

pub(crate) fn wrong_place<'t>(at: &'t str, first: &str, section: Section) -> SyntaxError<'t> {
    let words = quoted(first);
    let error =
        SyntaxError::new("wrong-place", at, format!("`{words}` has no meaning in {}", section.name()))
            .label("not here");
    let belongs = match first {
        "takes" | "weighs" | "left over" => Some("a `stage`"),
        "loses" => Some("a scald or a soaker"),
        "from" => Some("a `stage`, a `culture` or `final dough`"),
        "hydration" => Some("`overall` or a `stage`"),
        "ripens" => Some("a `stage` or a `culture`"),
        "holds" | "density" | "spoils" | "keeps" | "source" => Some("an `ingredient`"),
        "division" | "capacity" => Some("a `scale`"),
        "overall" | "final dough" | "want" | "make" => Some("a `dough`, at the left margin"),
        _ => None,
    };
    let error = match belongs {
        Some(place) => error.help(format!("`{words}` stands in {place}")),
        None if first == "stage" => {
            error.help("put it at the left margin: what a stage makes goes into the final dough unless another stage takes it")
        }
        None => error,
    };
    error.help(format!("in {} stand {}", section.name(), section.facts()))
}

pub(crate) fn again<'t>(at: &'t str, earlier: &'t str, what: &str, whole: &str) -> SyntaxError<'t> {
    SyntaxError::new("said-twice", at, format!("{what} is said twice in {whole}"))
        .label("again")
        .also(earlier, "first said here")
        .help("keep one of the two lines")
}

pub(crate) fn twice<'t>(at: &'t str, earlier: &'t str, in_stage: bool) -> SyntaxError<'t> {
    let name = quoted(at);
    let error = SyntaxError::new("twice", at, format!("`{name}` is weighed twice in one block"))
        .label("again")
        .also(earlier, "first weighed here")
        .help("write one line with the whole amount");
    if !in_stage {
        return error;
    }
    error.help(format!(
        "or say of each line, in other words, when it goes in: `{name} 8 %, after the autolyse`"
    ))
}

/// When something goes in is said where it is weighed.
pub(crate) fn no_time(at: &str, section: Section) -> SyntaxError<'_> {
    SyntaxError::new("more-words", at, format!("`{}` has no meaning in {}", quoted(at), section.name()))
        .label("words after a complete fact")
        .help("leave it out; when something goes in is said in a `stage` or in `final dough`")
}

pub(crate) fn empty_dough(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("empty-dough", at, format!("`{}` has nothing in it", quoted(at)))
        .label("no section follows")
        .help("write `overall` under it, and what goes into the dough: `  flour 100 %`")
}

pub(crate) fn empty_section(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("empty-section", at, format!("`{}` has nothing in it", quoted(at)))
        .label("nothing follows that is indented")
        .help("indent its lines under it, or leave it out")
}

pub(crate) fn holds_too_much<'t>(at: &'t str, total: &str) -> SyntaxError<'t> {
    SyntaxError::new("holds-too-much", at, format!("the parts of this ingredient add up to {total} %"))
        .label("more than there is")
        .help("the parts add up to 100 % at most")
}

/// A fact that begins as one of the form does and goes on otherwise.
pub(crate) fn form<'t>(at: &'t str, form: &Form) -> SyntaxError<'t> {
    SyntaxError::new("fact-form", at, format!("`{}` is not a whole fact", quoted(at)))
        .label("not the form")
        .help(format!("write it like `{}`", form.example))
}

/// A line of a card that begins with none of its facts.
pub(crate) fn unknown<'t>(at: &'t str, section: Section, keywords: &[&'static str]) -> SyntaxError<'t> {
    SyntaxError::new("unknown-fact", at, format!("`{}` is no fact of {}", quoted(at), section.name()))
        .label("not known here")
        .nearest(at, keywords.iter().copied())
        .help(format!("in {} stand {}", section.name(), listed_quoted(keywords, "and")))
}

/// A number that lacks its unit.
pub(crate) fn unit<'t>(at: &'t str, example: &str) -> SyntaxError<'t> {
    let words = quoted(at);
    SyntaxError::new(super::number::MISSING, at, format!("`{words}` has no unit"))
        .label(format!("{words} what?"))
        .help(format!("write it like `{example}`"))
}

/// A time of day in another form.
pub(crate) fn clock(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("clock-form", at, format!("`{}` is no time of day", quoted(at)))
        .label("hours and minutes are wanted")
        .help("write it from 00:00 to 23:59, such as 04:30 or 18:00")
}

/// A number of things that is not whole, or too large.
pub(crate) fn count(at: &str, most: u32) -> SyntaxError<'_> {
    SyntaxError::new("whole-count", at, format!("`{}` cannot be counted", quoted(at)))
        .label("a whole number is wanted")
        .help(format!("write a whole number from 1 to {most}"))
}

/// A span that ends before it begins.
pub(crate) fn order<'t>(at: &'t str, least: &str, most: &str, unit: &str) -> SyntaxError<'t> {
    SyntaxError::new("span-order", at, format!("`{}` ends before it begins", quoted(at)))
        .label("the least comes first")
        .help(format!("write {most} to {least} {unit}").trim_end().to_owned())
}

/// A word that is no kind of yeast.
pub(crate) fn yeast<'t>(at: &'t str, kinds: &[&'static str]) -> SyntaxError<'t> {
    SyntaxError::new("unknown-yeast", at, format!("`{}` is no kind of yeast", quoted(at)))
        .label("not a kind")
        .nearest(at, kinds.iter().copied())
        .help(format!("a yeast is {}", listed_quoted(kinds, "or")))
        .help("how strong any other is can be said alone: `replaces 2.5 times as much fresh yeast`")
}
