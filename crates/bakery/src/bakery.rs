//! The bakery: its cards, read together.

use levamen_formula::{Book, FormulaId, IngredientId, key};
use levamen_language::{Place, Problem, Statement, TextId, parse};
use levamen_quantity::{Duration, Exact, TimeUnit};
use rustc_hash::FxHashMap;

use crate::equipment::{Mixer, Oven, Room, Shift, Tub};
use crate::facts::CardFacts;
use crate::ids::{MixerId, ProductId, TubId};
use crate::keeping::Keeping;
use crate::method::Method;
use crate::product::Product;
use crate::settings::Settings;
use crate::supply::Supply;

/// What a bakery has, sells and keeps to, in the order of the texts.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Bakery {
    /// What the whole bakery keeps to.
    pub settings: Settings,
    /// Its mixers.
    pub mixers: Vec<Mixer>,
    /// Its ovens.
    pub ovens: Vec<Oven>,
    /// Its tubs.
    pub tubs: Vec<Tub>,
    /// Its rooms.
    pub rooms: Vec<Room>,
    /// When bakers are at work.
    pub shifts: Vec<Shift>,
    /// How doughs are worked; at most one for each dough.
    pub methods: Vec<Method>,
    /// What is sold.
    pub products: Vec<Product>,
    /// How ingredients are bought; at most one for each ingredient.
    pub supplies: Vec<Supply>,
    /// How cultures are kept, for each that says it.
    pub keepings: Vec<Keeping>,
}

impl Bakery {
    /// Reads the cards of texts whose doughs and pantry are `book`. What is wrong with the words of a text was reported
    /// when the book was read; here is reported what the cards mean and cannot.
    #[must_use]
    pub fn read(book: &Book, texts: &[(TextId, &str)]) -> (Self, Vec<Problem>) {
        let mut bakery = Self::default();
        let mut problems = Vec::new();
        let parsed: Vec<_> = texts
            .iter()
            .filter(|(_, text)| may_have_cards(text))
            .map(|(id, text)| (*id, parse(*id, text).tree))
            .collect();
        let cards: Vec<(&str, CardFacts<'_>)> =
            parsed.iter().flat_map(|(id, tree)| cards(*id, &tree.lines)).collect();
        twice(&cards, &mut problems);
        // Methods name mixers, so mixers come first, wherever they stand.
        for (_, facts) in cards.iter().filter(|(keyword, _)| *keyword == "mixer") {
            bakery.mixers.extend(Mixer::read(facts, &mut problems));
        }
        for (keyword, facts) in &cards {
            bakery.take(book, keyword, facts, &mut problems);
        }
        (bakery, problems)
    }

    fn take(&mut self, book: &Book, keyword: &str, facts: &CardFacts<'_>, problems: &mut Vec<Problem>) {
        match keyword {
            "bakery" => self.settings = Settings::read(facts, problems),
            "oven" => self.ovens.extend(Oven::read(facts, problems)),
            "tub" => self.tubs.extend(Tub::read(facts, problems)),
            "room" => self.rooms.extend(Room::read(facts, problems)),
            "shift" => self.shifts.extend(Shift::read(facts, problems)),
            "method" => self.methods.extend(Method::read(book, &self.mixers, facts, problems)),
            "product" => self.products.extend(Product::read(book, facts, problems)),
            "supply" => self.supplies.extend(Supply::read(book, facts, problems)),
            "culture" if !facts.is_empty() => self.keepings.extend(Keeping::read(book, facts, problems)),
            _ => {}
        }
    }

    /// A product.
    #[must_use]
    pub fn product(&self, id: ProductId) -> Option<&Product> {
        self.products.get(id.index())
    }

    /// A mixer.
    #[must_use]
    pub fn mixer(&self, id: MixerId) -> Option<&Mixer> {
        self.mixers.get(id.index())
    }

    /// A tub.
    #[must_use]
    pub fn tub(&self, id: TubId) -> Option<&Tub> {
        self.tubs.get(id.index())
    }

    /// The product of a name; capitals and the width of spaces do not matter.
    #[must_use]
    pub fn find_product(&self, name: &str) -> Option<&Product> {
        self.products.iter().find(|product| key(&product.name) == key(name))
    }

    /// How a dough is worked.
    #[must_use]
    pub fn method(&self, dough: FormulaId) -> Option<&Method> {
        self.methods.iter().find(|method| method.dough == dough)
    }

    /// The mixer that a dough's method names.
    #[must_use]
    pub fn named_mixer(&self, dough: FormulaId) -> Option<MixerId> {
        self.method(dough)?.mixer
    }

    /// How long a dough stands from mixing to the oven, at most: the longest bulk that its method says and the longest
    /// shaping and proof of its products. `None` where its method or a product does not say it, or it has no product.
    #[must_use]
    pub fn mix_to_oven(&self, dough: FormulaId) -> Option<Duration> {
        let minutes = |time: &Duration| time.in_unit(TimeUnit::Minute);
        let (_, bulk) = self.method(dough)?.bulk.as_ref()?;
        let products = self.products.iter().filter(|product| product.dough == dough);
        let after: Option<Vec<Exact>> = products
            .map(|product| {
                let shaping = product.shaping.as_ref().map(minutes).unwrap_or_default();
                product.proof.as_ref().map(|(_, proof)| &shaping + &minutes(proof))
            })
            .collect();
        let longest = after?.into_iter().max()?;
        Some(Duration::from_unit(&(&minutes(bulk) + &longest), TimeUnit::Minute))
    }

    /// How an ingredient is bought.
    #[must_use]
    pub fn supply(&self, ingredient: IngredientId) -> Option<&Supply> {
        self.supplies.iter().find(|supply| supply.ingredient == ingredient)
    }

    /// How a culture is kept.
    #[must_use]
    pub fn keeping(&self, culture: FormulaId) -> Option<&Keeping> {
        self.keepings.iter().find(|keeping| keeping.culture == culture)
    }

    /// The room of a name.
    #[must_use]
    pub fn room(&self, name: &str) -> Option<&Room> {
        self.rooms.iter().find(|room| key(&room.name) == key(name))
    }
}

/// Whether a text can have a card, or say how a culture is kept: most of a book's texts are doughs alone, and need
/// not be read again.
fn may_have_cards(text: &str) -> bool {
    let begins = |line: &str| {
        let word = line.split(' ').next().unwrap_or_default();
        word == "culture" || levamen_language::CARDS.iter().any(|card| card.keyword == word)
    };
    text.lines().any(begins)
}

/// The cards of a text, and its cultures.
pub(crate) fn cards<'t>(
    id: TextId,
    lines: &'t [levamen_language::Line<'t>],
) -> Vec<(&'static str, CardFacts<'t>)> {
    let mut cards: Vec<(&'static str, CardFacts<'t>)> = Vec::new();
    let mut is_open = false;
    for line in lines {
        let opened = match &line.statement {
            Statement::Card(heading) => Some((heading.card.keyword, heading.name)),
            Statement::Culture(name) => Some(("culture", *name)),
            Statement::Dough(_) | Statement::Ingredient(_) | Statement::Scale(_) => {
                is_open = false;
                None
            }
            _ => None,
        };
        if let Some((keyword, name)) = opened {
            cards.push((keyword, CardFacts::new(id, name)));
            is_open = true;
        } else if is_open && let Some((_, facts)) = cards.last_mut() {
            facts.add(line);
        }
    }
    cards
}

/// Refuses two cards of a kind and a name, and a second `bakery`.
fn twice(cards: &[(&str, CardFacts<'_>)], problems: &mut Vec<Problem>) {
    let mut seen: FxHashMap<(&str, String), Place> = FxHashMap::default();
    for (keyword, facts) in cards.iter().filter(|(keyword, _)| *keyword != "culture") {
        let name = facts.name.spaced();
        let slot = if *keyword == "bakery" { String::new() } else { key(&name).into_owned() };
        let Some(first) = seen.insert((*keyword, slot), facts.place()) else { continue };
        let message = if *keyword == "bakery" {
            "there are two bakeries in one book".to_owned()
        } else {
            format!("there are two cards `{keyword} {name}`")
        };
        problems.push(
            Problem::error("used-twice", message)
                .at(facts.place(), "again")
                .and_at(first, "first used here")
                .help("keep one of them, or give one another name"),
        );
    }
}
