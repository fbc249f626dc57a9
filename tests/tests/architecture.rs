//! The dough that `docs/architecture.md` follows has the figures that the page gives.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fs;
use std::path::Path;

use levamen_balance::Balancer;
use levamen_formula::{Book, Composition, EquationOrigin, Item, build_equations};
use levamen_language::TextId;
use levamen_quantity::Exact;

/// The texts of the demo book.
fn demo_book() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../formulas");
    let mut files: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "dough"));
    files.sort();
    files.iter().map(|file| fs::read_to_string(file).unwrap()).collect()
}

#[test]
fn the_loaf_has_24_equations_of_which_its_file_states_ten() {
    let texts = demo_book();
    let layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, problems) = Book::read(&[&layer]);
    assert_eq!(problems, []);
    let id = book.find("Quayside loaf").unwrap();
    let formula = book.entry(id).unwrap().formula.as_ref().unwrap();

    let mut balancer = Balancer::new(&book);
    let culture = balancer.balance(book.find("liquid culture").unwrap()).unwrap();
    let parts = culture.overall.iter().map(|row| (row.ingredient, row.share.fraction().clone()));
    let culture = Composition::from_weights(parts, book.pantry()).unwrap();
    let half = Exact::ratio(1, 2).unwrap();
    assert_eq!((culture.flour(), culture.water()), (&half, &half));

    let composition = |item| matches!(item, Item::Seed(..)).then_some(&culture);
    let equations = build_equations(formula, book.pantry(), composition, &[]).unwrap();
    assert_eq!((equations.variables().len(), equations.all().len()), (24, 24));
    let stated =
        equations.all().iter().filter(|equation| matches!(equation.origin, EquationOrigin::Stated(_)));
    assert_eq!(stated.count(), 10);

    let balance = balancer.balance(id).unwrap();
    let levain = balance.stages.iter().find(|stage| stage.name == "levain").unwrap();
    assert_eq!(levain.own_flour.fraction(), &Exact::ratio(9, 55).unwrap());
}
