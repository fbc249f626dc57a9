//! After any edits the live book is the book read again.

use std::collections::BTreeSet;
use std::sync::Arc;

use levamen_balance::{Balance, Balancer, Changes, LiveBook};
use levamen_formula::{Book, BookEntry, FormulaId};
use levamen_language::{Problem, TextId};
use levamen_quantity::Share;
use proptest::prelude::*;

use crate::texts::{Edit, edits, layers};

/// The texts as the edits leave them, kept apart from the book.
#[derive(Debug, Clone)]
struct Shelf {
    layers: Vec<Vec<(TextId, String)>>,
    next: u32,
}

impl Shelf {
    fn new(layers: Vec<Vec<String>>) -> Self {
        let mut shelf = Self { layers: Vec::new(), next: 0 };
        for texts in layers {
            let texts = texts.into_iter().map(|text| (shelf.new_id(), text)).collect();
            shelf.layers.push(texts);
        }
        shelf
    }

    fn new_id(&mut self) -> TextId {
        self.next += 1;
        TextId(self.next)
    }

    fn borrowed(&self) -> Vec<Vec<(TextId, &str)>> {
        let layers = self.layers.iter();
        layers.map(|texts| texts.iter().map(|(id, text)| (*id, text.as_str())).collect()).collect()
    }

    fn read(&self) -> LiveBook {
        let borrowed = self.borrowed();
        LiveBook::read(&borrowed.iter().map(Vec::as_slice).collect::<Vec<_>>())
    }

    /// The n-th text, counted round and round.
    fn nth(&mut self, nth: usize) -> Option<&mut (TextId, String)> {
        let count = self.layers.iter().map(Vec::len).sum::<usize>().max(1);
        self.layers.iter_mut().flatten().nth(nth % count)
    }

    /// Makes an edit here and in the book.
    fn make(&mut self, edit: Edit, live: &mut LiveBook) -> Option<Changes> {
        match edit {
            Edit::Write(nth, words) => {
                let (id, text) = self.nth(nth)?;
                *text = words;
                live.edit(*id, text.as_str())
            }
            Edit::Line(nth, at, words) => {
                let (id, text) = self.nth(nth)?;
                let mut lines: Vec<&str> = text.lines().collect();
                if let Some(line) = lines.get_mut(at) {
                    *line = &words;
                }
                *text = lines.join("\n");
                live.edit(*id, text.as_str())
            }
            Edit::Shift(nth) => {
                let (id, text) = self.nth(nth)?;
                *text = format!("# shifted\n{text}");
                live.edit(*id, text.as_str())
            }
            Edit::Insert(layer, at, words) => {
                let id = self.new_id();
                let texts = self.layers.get_mut(layer)?;
                texts.insert(at.min(texts.len()), (id, words.clone()));
                live.insert(layer, at, id, words)
            }
            Edit::Remove(nth) => {
                let id = self.nth(nth)?.0;
                self.layers.iter_mut().for_each(|texts| texts.retain(|(own, _)| *own != id));
                live.remove(id)
            }
        }
    }
}

/// Something as it is shown for debugging, with names in the place of ids: these are the same in every book.
fn shown(value: &impl std::fmt::Debug, book: &Book) -> String {
    let formula = |id: u32| {
        let entry = book.entry(FormulaId(id));
        entry.map_or("none".to_owned(), |entry| format!("{} {:?}", entry.name, entry.place))
    };
    let ingredient = |id: u32| {
        let mut known = book.pantry().iter().filter(|(own, _)| own.0 == id);
        known.next().map_or("none".to_owned(), |(_, known)| known.name.clone())
    };
    let text = format!("{value:?}");
    named(&named(&text, "FormulaId", formula), "IngredientId", ingredient)
}

/// Puts names in the place of `kind(7)`.
fn named(text: &str, kind: &str, name: impl Fn(u32) -> String) -> String {
    let start = format!("{kind}(");
    let mut parts = text.split(&start);
    let mut named = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (id, rest) = part.split_once(')').unwrap();
        let name = name(id.parse().unwrap());
        named.extend(["<", &name, ">", rest]);
    }
    named
}

/// Everything that a book says: entries, balances, pantry, scales, problems.
fn everything(live: &LiveBook) -> Vec<String> {
    let book = live.book();
    let mut all = Vec::new();
    for (id, entry) in book.entries() {
        all.push(shown(entry, book));
        all.push(shown(&live.balance(id), book));
    }
    let mut pantry: Vec<String> = book.pantry().iter().map(|(_, known)| format!("{known:?}")).collect();
    pantry.sort();
    all.extend(pantry);
    all.push(format!("{:?}", book.scales()));
    all.extend(live.problems().iter().map(|problem| format!("{problem:?}")));
    for name in ["mother", "chef", "loaf", "bun"] {
        all.push(shown(&book.find(name), book));
    }
    all
}

/// A dough, and what comes of balancing it.
#[derive(Debug, Clone, PartialEq)]
struct Dough {
    id: FormulaId,
    entry: BookEntry,
    outcome: Result<Balance, Vec<Problem>>,
}

impl Dough {
    fn hydration(&self) -> Option<&Share> {
        self.outcome.as_ref().ok().map(|balance| &balance.hydration)
    }
}

fn doughs(live: &LiveBook) -> Vec<Dough> {
    let entries = live.book().entries();
    entries
        .map(|(id, entry)| {
            let outcome = live.balance(id).map(Arc::unwrap_or_clone);
            Dough { id, entry: entry.clone(), outcome }
        })
        .collect()
}

/// What is reported of an edit is all that changed, and nothing else.
fn assert_told(changes: &Changes, before: &[Dough], live: &LiveBook) {
    let now = doughs(live);
    for dough in &now {
        let old = before.iter().find(|old| old.id == dough.id);
        let is_unread = |dough: &Dough| dough.entry.formula.is_none();
        let is_changed = match old {
            Some(old) if is_unread(old) || is_unread(dough) => old != dough,
            Some(old) => old.outcome != dough.outcome,
            None => true,
        };
        assert_eq!(is_changed, changes.of(dough.id).is_some(), "{dough:?}");
        let Some(change) = changes.of(dough.id) else { continue };
        let told = change.figures.iter().find(|changed| changed.figure.to_string() == "hydration");
        let hydrations = (old.and_then(Dough::hydration), dough.hydration());
        if hydrations.0 == hydrations.1 {
            assert_eq!(told, None);
        } else {
            let told = told.unwrap();
            assert_eq!((told.before.as_ref(), told.after.as_ref()), hydrations);
        }
        assert!(change.figures.iter().all(|changed| changed.before != changed.after));
    }
    let is_gone = |old: &&Dough| now.iter().all(|dough| dough.id != old.id);
    let gone: BTreeSet<FormulaId> = before.iter().filter(is_gone).map(|old| old.id).collect();
    assert!(changes.gone.iter().eq(&gone), "{gone:?}");
    assert!(changes.doughs.iter().all(|change| now.iter().any(|dough| dough.id == change.id)));
}

fn assert_same(live: &LiveBook, shelf: &Shelf) {
    let (live, anew) = (everything(live), everything(&shelf.read()));
    let other = live.iter().zip(&anew).find(|(live, anew)| live != anew);
    assert!(
        live == anew,
        "edited and anew:\n{}\n{}\nafter {shelf:#?}",
        other.map_or("", |(live, _)| live),
        other.map_or("", |(_, anew)| anew)
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn any_edits_come_to_the_book_read_anew(layers in layers(), edits in edits()) {
        let mut shelf = Shelf::new(layers);
        let mut live = shelf.read();
        for edit in edits {
            let (before, problems) = (doughs(&live), live.problems());
            let Some(changes) = shelf.make(edit, &mut live) else { continue };
            assert_told(&changes, &before, &live);
            prop_assert!(changes.problems || live.problems() == problems);
            assert_same(&live, &shelf);
        }
    }

    /// A balancer that is asked for one dough after the other, in another order than that of the book, finds the same.
    #[test]
    fn the_order_of_asking_does_not_matter(layers in layers()) {
        let live = Shelf::new(layers).read();
        let mut balancer = Balancer::new(live.book());
        for dough in doughs(&live).into_iter().rev() {
            let found = balancer.balance(dough.id).cloned().map_err(<[Problem]>::to_vec);
            prop_assert_eq!(found, dough.outcome);
        }
    }
}

/// A name that comes to mean another culture is reported, also where that has the same figures.
#[test]
fn a_seed_of_another_culture_of_the_same_name_is_told() {
    let mother = "culture mother\n  strong white flour  100 %\n  water  50 %\n";
    let loaf =
        "dough loaf\n\nfinal dough\n  rye flour  100 %\n  water  55 %\n  from mother  20 % of its flour\n";
    let texts = [mother.to_owned(), format!("{mother}\n{loaf}")];
    let mut shelf = Shelf::new(vec![texts.to_vec()]);
    let mut live = shelf.read();
    let before = doughs(&live);
    let changes = shelf.make(Edit::Remove(0), &mut live).unwrap();
    assert_told(&changes, &before, &live);
    assert_same(&live, &shelf);
}
