//! Which folders below its own a book is read from.

use levamen_language::{Place, SlotValue, TextId, parse};

use crate::bakery::cards;

/// A folder that a `bakery` card names: its *.dough files are part of the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Folder {
    /// Its path below the book's own folder, as it is written.
    pub path: String,
    /// Where it is written.
    pub place: Place,
}

/// The folders that the `bakery` cards of some texts name, in their order. It needs no book: it says which texts a book is
/// read from.
#[must_use]
pub fn folders(texts: &[(TextId, &str)]) -> Vec<Folder> {
    let has_card = |text: &str| text.lines().any(|line| line.starts_with("bakery"));
    let mut folders = Vec::new();
    for (id, text) in texts.iter().filter(|(_, text)| has_card(text)) {
        let tree = parse(*id, text).tree;
        for (_, facts) in cards(*id, &tree.lines).iter().filter(|(keyword, _)| *keyword == "bakery") {
            folders.extend(facts.all("folder").filter_map(|(values, place)| match values {
                [SlotValue::Words(words)] => Some(Folder { path: words.text.to_owned(), place }),
                _ => None,
            }));
        }
    }
    folders
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folders_stand_on_the_card_of_the_bakery() {
        let text =
            "bakery Harbour\n  folder breads\n  folder breads/rye\n\nmixer spiral\n  most 60 kg of dough\n";
        let found = folders(&[(TextId(3), text), (TextId(4), "dough A\n  folder old\n")]);
        let paths: Vec<&str> = found.iter().map(|folder| folder.path.as_str()).collect();
        assert_eq!(paths, ["breads", "breads/rye"]);
        assert!(found.iter().all(|folder| folder.place.text == TextId(3)));
    }
}
