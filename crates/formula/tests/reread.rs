//! After any edits an open book is the book that is read from the same texts, but for the numbers of its ids.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_formula::{FormulaId, IngredientId, OpenBook};
use levamen_language::TextId;
use proptest::prelude::*;

/// What a text may be: names that are defined twice, looked up in vain, misspelt, of another sort, and texts with mistakes.
const TEXTS: [&str; 12] = [
    "",
    "culture mother\n  rye flour  100 %\n  water  90 %\n",
    "culture chef\n  wheat flour  100 %\n  water  60 %\n  from mother  10 %\n",
    "dough Mother\n\nfinal dough\n  wheat flour  100 %\n  water  65 %\n",
    "dough Loaf\n\nfinal dough\n  wheat flour  100 %\n  water  60 %\n  from mother  10 % of its flour\n",
    "dough Loaf\n\noverall\n  rye flour  100 %\n  oat syrup  5 %\n  water  rest\n\nwant\n  hydration  70 %\n",
    "dough Bun\n\nfinal dough\n  wheat flour  100 %\n  othermother  5 %\n  watr  60 %\n  from loaf  10 %\n",
    "ingredient oat syrup\n  holds 25 % water\n",
    "ingredient wheat flour\n  rye flour\n\ningredient othermother\n  flour\n",
    "scale beam\n  division 5 g\n  capacity 10 kg\n",
    "scale beam\n  division 5 g\n\nculture other mother\n  wheat flour  100 %\n",
    "dough\nnonsense 5\n  indented  %\n",
];

const LAYERS: usize = 2;

/// Something done to a book: to the text of a number, counted round and round.
#[derive(Debug, Clone, Copy)]
enum BookEdit {
    Write(usize, &'static str),
    Insert(usize, usize, &'static str),
    Remove(usize),
}

fn text() -> impl Strategy<Value = &'static str> {
    prop::sample::select(TEXTS.to_vec())
}

fn edit() -> impl Strategy<Value = BookEdit> {
    prop_oneof![
        4 => (0_usize..8, text()).prop_map(|(nth, text)| BookEdit::Write(nth, text)),
        2 => (0..LAYERS, 0_usize..5, text()).prop_map(|(layer, at, text)| BookEdit::Insert(layer, at, text)),
        1 => (0_usize..8).prop_map(BookEdit::Remove),
    ]
}

/// The texts of a book by layer.
type Layers = Vec<Vec<(TextId, &'static str)>>;

fn read(layers: &Layers) -> OpenBook {
    OpenBook::read(&layers.iter().map(Vec::as_slice).collect::<Vec<_>>())
}

/// The layer and the place in it of a text, counted round and round.
fn place(layers: &Layers, nth: usize) -> Option<(usize, usize)> {
    let all: Vec<_> =
        (0..).zip(layers).flat_map(|(layer, own)| (0..own.len()).map(move |at| (layer, at))).collect();
    all.get(nth % all.len().max(1)).copied()
}

/// Does it to the book and to the texts.
fn make(edit: BookEdit, new: TextId, open: &mut OpenBook, layers: &mut Layers) {
    match edit {
        BookEdit::Write(nth, text) => {
            let Some((layer, at)) = place(layers, nth) else { return };
            layers[layer][at].1 = text;
            assert!(open.edit(layers[layer][at].0, text).is_some());
        }
        BookEdit::Insert(layer, at, text) => {
            let within = at.min(layers[layer].len());
            layers[layer].insert(within, (new, text));
            assert!(open.insert(layer, at, new, text).is_some());
        }
        BookEdit::Remove(nth) => {
            let Some((layer, at)) = place(layers, nth) else { return };
            let (id, _) = layers[layer].remove(at);
            assert!(open.remove(id).is_some());
        }
    }
}

/// Everything that a book says, with names in the place of ids: those differ from book to book.
fn everything(open: &OpenBook) -> Vec<String> {
    let book = open.book();
    let formula = |id: u32| {
        book.entry(FormulaId(id))
            .map_or("none".to_owned(), |entry| format!("{} {:?}", entry.name, entry.place))
    };
    let ingredient = |id: u32| {
        let known = book.pantry().get(IngredientId(id));
        known.map_or("none".to_owned(), |known| known.name.clone())
    };
    let shown = |text: String| named(&named(&text, "FormulaId(", formula), "IngredientId(", ingredient);
    let mut all: Vec<String> = book.entries().map(|(_, entry)| shown(format!("{entry:?}"))).collect();
    // Of the built-in pantry those that the texts name or define again.
    let ingredients = ["oat syrup", "wheat flour", "othermother", "rye flour", "water"];
    let known = |name| book.pantry().find(name).and_then(|id| book.pantry().get(id));
    all.extend(ingredients.map(|name| format!("{name}: {:?}", known(name))));
    all.push(format!("{:?}", book.scales()));
    all.extend(open.problems().map(|problem| format!("{problem:?}")));
    let names = ["mother", "chef", "loaf", "bun", "other mother"];
    all.extend(names.map(|name| shown(format!("{name}: {:?}", book.find(name)))));
    all.extend(open.texts().map(|id| format!("{id:?}: {:?}", open.text(id))));
    all
}

/// Puts names in the place of `Kind(7)`.
fn named(text: &str, start: &str, name: impl Fn(u32) -> String) -> String {
    let mut parts = text.split(start);
    let mut named = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (id, rest) = part.split_once(')').unwrap();
        named.extend(["<", &name(id.parse().unwrap()), ">", rest]);
    }
    named
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn an_edited_book_is_the_book_of_its_texts(
        first in prop::collection::vec(text(), 0..5),
        edits in prop::collection::vec(edit(), 1..10),
    ) {
        let mut layers: Layers = vec![(0..).map(TextId).zip(first).collect(), Vec::new()];
        let mut open = read(&layers);
        for (number, edit) in (100..).zip(edits) {
            make(edit, TextId(number), &mut open, &mut layers);
            let after = everything(&open);
            let again = everything(&read(&layers));
            prop_assert!(after == again, "{:#?}\n{:#?}", layers, after.iter().zip(&again).find(|(one, other)| one != other));
        }
    }
}

/// What an edit is reported to have done is what was done: a formula that is not in the report says what it said.
#[test]
fn every_formula_that_is_not_reported_is_as_it_was() {
    for (own, text) in TEXTS.iter().enumerate() {
        for other in TEXTS {
            let mut layers: Layers = vec![(0..).map(TextId).zip(TEXTS).collect(), Vec::new()];
            let mut open = read(&layers);
            let before: Vec<_> = open.book().entries().map(|(id, entry)| (id, entry.clone())).collect();
            layers[0][own].1 = other;
            let effect = open.edit(layers[0][own].0, other).unwrap();
            if *text == other {
                assert_eq!(effect, levamen_formula::Effect::default());
            }
            for (id, entry) in before {
                let now = open.book().entry(id);
                assert_eq!(now.is_none(), effect.gone.contains(&id), "{text}\nto\n{other}");
                if !effect.formulas.contains(&id) && !effect.gone.contains(&id) {
                    assert_eq!(now, Some(&entry), "{text}\nto\n{other}");
                }
            }
        }
    }
}
