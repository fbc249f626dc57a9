//! A dough with another pre-ferment: what is printed, what is written, and everything that cannot be.

use std::fs;

use insta::assert_snapshot;

use crate::run::{book, folder, levamen, record};

/// A dough with a soaker, two pre-ferments, one of them in two builds, and cultures that fit more or less.
const BENCH: &str = "\
dough Bench loaf

overall
  strong white flour   80 %
  wholemeal flour      20 %
  water                70 %
  salt                  2 %
  sunflower seeds      10 %
  fresh yeast           1 %

stage poolish
  takes                20 % of the flour
  strong white flour  100 %
  water               100 %
  fresh yeast         0.2 %

stage levain
  takes                15 % of the flour
  strong white flour  100 %
  water                60 %
  stage first build, a levain
    takes                 5 % of the flour
    wholemeal flour     100 %
    water               100 %
    from wheat culture   20 %

stage soaker
  sunflower seeds  100 % of the sunflower seeds
  water            100 % of its sunflower seeds

dough Milk rolls

overall
  strong white flour  100 %
  whole milk           62 %
  salt                1.8 %
  fresh yeast           3 %

culture wheat culture
  strong white flour  100 %
  water               100 %

culture rye culture
  medium rye flour  100 %
  water             100 %
";

fn bench(arguments: &[&str]) -> String {
    let files = folder(&[("bench.dough", BENCH.as_bytes())]);
    record(files.path(), &[&["convert"], arguments].concat(), "")
}

#[test]
fn a_dough_to_keep_and_an_account_beside_it() {
    assert_snapshot!(record(&book(), &["convert", "Harbour loaf", "--to", "biga"], ""));
    assert_snapshot!(record(&book(), &["convert", "Quay levain", "--to", "straight"], ""));
    assert_snapshot!(record(&book(), &["convert", "Harbour loaf", "--to", "old dough", "--json"], ""));
}

#[test]
fn what_is_asked_for_is_taken() {
    let said = ["--share", "15%", "--hydration", "60 %", "--seed", "25%", "--culture", "wheat culture"];
    let more = ["--flour", "wholemeal flour", "--hours", "6", "--at", "77°F", "--name", "Bench  loaf two"];
    let to = ["Bench loaf", "--to", "stiff levain", "--stage", "poolish"];
    assert_snapshot!(bench(&[&to[..], &said, &more].concat()));
    assert_snapshot!(bench(&[&to[..], &["--culture", "rye culture", "--given-back"]].concat()));
    assert_snapshot!(bench(&[
        "Bench loaf",
        "--to",
        "sponge",
        "--stage",
        "levain",
        "--yeast",
        "instant yeast 0.1%"
    ]));
}

#[test]
fn a_dough_of_standard_input() {
    let text = "dough Note\n\nfinal dough\n  flour  3 kg\n  water  2 kg\n  salt  60 g\n  fresh yeast  50 g\n";
    assert_snapshot!(record(&book(), &["convert", "-", "--to", "poolish", "--hours", "3h"], text));
}

#[test]
fn what_was_converted_can_be_read_on() {
    let poolish = levamen(&book(), &["convert", "Quay levain", "--to", "poolish"], b"");
    assert!(poolish.status.success());
    let read = levamen(&book(), &["formula", "-"], &poolish.stdout);
    assert!(read.status.success(), "{}", String::from_utf8_lossy(&read.stderr));
    let tidied = levamen(&book(), &["tidy", "-"], &poolish.stdout);
    assert_eq!(tidied.stdout, poolish.stdout);
}

#[test]
fn a_file_is_replaced_only_where_that_is_said() {
    let files = folder(&[("bench.dough", BENCH.as_bytes()), ("kept.dough", b"dough Kept\n")]);
    let run = |more: &[&str]| {
        let to = ["convert", "Bench loaf", "--to", "poolish", "--stage", "poolish", "-o"];
        levamen(files.path(), &[&to[..], more].concat(), b"")
    };
    let refused = run(&["kept.dough"]);
    assert_eq!(refused.status.code(), Some(2));
    assert_eq!(fs::read(files.path().join("kept.dough")).unwrap(), b"dough Kept\n");
    assert_snapshot!(String::from_utf8(refused.stderr).unwrap());
    // What somebody wrote is never replaced, what was converted is.
    assert_eq!(run(&["kept.dough", "--replace"]).status.code(), Some(2));
    assert_eq!(fs::read(files.path().join("kept.dough")).unwrap(), b"dough Kept\n");
    assert!(run(&["made.dough"]).status.success());
    let made = fs::read_to_string(files.path().join("made.dough")).unwrap();
    assert!(made.contains("dough Bench loaf with poolish\n"));
    // Once more in the same place, but not under the same name in another.
    assert!(run(&["made.dough", "--replace"]).status.success());
    assert_eq!(run(&["new.dough"]).status.code(), Some(1));
    assert!(run(&["new.dough", "--name", "Another"]).status.success());
    assert_eq!(run(&["no-folder/new.dough"]).status.code(), Some(1));
}

#[test]
fn which_pre_ferment() {
    assert_snapshot!(bench(&["Bench loaf", "--to", "poolish"]));
    assert_snapshot!(bench(&["Bench loaf", "--to", "poolish", "--stage", "polish"]));
    assert_snapshot!(bench(&["Bench loaf", "--to", "poolish", "--stage", "first build"]));
    assert_snapshot!(bench(&["Bench loaf", "--to", "poolish", "--stage", "soaker"]));
    assert_snapshot!(bench(&["Milk rolls", "--to", "old dough", "--stage", "poolish"]));
    assert_snapshot!(bench(&["Milk rolls", "--to", "straight"]));
}

#[test]
fn what_the_dough_has_not() {
    let poolish = ["Bench loaf", "--to", "poolish", "--stage", "levain"];
    assert_snapshot!(bench(&[&poolish[..], &["--share", "80%"]].concat()));
    assert_snapshot!(bench(&[&poolish[..], &["--flour", "wholemeal flour", "--share", "30%"]].concat()));
    assert_snapshot!(bench(&[&poolish[..], &["--flour", "medium rye flour"]].concat()));
    assert_snapshot!(bench(&["Bench loaf", "--to", "old dough", "--stage", "levain"]));
    assert_snapshot!(bench(&["Bench loaf", "--to", "rye sour", "--stage", "levain"]));
    assert_snapshot!(bench(&["Milk rolls", "--to", "sponge"]));
}

#[test]
fn cultures() {
    let levain = ["Bench loaf", "--to", "stiff levain", "--stage", "poolish"];
    assert_snapshot!(bench(&[&levain[..], &["--culture", "rye culture"]].concat()));
    assert_snapshot!(bench(&[&levain[..], &["--culture", "weat culture"]].concat()));
    assert_snapshot!(bench(&[&levain[..], &["--culture", "Milk rolls"]].concat()));
    assert_snapshot!(bench(&[&levain[..], &["--hydration", "20%", "--seed", "100%"]].concat()));
    assert_snapshot!(bench(&["wheat culture", "--to", "poolish"]));
    let loaf = "dough Loaf\n\noverall\n  flour  100 %\n  water  65 %\n";
    let files = folder(&[("loaf.dough", loaf.as_bytes())]);
    assert_snapshot!(record(files.path(), &["convert", "Loaf", "--to", "liquid levain"], ""));
    let unsound = format!("{loaf}\nculture mother\n  flour  90 %\n  water  100 %\n");
    let files = folder(&[("loaf.dough", unsound.as_bytes())]);
    assert_snapshot!(record(files.path(), &["convert", "Loaf", "--to", "liquid levain"], ""));
}

#[test]
fn names() {
    assert_snapshot!(bench(&["Milk rols", "--to", "old dough"]));
    assert_snapshot!(bench(&["Milk rolls", "--to", "old dough", "--name", "Bench loaf"]));
    assert_snapshot!(bench(&["Milk rolls", "--to", "old dough", "--name", "Rolls, two"]));
}

#[test]
fn wrong_calls() {
    let poolish = ["Harbour loaf", "--to", "poolish"];
    let run = |more: &[&str]| record(&book(), &[&["convert"], &poolish[..], more].concat(), "");
    assert_snapshot!(record(&book(), &["convert", "Harbour loaf", "--to", "polish"], ""));
    assert_snapshot!(record(&book(), &["convert", "Harbour loaf", "--to", "levain"], ""));
    assert_snapshot!(record(&book(), &["convert", "Harbour loaf", "--to", "gravy"], ""));
    let levain = ["convert", "Harbour loaf", "--to", "liquid levain"];
    for wrong in
        [&["--at", "70°C"][..], &["--at", "4°C"], &["--hours", "200"], &["--seed", "0%"], &["--seed", "900%"]]
    {
        assert_snapshot!(record(&book(), &[&levain[..], wrong].concat(), ""));
    }
    for wrong in [
        &["--share", "0%"][..],
        &["--share", "120%"],
        &["--share", "20"],
        &["--share", "2 kg"],
        &["--hydration", "1,5%"],
        &["--seed", "20%"],
        &["--given-back"],
        &["--hours", "0"],
        &["--hours", "12 to 16"],
        &["--hours", "night"],
        &["--hours", "100"],
        &["--at", "70"],
        &["--at", "70°C"],
        &["--at", "-5°C"],
        &["--yeast", "butter"],
        &["--yeast", "fresh yeast 3 g"],
    ] {
        assert_snapshot!(run(wrong));
    }
}

/// A bound that the new dough would break, and one of the yeast, which is counted anew.
#[test]
fn what_is_wanted_of_the_dough() {
    let loaf = "dough Loaf\n\noverall\n  flour  100 %\n  water  65 %\n  fresh yeast  2 %\n\nwant\n";
    for bound in ["effective hydration at least  66 %", "fresh yeast at least  1.9 %"] {
        let files = folder(&[("loaf.dough", format!("{loaf}  {bound}\n").as_bytes())]);
        assert_snapshot!(record(files.path(), &["convert", "Loaf", "--to", "poolish"], ""));
    }
}
