//! Cards: what a bakery says of everything but its doughs, such as its mixers, tubs and products.
//!
//! A card is a heading with a name and facts under it. Which facts a card has, and which form each has, is data: the
//! tables of this file. A [`Form`] is written as a baker would write the fact, with words in small letters and a
//! word in capitals where something is filled in; `|` separates words of which one is chosen.

/// A heading at the left margin, and the facts that may be under it.
#[derive(Debug, PartialEq, Eq)]
pub struct Card {
    /// The word that begins it.
    pub keyword: &'static str,
    /// How it is named in a message.
    pub(crate) called: &'static str,
    /// A whole heading.
    pub(crate) example: &'static str,
    /// Its facts.
    pub forms: &'static [Form],
}

/// One form of a fact.
#[derive(Debug, PartialEq, Eq)]
pub struct Form {
    /// Words, choices and slots, such as `least MASS of dough|flour`.
    pub shape: &'static str,
    /// A fact of that form.
    pub example: &'static str,
    /// Whether a block may have several.
    pub repeats: bool,
}

impl Form {
    const fn once(shape: &'static str, example: &'static str) -> Self {
        Self { shape, example, repeats: false }
    }

    const fn many(shape: &'static str, example: &'static str) -> Self {
        Self { shape, example, repeats: true }
    }

    /// The words that a fact of this form begins with: those before the first slot or choice.
    #[must_use]
    pub fn keyword(&self) -> &'static str {
        let mut length = 0;
        for token in self.shape.split(' ').take_while(|token| !is_slot(token)) {
            length += token.len() + usize::from(length > 0);
        }
        self.shape.get(..length).unwrap_or_default()
    }

    /// The first of these words.
    pub(crate) fn first_word(&self) -> &'static str {
        self.shape.split(' ').next().unwrap_or_default()
    }
}

/// The cards of a bakery.
pub const CARDS: [Card; 9] = [
    Card { keyword: "bakery", called: "a bakery", example: "bakery Harbour bakehouse", forms: BAKERY },
    Card { keyword: "mixer", called: "a mixer", example: "mixer spiral mixer", forms: MIXER },
    Card { keyword: "method", called: "a method", example: "method Country loaf", forms: METHOD },
    Card { keyword: "oven", called: "an oven", example: "oven deck oven", forms: OVEN },
    Card { keyword: "product", called: "a product", example: "product Large country loaf", forms: PRODUCT },
    Card { keyword: "room", called: "a room", example: "room bakehouse", forms: ROOM },
    Card { keyword: "shift", called: "a shift", example: "shift early shift", forms: SHIFT },
    Card { keyword: "supply", called: "a supply", example: "supply strong white flour", forms: SUPPLY },
    Card { keyword: "tub", called: "a tub", example: "tub large tub", forms: TUB },
];

/// What the whole bakery keeps to.
const BAKERY: &[Form] = &[
    Form::once("time zone WORDS", "time zone Europe/Lisbon"),
    Form::once("currency WORDS", "currency EUR"),
    Form::once("out by CLOCK", "out by 06:30"),
    Form::once("batches equal|full", "batches equal"),
    Form::once("tap water TEMPERATURE", "tap water 14 °C"),
    Form::once("flour store TEMPERATURE", "flour store 19 °C"),
    Form::once(
        "column date|customer|product|quantity|weekday|from|until is WORDS",
        "column date is Delivery day",
    ),
    Form::many("folder WORDS", "folder breads/rye"),
];

const MIXER: &[Form] = &[
    Form::once("there are COUNT", "there are 2"),
    Form::once("least MASS of dough|flour", "least 8 kg of dough"),
    Form::once("most MASS of dough|flour", "most 60 kg of dough"),
    Form::once("warms DIFFERENCE", "warms 12 °C"),
    Form::once("cleaning TIME", "cleaning 5 min"),
];

/// How a dough is worked: the steps that all its products share.
const METHOD: &[Form] = &[
    Form::once("in NAME", "in spiral mixer"),
    Form::once("mixes TIME", "mixes 12 min"),
    Form::once("dough at TEMPERATURE", "dough at 25 °C"),
    Form::once("bulk TIMES", "bulk 2 to 3 h"),
];

const OVEN: &[Form] = &[Form::once("decks COUNT", "decks 6")];

/// What is sold: a dough in pieces.
const PRODUCT: &[Form] = &[
    Form::once("made of NAME", "made of Country loaf"),
    Form::once("piece MASS", "piece 920 g"),
    Form::once("baked MASS", "baked 800 g"),
    Form::once("bake loss PERCENT", "bake loss 12 %"),
    Form::once("losing PERCENT", "losing 2 %"),
    Form::once("spare PERCENT", "spare 2 %"),
    Form::once("spare COUNT pieces", "spare 3 pieces"),
    Form::once("head COUNT pieces", "head 30 pieces"),
    Form::many("each with NAME MASS", "each with sesame seeds 12 g"),
    Form::once("deck COUNT pieces", "deck 24 pieces"),
    Form::once("shaping TIME", "shaping 20 min"),
    Form::once("proof TIMES", "proof 45 to 75 min"),
    Form::once("bakes TIME", "bakes 40 min"),
    Form::once("cools TIME", "cools 60 min"),
    Form::once("out by CLOCK", "out by 06:00"),
];

/// How warm it is, over the day.
const ROOM: &[Form] = &[
    Form::once("stands at TEMPERATURE", "stands at 21 °C"),
    Form::many("at CLOCK TEMPERATURE", "at 22:00 20 °C"),
];

const SHIFT: &[Form] =
    &[Form::once("from CLOCK to CLOCK", "from 02:00 to 10:00"), Form::once("bakers COUNT", "bakers 3")];

const TUB: &[Form] =
    &[Form::once("there are COUNT", "there are 4"), Form::once("volume VOLUME", "volume 20 l")];

/// How a culture is kept; these are in a `culture`, beside what it is fed.
pub const KEEPING: &[Form] = &[
    Form::once("keeps PERCENTS old", "keeps 20 to 50 % old"),
    Form::once("usually PERCENT old", "usually 40 % old"),
    Form::once("fed every TIMES", "fed every 12 to 24 h"),
    Form::once("stored up to TIME at TEMPERATURE", "stored up to 3 days at 5 °C"),
    Form::once("hold at least MASS", "hold at least 200 g"),
    Form::once("hold at most MASS", "hold at most 8 kg"),
];

/// What an ingredient does in a dough beside what it holds; these are in an `ingredient`. A name says none of it, so
/// that a book can be in any language.
pub const WORKING: &[Form] = &[
    Form::once("rye flour", "rye flour"),
    Form::once("yeast YEAST", "yeast instant"),
    Form::once("replaces NUMBER times as much fresh yeast", "replaces 3 times as much fresh yeast"),
];

/// How an ingredient is bought.
const SUPPLY: &[Form] = &[
    Form::once("pack MASS", "pack 25 kg"),
    Form::once("price NUMBER for MASS", "price 18.40 for 25 kg"),
    Form::once("waste PERCENT", "waste 1 %"),
    Form::once("delivered in TIME", "delivered in 2 days"),
];

/// Whether a token of a shape is filled in or chosen, and not a word that is there.
pub(crate) fn is_slot(token: &str) -> bool {
    token.contains('|') || token.bytes().all(|byte| byte.is_ascii_uppercase())
}

/// Whether a fact of some card begins with a word.
pub(crate) fn begins_fact(word: &str) -> bool {
    CARDS.iter().flat_map(|card| card.forms).any(|form| form.first_word() == word)
}

/// The card that a word begins.
pub(crate) fn card(keyword: &str) -> Option<&'static Card> {
    CARDS.iter().find(|card| card.keyword == keyword)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_is_of_its_form() {
        use crate::{Statement, TextId, parse};
        let check = |heading: &str, forms: &'static [Form]| {
            for form in forms {
                let text = format!("{heading}\n  {}\n", form.example);
                let parsed = parse(TextId(0), &text);
                assert_eq!(parsed.problems, [], "{text}");
                let Statement::Said(said) = &parsed.tree.lines[1].statement else { panic!("{text}") };
                assert_eq!(said.form, form, "{text}");
            }
        };
        for card in &CARDS {
            check(card.example.split(',').next().unwrap(), card.forms);
        }
        check("culture rye culture", KEEPING);
        check("ingredient Hefe", WORKING);
    }
}
