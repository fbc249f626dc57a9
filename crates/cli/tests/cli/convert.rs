//! A dough with another pre-ferment: what is written, what is read on, and every way to ask wrongly.

use std::fs;

use insta::assert_snapshot;

use crate::run::{book, folder, levamen, record};

const BENCH: &str = "\
dough Bench loaf

overall
  strong white flour  100 %
  water                70 %
  salt                  2 %
  fresh yeast           1 %

stage poolish
  takes                20 % of the flour
  strong white flour  100 %
  water               100 %
  fresh yeast         0.2 %

dough Milk rolls

overall
  strong white flour  100 %
  whole milk           62 %
";

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
fn wrong_calls() {
    let files = folder(&[("bench.dough", BENCH.as_bytes())]);
    assert_snapshot!(record(files.path(), &["convert", "Milk rols", "--to", "old dough"], ""));
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
