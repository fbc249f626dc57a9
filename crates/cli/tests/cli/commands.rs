//! Each command on a sound book.

use insta::assert_snapshot;

use crate::run::{book, folder, levamen, record};

fn run(arguments: &[&str]) -> String {
    record(&book(), arguments, "")
}

#[test]
fn list() {
    assert_snapshot!(run(&["list"]));
    assert_snapshot!(run(&["list", "--json"]));
}

#[test]
fn check_of_a_sound_book() {
    assert_snapshot!(run(&["check"]));
    assert_snapshot!(run(&["check", "--json"]));
}

#[test]
fn formula() {
    assert_snapshot!(run(&["formula", "Harbour loaf"]));
}

#[test]
fn formula_of_standard_input() {
    let dough = "dough On its own\n\nfinal dough\n  flour  1000 g\n  water  650 g\n  salt  20 g\n";
    assert_snapshot!(record(&book(), &["formula", "-"], dough));
}

#[test]
fn sheet() {
    assert_snapshot!(run(&["sheet", "Harbour loaf", "--as", "csv"]));
}

#[test]
fn tidy() {
    let untidy = "dough A\noverall\n    flour 100%   # all of it\n    water 65 %\n";
    let files = folder(&[("a.dough", untidy.as_bytes())]);
    assert_snapshot!(record(files.path(), &["tidy", "--check"], ""));
    assert_eq!(std::fs::read_to_string(files.path().join("a.dough")).unwrap(), untidy);
    assert_snapshot!(record(files.path(), &["tidy"], ""));
    assert_snapshot!(std::fs::read_to_string(files.path().join("a.dough")).unwrap());
    assert_snapshot!(record(files.path(), &["tidy", "--check"], ""));
    assert_snapshot!(record(files.path(), &["tidy", "-"], untidy));
}

#[test]
fn help() {
    for command in [&["--help"][..], &["formula", "--help"], &["scale", "--help"], &["sheet", "--help"]] {
        assert_snapshot!(run(command));
    }
    for command in ["list", "check", "why", "compare", "tidy", "import"] {
        assert_snapshot!(run(&[command, "--help"]));
    }
}

#[test]
fn completions_and_manual() {
    for shell in ["bash", "zsh", "fish"] {
        let script = levamen(&book(), &["completions", shell], b"");
        assert!(script.status.success() && script.stdout.len() > 500, "{shell}");
    }
    let manual = run(&["man"]);
    for command in ["list", "check", "formula", "scale", "why", "compare", "sheet", "tidy", "import"] {
        assert!(manual.contains(&format!(".SH levamen {command}")), "{command}");
    }
}

#[test]
fn wrong_calls() {
    assert_snapshot!(run(&["formula", "Harbor loaf"]));
    assert_snapshot!(run(&["formula", "harbour"]));
    assert_snapshot!(run(&["formula"]));
    assert_snapshot!(run(&["formula", "Harbour loaf", "--dough", "20kg"]));
    assert_snapshot!(run(&["formula", "Harbour loaf", "--free", "flour of polish"]));
    assert_snapshot!(run(&["scale", "Harbour loaf"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--dough", "22"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--dough", "22,5 kg"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--pieces", "2.5", "--piece", "900g"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--have", "polish=4 kg"]));
    assert_snapshot!(run(&["list", "--book", "no-such-folder"]));
    assert_snapshot!(run(&["list", "--book", "harbour.dough"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--dough", "0kg"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--pieces", "-1", "--piece", "900g"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--pieces", "0", "--piece", "900g"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--dough", "22kg", "--losing", "100%"]));
    assert_snapshot!(run(&["scale", "Harbour loaf", "--dough", "22kg", "--losing", "2"]));
    let dough = "dough Plain\n\nfinal dough\n  flour  100 %\n  water  65 %\n";
    assert_snapshot!(record(&book(), &["scale", "-", "--pieces", "36"], dough));
}
