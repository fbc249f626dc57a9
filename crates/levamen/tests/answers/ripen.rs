//! When a pre-ferment is ripe: every question.

use insta::assert_snapshot;
use levamen_formula::{Book, Ingredient};
use levamen_language::YeastKind;
use levamen_views::plot;

use crate::asked::{book, demo};
use crate::question::Question;
use crate::questions::{Ripening, ripen};

/// What is said of the demo book.
fn said(question: &Question<Ripening>) -> String {
    demo().ask(question)
}

/// A room by the hour.
const NIGHT: [(&str, &str); 3] = [("18:00", "24°C"), ("22:00", "20°C"), ("04:00", "17°C")];

#[test]
fn a_levain() {
    let answers = [
        said(&ripen("Quayside loaf")),
        said(&ripen("Quayside loaf").at("18°C")),
        said(&ripen("Quayside loaf").stage("levain").at("65 °F").within("14 h")),
        said(&ripen("Quayside loaf").seed("10%")),
        said(&ripen("Quayside loaf").seed("10%").within("12h")),
        said(&ripen("Quayside loaf").seed("10%").at("9.5°C")),
    ];
    assert_snapshot!(answers.join("\n"));
}

/// Salt slows a levain, and no model counts it: that is said for each question, in the table too.
#[test]
fn salt_in_a_stage_is_said_not_to_be_counted() {
    let text = concat!(
        "dough Salted\n\noverall\n  bread flour  100 %\n  water  65 %\n  salt  2 %\n  fresh yeast  1 %\n\n",
        "stage sponge\n  takes  30 % of the flour\n  bread flour  100 %\n  water  60 %\n  salt  1 %\n  fresh yeast  0.3 %\n",
        "  ripens  12 h at 21 °C\n\nmake 10 kg of dough\n"
    );
    let book = book(&[("salted.dough", text)]);
    let answers = [ripen("Salted"), ripen("Salted").at("24°C"), ripen("Salted").at("33°C")]
        .map(|question| book.ask(&question));
    assert_snapshot!(answers.join("\n"));
}

#[test]
fn by_the_clock() {
    let answers = [
        said(&ripen("Quayside loaf").room(&NIGHT).ready("04:30")),
        said(&ripen("Quayside loaf").room(&NIGHT).set("20:00")),
        said(&ripen("Quayside loaf").room(&NIGHT)),
        said(&ripen("Quayside loaf").room(&NIGHT).set("20:00").ready("5:00")),
        said(&ripen("Harbour baguette").at("19°C").set("18:00").ready("05:00")),
        said(
            &ripen("Quayside loaf")
                .room(&[("17:00", "24°C"), ("19:00", "4°C"), ("04:00", "4°C"), ("05:00", "24°C")])
                .ready("12:00"),
        ),
    ];
    assert_snapshot!(answers.join("\n"));
}

#[test]
fn baker_s_yeast_and_a_rye_sour() {
    let answers = [
        said(&ripen("Harbour baguette")),
        said(&ripen("Harbour baguette").yeast("0.05%").at("70°F")),
        said(&ripen("Fogbank rye").stage("full sour").at("27°C")),
    ];
    assert_snapshot!(answers.join("\n"));
}

#[test]
fn as_json() {
    assert_snapshot!(said(&ripen("Harbour baguette").within("9h").at("72°F").json()));
    assert_snapshot!(said(&ripen("Quayside loaf").room(&NIGHT).ready("04:30").json()));
}

#[test]
fn drawn() {
    assert_snapshot!(said(&ripen("Quayside loaf").room(&NIGHT).ready("04:30").drawn()));
    let answers = [
        ripen("Quayside loaf"),
        ripen("Quayside loaf").at("18°C"),
        ripen("Quayside loaf").within("12h"),
        ripen("Quayside loaf").within("12h").at("20°C"),
        ripen("Harbour baguette").room(&NIGHT).set("20:00").ready("08:00"),
        ripen("Harbour baguette").room(&NIGHT),
    ];
    for asked in answers {
        let growth = asked.growth(&demo());
        let drawn = plot::svg(&growth);
        assert!(drawn.starts_with("<svg") && drawn.contains("ripeness"), "{}", asked.words);
        assert!(plot::terminal(&growth).lines().count() > 10, "{}", asked.words);
    }
}

/// Every yeast of the built-in pantry says of which kind it is, and nothing else does; its rye flours say that they are.
#[test]
fn the_yeasts_and_the_rye_flours_of_the_pantry_are_declared() {
    let (book, _) = Book::read::<&str>(&[]);
    let declared = |is_it: fn(&Ingredient) -> bool| -> Vec<&str> {
        book.pantry().iter().filter(|(_, known)| is_it(known)).map(|(_, known)| known.name.as_str()).collect()
    };
    let named =
        |is_it: fn(&str) -> bool| -> Vec<&str> { book.pantry().names().filter(|name| is_it(name)).collect() };
    assert_eq!(declared(|known| known.yeast.is_some()), named(|name| name.ends_with("yeast")));
    assert_eq!(
        declared(|known| known.is_rye),
        named(|name| name.contains("rye") && (name.ends_with("flour") || name.ends_with("meal")))
    );
    let kinds: Vec<_> = book.pantry().iter().filter_map(|(_, known)| known.yeast.as_ref()?.kind).collect();
    assert!(YeastKind::ALL.iter().all(|kind| kinds.contains(kind)));
}
