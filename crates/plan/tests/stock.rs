//! What is on hand is read by the names of its columns, and what cannot be read is told line by line.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_formula::Book;
use levamen_language::{Problem, TextId};
use levamen_plan::read_stock;

fn book() -> Book {
    Book::read(&[&[(TextId(0), "ingredient tide ale\n")]]).0
}

/// A problem as a reader meets it, with the words that it points at.
fn told(problem: &Problem, text: &str) -> String {
    let labels = problem.primary.iter().chain(&problem.secondary);
    let labels = labels.map(|label| format!("\n  `{}` {}", label.place.span.of(text), label.text));
    let notes = problem.notes.iter().map(|note| format!("\n  note: {note}"));
    let help = problem.help.iter().map(|help| format!("\n  help: {help}"));
    let rest: String = labels.chain(notes).chain(help).collect();
    format!("[{}] {}{rest}", problem.code, problem.message)
}

fn refused(text: &str) -> String {
    let problems = read_stock(TextId(0), text, book().pantry()).unwrap_err();
    problems.iter().map(|problem| told(problem, text)).collect::<Vec<_>>().join("\n\n")
}

#[test]
fn rows_are_read_in_any_unit_and_any_order_of_columns() {
    let book = book();
    let text = "\u{feff}shelf,On hand,Ingredient\r\nA,12.5 kg,rye flour\r\n,,\r\nB,8oz,\"tide  ale\"\r\nC,0 kg,Salt\r\nC,2 l,water\r\n";
    let stock = read_stock(TextId(0), text, book.pantry()).unwrap();
    let name = |id| book.pantry().get(id).unwrap().name.clone();
    let told: Vec<String> =
        stock.iter().map(|stock| format!("{} {}", name(stock.ingredient), stock.mass.grams())).collect();
    assert_eq!(told, ["rye flour 12500", "tide ale 226.796185", "salt 0", "water 1996"]);
}

#[test]
fn rows_that_are_wrong_are_all_told() {
    insta::assert_snapshot!(refused(
        "ingredient,on hand\nrye flor,4 kg\nsalt,4 kg\n,3 kg\nwater,\nSALT,5 kg\nsugar,lots\nsugar,4\nsugar,4 l\n\
         sugar,10 %\nsugar,rest\nsugar,-3 kg\nsugar,\"1,5 kg\"\nsugar,1,5 kg\nsugar,1e5 kg\nsugar,4 kg of flour\n"
    ));
}

#[test]
fn tables_that_are_none() {
    let texts = [
        "",
        "ingredient,on hand\n",
        "ingredient;on hand\nsalt;4 kg\n",
        "what,on hand\nsalt,4 kg\n",
        "ingredient,on hand,On Hand\nsalt,4 kg,5 kg\n",
    ];
    insta::assert_snapshot!(texts.map(refused).join("\n\n"));
}
