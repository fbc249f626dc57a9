//! Whether a food spoils: what a book says of it, else what the built-in pantry says, else what its name says.
//!
//! A book that defines `milk` by its fat and says nothing of spoiling still has milk: the safe answer is taken, and
//! `keeps` is how a book says otherwise.

use std::sync::OnceLock;

use levamen_language::Spoils;
use rustc_hash::FxHashMap;

use crate::pantry::{Ingredient, key};
use crate::stock::built_in;

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
