//! When a pre-ferment is ripe: every way to ask wrongly, and a picture of what grows.

use insta::assert_snapshot;

use crate::pages::workspace;
use crate::run::{folder, record};

fn ripen(arguments: &[&str]) -> String {
    record(&workspace().join("formulas"), &[&["ripen"], arguments].concat(), "")
}

const NIGHT: &str = "18:00 24°C, 22:00 20°C, 04:00 17°C";

#[test]
fn asked_wrongly() {
    let asked: [&[&str]; 20] = [
        &["Quayside loaf", "--seed", "900%"],
        &["Ferry bread"],
        &["Fogbank rye"],
        &["Fogbank rye", "half sour"],
        &["liquid culture"],
        &["Market day bread"],
        &["Harbour baguette", "--at", "70"],
        &["Harbour baguette", "--at", "70°C"],
        &["Harbour baguette", "--at", "21,5 °C"],
        &["Harbour baguette", "--at", "14h"],
        &["Harbour baguette", "--at", "120°C"],
        &["Harbour baguette", "--in", "0h"],
        &["Harbour baguette", "--in", "14"],
        &["Harbour baguette", "--seed", "10%"],
        &["Quayside loaf", "--yeast", "0.1%"],
        &["Quayside loaf", "--in", "5h"],
        &["Quayside loaf", "--at", "20°C", "--in", "9h", "--seed", "20%"],
        &["Quayside loaf", "--room", "18:00", "--ready", "04:30"],
        &["Quayside loaf", "--room", "18:00 4°C", "--ready", "4:30 am"],
        &["Quayside loaf", "--room", "18:00 4°C", "--ready", "04:30"],
    ];
    assert_snapshot!(asked.map(ripen).join("\n"));
}

#[test]
fn drawn() {
    let into_terminal = ["Quayside loaf", "--room", NIGHT, "--ready", "04:30", "--plot", "-"];
    assert_snapshot!(ripen(&[&into_terminal[..], &["--json"]].concat()));
    let folder = folder(&[]);
    let file = folder.path().join("levain.svg");
    let said = ripen(&["Quayside loaf", "--plot", &file.display().to_string()]);
    assert!(said.ends_with("--- exit 0\n"), "{said}");
    let drawn = std::fs::read_to_string(&file).unwrap();
    assert!(drawn.starts_with("<svg") && drawn.contains("ripeness"), "{drawn}");
}
