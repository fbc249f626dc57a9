//! What the name of an ingredient suggests: that it spoils, or that it is yeast.
//!
//! Whether a food spoils is what a book says of it, else what the built-in pantry says, else what its name says. A book
//! that defines `milk` by its fat and says nothing of spoiling still has milk: the safe answer is taken, and `keeps` is
//! how a book says otherwise.
//!
//! Whether an ingredient is yeast is never read from its name. But a dough whose yeast is only called yeast would be
//! given a second one by a conversion, so the baker is asked.

use std::sync::OnceLock;

use levamen_language::{Problem, Spoils, YeastKind};
use rustc_hash::FxHashMap;

use crate::collect::DraftBlock;
use crate::ingredient::{Ingredient, key};
use crate::pantry::built_in;

/// Words in the names of foods that spoil: those that the US Food Code counts in its definition of food that has to
/// be held cold or hot (1-201.10: animal food raw or heated, plant food that is heated, garlic in oil), as bakers name
/// them. Common practice, no source, for the choice of words.
const SPOILS: [&str; 29] = [
    "egg",
    "eggs",
    "yolk",
    "yolks",
    "milk",
    "cream",
    "crème",
    "creme",
    "buttermilk",
    "whey",
    "yoghurt",
    "yogurt",
    "quark",
    "skyr",
    "kefir",
    "curd",
    "curds",
    "custard",
    "ricotta",
    "mascarpone",
    "tofu",
    "meat",
    "bacon",
    "ham",
    "fish",
    "boiled",
    "cooked",
    "mashed",
    "porridge",
];

/// Words in the names of what is dry, and spoils from when it is wet.
const DRY: [&str; 4] = ["powder", "powdered", "dry", "dried"];

/// Words in the names of what is called cream or milk and is none.
const KEEPS: [&str; 1] = ["tartar"];

impl Ingredient {
    /// Whether it spoils, by the best that is known.
    #[must_use]
    pub fn spoils(&self) -> Spoils {
        let name = key(&self.name);
        self.spoiling.or_else(|| in_built_in(&name)).unwrap_or_else(|| by_name(&name))
    }
}

/// What the built-in pantry says of something of this name.
fn in_built_in(name: &str) -> Option<Spoils> {
    static SAID: OnceLock<FxHashMap<&str, Spoils>> = OnceLock::new();
    let said = SAID.get_or_init(|| {
        let said = built_in().filter_map(|(name, stock)| Some((name.text, stock.get().spoiling?)));
        said.collect()
    });
    said.get(name).copied()
}

/// Whether something spoils, by its name alone.
fn by_name(name: &str) -> Spoils {
    let has = |words: &[&str]| name.split([' ', '-']).any(|word| words.contains(&word));
    let garlic_in_oil = has(&["garlic"]) && has(&["oil"]);
    match has(&SPOILS) || garlic_in_oil {
        true if has(&KEEPS) => Spoils::Never,
        true if has(&DRY) => Spoils::WhenWet,
        true => Spoils::Always,
        false => Spoils::Never,
    }
}

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

/// Words beside them that mention yeast that raises nothing; a word of a name may begin with one.
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
pub(crate) fn question(block: &DraftBlock<'_>) -> Option<Problem> {
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

#[cfg(test)]
mod tests {
    use super::*;

    fn spoils(name: &str) -> Spoils {
        Ingredient::plain(name).spoils()
    }

    #[test]
    fn by_the_pantry_or_by_the_name() {
        for name in
            ["Egg", "duck egg", "Single cream", "crème fraîche", "ricotta", "boiled potato", "garlic in oil"]
        {
            assert_eq!(spoils(name), Spoils::Always, "{name}");
        }
        for name in ["milk powder", "dried egg", "rolled oats"] {
            assert_eq!(spoils(name), Spoils::WhenWet, "{name}");
        }
        for name in ["eggplant", "butter", "cream of tartar", "garlic", "olive oil", "water"] {
            assert_eq!(spoils(name), Spoils::Never, "{name}");
        }
    }

    #[test]
    fn what_a_book_says_goes_first_and_its_silence_does_not_excuse() {
        let own = |spoiling| Ingredient { spoiling, ..Ingredient::plain("boiled potato") };
        assert_eq!(own(None).spoils(), Spoils::Always);
        assert_eq!(own(Some(Spoils::Never)).spoils(), Spoils::Never);
        let said = Ingredient { spoiling: Some(Spoils::Always), ..Ingredient::plain("Sahne") };
        assert_eq!(said.spoils(), Spoils::Always);
    }
}
