//! Cards as they are read: those of the demo book, and what is said of each mistake.

use std::fs;
use std::io;
use std::path::Path;

use levamen_bakery::Bakery;
use levamen_formula::Book;
use levamen_language::{Label, Problem, TextId};

/// A bakery from texts, with every problem of its cards.
fn read(texts: &[String]) -> (Bakery, Vec<Problem>) {
    let texts: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, [], "the texts are sound but for their cards");
    Bakery::read(&book, &texts)
}

/// The texts of the demo book.
fn demo() -> io::Result<Vec<String>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../formulas");
    let mut files: Vec<_> =
        fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<_>>()?;
    files.retain(|path| path.extension().is_some_and(|extension| extension == "dough"));
    files.sort();
    files.iter().map(fs::read_to_string).collect()
}

fn words(label: &Label, text: &str) -> String {
    let span = label.place.span;
    format!("`{}` {}", &text[span.start as usize..span.end as usize], label.text)
}

/// A problem in lines.
fn shown(problem: &Problem, text: &str) -> String {
    let labels = problem.primary.iter().chain(&problem.secondary).map(|label| words(label, text));
    let help = problem.help.iter().map(|help| format!("help: {help}"));
    let lines: Vec<String> =
        std::iter::once(format!("{}: {}", problem.code, problem.message)).chain(labels).chain(help).collect();
    lines.join("\n  ")
}

#[test]
fn the_demo_bakery_is_sound_and_each_of_its_doughs_but_the_shared_poolish_is_sold() {
    let (bakery, problems) = read(&demo().unwrap());
    assert_eq!(problems, []);
    assert_eq!((bakery.mixers.len(), bakery.tubs.len(), bakery.keepings.len()), (2, 3, 3));
    assert_eq!(bakery.methods.len(), 21);
    let loaf = bakery.find_product("quayside  LOAF").unwrap();
    assert_eq!(loaf.piece.dough().grams().to_decimal_string(), "920");
    let seeded = bakery.find_product("Gull Rock seeded").unwrap();
    // 800 g baked at a loss of 13 % are 800 / 0.87 g of dough.
    assert_eq!(seeded.piece.dough().grams().to_fixed(4), "919.5402");
    let method = bakery.method(loaf.dough).unwrap();
    assert_eq!(bakery.mixer(method.mixer.unwrap()).unwrap().name, "spiral mixer");
}

#[test]
fn a_price_is_that_of_what_is_used() {
    let supply = "supply salt\n  price 10 for 25 kg\n  waste 20 %\n".to_owned();
    let (bakery, problems) = read(&[supply]);
    assert_eq!(problems, []);
    // 10 / (25 kg × 0.8) is 0.5 for each kilogram used.
    assert_eq!(bakery.supplies[0].price_of_a_gram().unwrap().to_decimal_string(), "0.0005");
}

#[test]
fn mistakes() {
    insta::glob!("cards/*.dough", |path| {
        let text = fs::read_to_string(path).unwrap();
        let (_, problems) = read(std::slice::from_ref(&text));
        let shown: Vec<String> = problems.iter().map(|problem| shown(problem, &text)).collect();
        insta::with_settings!({ omit_expression => true }, {
            insta::assert_snapshot!(shown.join("\n\n"));
        });
    });
}

/// A card with a mistake is left out, alone: what is sound stays.
#[test]
fn of_cards_with_mistakes_the_sound_ones_are_read() {
    let text =
        fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cards/bounds.dough")).unwrap();
    let (bakery, problems) = read(&[text]);
    assert_eq!(problems.len(), 8);
    let names = |names: Vec<&String>| names.into_iter().cloned().collect::<Vec<_>>();
    assert_eq!(names(bakery.mixers.iter().map(|mixer| &mixer.name).collect()), ["spiral"]);
    assert_eq!(names(bakery.products.iter().map(|product| &product.name).collect()), ["of a refused mixer"]);
    assert_eq!((bakery.methods.len(), bakery.shifts.len(), bakery.keepings.len()), (0, 0, 0));
    assert_eq!(bakery.supplies.len(), 1);
}
