//! Ingredients whose name sounds like yeast, and that do not say that they are.
//!
//! What an ingredient does is never read from its name. But a dough whose yeast is only called yeast would be given a
//! second one by a conversion, so the baker is asked.

use levamen_language::{Problem, YeastKind};

use crate::collect::Block;
use crate::pantry::{Ingredient, key};

/// Words for yeast in languages of bakers, from memory. A word of a name may end with one: `Trockenhefe`.
const YEAST: [&str; 13] = [
    "yeast",
    "hefe",
    "germ",
    "levure",
    "lievito",
    "levadura",
    "gist",
    "jäst",
    "gær",
    "gjær",
    "hiiva",
    "drożdże",
    "droždí",
];

/// Words beside them that speak of yeast that raises nothing; a word of a name may begin with one.
const INERT: [&str; 9] =
    ["nutritional", "inactive", "inaktiv", "deactivated", "extra", "brewer", "flakes", "food", "nutrient"];

impl Ingredient {
    /// Whether it is called like yeast and does not say that it is.
    #[must_use]
    pub fn is_perhaps_yeast(&self) -> bool {
        let name = key(&self.name).into_owned();
        let any = |fits: fn(&str) -> bool| name.split([' ', '-']).any(fits);
        self.yeast.is_none()
            && any(|word| YEAST.iter().any(|yeast| word.ends_with(yeast)))
            && !any(|word| INERT.iter().any(|inert| word.starts_with(inert)))
    }
}

/// The question to ask of an ingredient of the book.
pub(crate) fn question(block: &Block<'_>) -> Option<Problem> {
    let read = Ingredient::read(block);
    if !read.is_perhaps_yeast() {
        return None;
    }
    let kinds = YeastKind::ALL.map(|kind| format!("`yeast {}`", kind.word())).join(", ");
    Some(
        Problem::warning("perhaps-yeast", format!("`{}` is not counted as yeast", read.name))
            .at(block.place(), "sounds like yeast")
            .note("a name does not say what an ingredient does: `convert` and `ripen` pass it over")
            .help(format!("write its kind under it: {kinds}"))
            .help("or how strong it is: `replaces 3 times as much fresh yeast`"),
    )
}
