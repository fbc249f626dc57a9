//! Ingredients whose name sounds like yeast or like a flour of rye, and that do not say that they are.
//!
//! What an ingredient does is never read from its name. But a book whose yeast is only called yeast would be given a
//! second one by a conversion, so the baker is asked.

use levamen_language::{Problem, YeastKind};

use crate::collect::Block;
use crate::pantry::{Ingredient, key};

/// Words for yeast in languages of bakers, from memory. A word of a name may end with one: `Trockenhefe`.
const YEAST: [&str; 12] = [
    "yeast",
    "hefe",
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
const INERT: [&str; 7] = ["nutritional", "inactive", "inaktiv", "deactivated", "extra", "brewer", "flakes"];

/// Words for rye in languages of bakers, from memory. A word of a name may begin with one: `Roggenmehl`.
const RYE: [&str; 10] =
    ["rye", "roggen", "rogge", "seigle", "segale", "centeno", "centeio", "råg", "rugmel", "ruis"];

/// The questions to ask of an ingredient of the book.
pub(crate) fn questions(block: &Block<'_>) -> Vec<Problem> {
    let read = Ingredient::read(block);
    let name = key(&read.name).into_owned();
    let any = |fits: &dyn Fn(&str) -> bool| name.split([' ', '-']).any(fits);
    let mut asked = Vec::new();
    let is_inert = any(&|word| INERT.iter().any(|inert| word.starts_with(inert)));
    if read.yeast.is_none() && !is_inert && any(&|word| YEAST.iter().any(|yeast| word.ends_with(yeast))) {
        let kinds = YeastKind::ALL.map(|kind| format!("`yeast {}`", kind.word())).join(", ");
        asked.push(
            Problem::warning("perhaps-yeast", format!("`{}` is not counted as yeast", read.name))
                .at(block.place(), "sounds like yeast")
                .note("a name does not say what an ingredient does: `convert` and `ripen` pass it over")
                .help(format!("write its kind under it: {kinds}"))
                .help("or how strong it is: `replaces 3 times as much fresh yeast`"),
        );
    }
    if read.is_flour && !read.is_rye && any(&|word| RYE.iter().any(|rye| word.starts_with(rye))) {
        asked.push(
            Problem::warning("perhaps-rye", format!("`{}` is not counted as rye", read.name))
                .at(block.place(), "sounds like rye")
                .note("a name does not say what a flour is of: a rye sour is made of flours that say it")
                .help("write `rye flour` under it in the place of `flour`"),
        );
    }
    asked
}
