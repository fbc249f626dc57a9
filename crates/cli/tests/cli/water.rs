//! The dough's temperature and room in the tub: every way to ask wrongly, and what comes from cards and noted batches.

use insta::assert_snapshot;

use crate::pages::workspace;
use crate::run::{folder, record};

fn ask(command: &str, dough: &str, options: &str) -> String {
    let options: Vec<&str> = options.split_whitespace().collect();
    record(&workspace().join("formulas"), &[&[command, dough], options.as_slice()].concat(), "")
}

fn water(dough: &str, options: &str) -> String {
    ask("water", dough, options)
}

#[test]
fn asked_wrongly() {
    let loaf = "Quayside loaf";
    let asked = [
        water(loaf, "--dough-at 75 --flour 21°C --room 22°C --friction 8°C"),
        water(loaf, "--dough-at 75°C --flour 21°C --room 22°C --friction 8°C"),
        water(loaf, "--dough-at 24°C --flour 21°C --room 22°C --friction 8"),
        water(loaf, "--dough-at 24°C --flour 21°C --room 22°C --friction -1°C --tap -3°C"),
        water(loaf, "--dough-at 40°C --flour 2°C --room 2°C --friction 0°C"),
        water(loaf, "--dough-at 4°C --flour 45°C --room 45°C --friction 90°C --tap 20°C"),
        water(loaf, "--dough-at 20°C --flour 28°C --room 29°C --friction 30°C"),
        water("Regatta brioche", "--dough-at 24°C --flour 21°C --room 22°C --friction 8°C"),
        water("Old Jetty farmhouse", "--dough-at 24°C --flour 21°C --room 22°C --friction 8°C --dough 0kg"),
    ];
    assert_snapshot!(asked.join("\n"));
}

#[test]
fn tubs() {
    let asked = [
        ask("tub", "Quayside loaf", "--tubs 5l,10l,20l"),
        ask("tub", "Fogbank rye", "--tubs 20l,40l --dough 60kg"),
        ask("tub", "Quayside loaf", "--tubs 18l,2l --json"),
        ask("tub", "Quayside loaf", "--tubs 5,10"),
        ask("tub", "Quayside loaf", "--tubs 5kg"),
        ask("tub", "Quayside loaf", "--tubs 0l"),
        ask("tub", "Quayside loaf", "--tubs 0.0000001ml"),
        ask("tub", "Ballast tin", "--tubs 5l"),
    ];
    assert_snapshot!(asked.join("\n"));
}

const BATCHES: &str = "mixer,dough,measured,flour,room,preferment,water\n\
    Spiral,40 kg,26 °C,21 °C,22 °C,20 °C,25 °C\nspiral,38 kg,25.5 °C,21 °C,22 °C,20 °C,24 °C\n\
    spiral,41 kg,78 °F,70 °F,72 °F,68 °F,77 °F\nspiral,40 kg,61 °C,21 °C,22 °C,20 °C,25 °C\n\
    spiral,9 kg,27 °C,21 °C,22 °C,,20 °C\nfork,40 kg,24 °C,21 °C,22 °C,20 °C,25 °C\n";

/// Asks for water with a file of noted batches.
fn noted(batches: &str, mixer: &str) -> String {
    let files = folder(&[("batches.csv", batches.as_bytes())]);
    let book = workspace().join("formulas").canonicalize().map(|path| path.display().to_string());
    let options = "--dough-at 25°C --flour 22°C --room 23°C --preferment 21°C --noted batches.csv";
    let options = options.split(' ').chain(["--mixer", mixer, "--dough", "36kg", "--book"]);
    let asked: Vec<&str> = ["water", "Quayside loaf"].into_iter().chain(options).collect();
    let said = record(files.path(), &[&asked[..], &[book.as_deref().unwrap_or_default()]].concat(), "");
    said.replace(book.as_deref().unwrap_or_default(), "BOOK")
}

#[test]
fn friction_learned_from_noted_batches() {
    let said = [
        noted(BATCHES, "Spiral"),
        noted(BATCHES, "Planetary"),
        noted(
            "mixer,dough,measured,flour,room,water\nspiral,40,26 °C,21 °C,22 °C,18 °C\nspiral,40 kg,26 °C,21 °C,22 h,18\n",
            "spiral",
        ),
        noted("mixer,dough\n", "spiral"),
        noted("mixer,dough,flour,room,water\nspiral,40 kg,21 °C,22 °C,18 °C\n", "spiral"),
    ];
    assert_snapshot!(said.join("\n"));
}

#[test]
fn what_is_not_given_comes_from_the_cards() {
    let bare =
        folder(&[("book.dough", b"dough Loaf\n\noverall\n  strong white flour  100 %\n  water  70 %\n")]);
    let ask = |words: &str| record(bare.path(), &words.split(' ').collect::<Vec<_>>(), "");
    let asked = [
        water("Quayside loaf", "--time 22:15"),
        water("Quayside loaf", ""),
        water("Quayside loaf", "--room retarder --friction 8°C"),
        self::ask("tub", "Quayside loaf", ""),
        ask("water Loaf"),
        ask("water Loaf --dough-at 24°C"),
        ask("water Loaf --dough-at 24°C --flour 20°C"),
        ask("water Loaf --dough-at 24°C --flour 20°C --room 21°C"),
        ask("water Loaf --dough-at 20°C --flour 28°C --room 29°C --friction 30°C"),
        ask("tub Loaf"),
    ];
    assert_snapshot!(asked.join("\n"));
}

/// A batch may name its dough, and that has to be one.
#[test]
fn a_noted_batch_names_its_dough() {
    let batches = "mixer,of,dough,measured,flour,room,water\nspiral,plane,20 kg,26 °C,20 °C,22 °C,18 °C\n";
    let dough = "dough Plain\n\noverall\n  white flour  100 %\n  water  65 %\n  salt  2 %\n\nmake 20 kg of dough\n\n\
                 dough Wet\n\noverall\n  white flour  100 %\n  water  90 %\n\nmake 20 kg of dough\n";
    let book = folder(&[("a.dough", dough.as_bytes()), ("batches.csv", batches.as_bytes())]);
    let asked = "water Wet --dough-at 26C --flour 20C --room 22C --noted batches.csv --mixer spiral";
    let asked: Vec<&str> = asked.split(' ').collect();
    assert_snapshot!(record(book.path(), &asked, ""));
}
