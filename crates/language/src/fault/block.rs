//! Faults in how lines stand together.

use super::{Fault, quoted};
use crate::outline::Section;

pub(crate) fn margin(at: &str) -> Fault<'_> {
    Fault::new("indentation", at, format!("`{at}` does not stand at the left margin"))
        .label("indented")
        .help("take the space before it away")
}

pub(crate) fn deeper(at: &str) -> Fault<'_> {
    Fault::new("indentation", at, format!("`{}` stands deeper than the lines around it", quoted(at)))
        .label("too deep")
        .note("only a heading opens a block, and the lines of a block stand in one column")
        .help("indent it as the line before")
}

pub(crate) fn shallower(at: &str) -> Fault<'_> {
    Fault::new("indentation", at, format!("`{}` stands between two blocks", quoted(at)))
        .label("belongs to neither")
        .help("indent it as the other lines of its block")
}

pub(crate) fn uneven_section(at: &str) -> Fault<'_> {
    Fault::new(
        "indentation",
        at,
        format!("`{}` stands in another column than the dough's first section", quoted(at)),
    )
    .label("sections stand in one column")
    .help("move all sections of a dough to the left margin")
}

pub(crate) fn too_nested(at: &str, most: usize) -> Fault<'_> {
    Fault::new("too-nested", at, format!("stages are nested more than {most} deep"))
        .label("one too many")
        .note("the lines under it are not read")
        .help("build the levain in fewer steps, or keep the first ones as a culture")
}

pub(crate) fn no_dough(at: &str) -> Fault<'_> {
    Fault::new("no-dough", at, format!("`{}` belongs to no dough", quoted(at)))
        .label("which dough?")
        .help("write `dough` and its name above it")
}

pub(crate) fn outside(at: &str, in_dough: bool) -> Fault<'_> {
    let fault = Fault::new("outside", at, format!("`{}` stands in no block", quoted(at))).label("outside");
    if in_dough {
        fault.help("indent it under `overall`, a `stage` or `final dough`")
    } else {
        fault.help("indent it under the heading it belongs to, such as `dough` with `overall`, `culture` or `ingredient`")
    }
}

pub(crate) fn wrong_place<'t>(at: &'t str, first: &str, section: Section) -> Fault<'t> {
    let words = quoted(first);
    let fault = Fault::new("wrong-place", at, format!("`{words}` has no meaning in {}", section.name()))
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
    let fault = match belongs {
        Some(place) => fault.help(format!("`{words}` stands in {place}")),
        None if first == "stage" => {
            fault.help("put it at the left margin: what a stage makes goes into the final dough unless another stage takes it")
        }
        None => fault,
    };
    fault.help(format!("in {} stand {}", section.name(), section.facts()))
}

pub(crate) fn again<'t>(at: &'t str, earlier: &'t str, what: &str, whole: &str) -> Fault<'t> {
    Fault::new("said-twice", at, format!("{what} is said twice in {whole}"))
        .label("again")
        .also(earlier, "first said here")
        .help("keep one of the two lines")
}

pub(crate) fn twice<'t>(at: &'t str, earlier: &'t str, in_stage: bool) -> Fault<'t> {
    let name = quoted(at);
    let fault = Fault::new("twice", at, format!("`{name}` is weighed twice in one block"))
        .label("again")
        .also(earlier, "first weighed here")
        .help("write one line with the whole amount");
    if !in_stage {
        return fault;
    }
    fault.help(format!(
        "or say of each line, in other words, when it goes in: `{name} 8 %, after the autolyse`"
    ))
}

/// When something goes in is said where it is weighed.
pub(crate) fn no_time(at: &str, section: Section) -> Fault<'_> {
    Fault::new("more-words", at, format!("`{}` has no meaning in {}", quoted(at), section.name()))
        .label("words after a complete fact")
        .help("leave it out; when something goes in is said in a `stage` or in `final dough`")
}

pub(crate) fn empty_dough(at: &str) -> Fault<'_> {
    Fault::new("empty-dough", at, format!("`{}` has nothing in it", quoted(at)))
        .label("no section follows")
        .help("write `overall` under it, and what goes into the dough: `  flour 100 %`")
}

pub(crate) fn empty_section(at: &str) -> Fault<'_> {
    Fault::new("empty-section", at, format!("`{}` has nothing in it", quoted(at)))
        .label("nothing follows that is indented")
        .help("indent its lines under it, or leave it out")
}

pub(crate) fn holds_too_much<'t>(at: &'t str, total: &str) -> Fault<'t> {
    Fault::new("holds-too-much", at, format!("the parts of this ingredient add up to {total} %"))
        .label("more than there is")
        .help("the parts add up to 100 % at most")
}
