//! Texts that are no dough: each is told its place and how to mend it, and nothing is written.

use std::time::{Duration, Instant};

use insta::assert_snapshot;

use crate::run::{folder, levamen, record};

/// What `check` says of a book with one file.
fn check(bytes: &[u8]) -> String {
    let files = folder(&[("dough.dough", bytes)]);
    record(files.path(), &["check"], "")
}

#[test]
fn not_utf_8() {
    assert_snapshot!(check(b"dough Caf\xe9 loaf\n\noverall\n  flour  100 %\n"));
}

#[test]
fn a_file_of_100_mb() {
    let files = folder(&[]);
    let path = files.path().join("huge.dough");
    std::fs::File::create(&path).unwrap().set_len(100 << 20).unwrap();
    assert_snapshot!(record(files.path(), &["check"], ""));
    assert_snapshot!(record(files.path(), &["tidy", "huge.dough"], ""));
}

#[test]
fn standard_input_without_end() {
    let dough = b"# this dough is too long\n".repeat(2 << 20);
    let output = levamen(folder(&[]).path(), &["formula", "-"], &dough);
    assert_eq!(output.status.code(), Some(1));
    assert_snapshot!(String::from_utf8_lossy(&output.stderr));
}

#[test]
fn nested_10_000_deep() {
    let stage = |depth: usize, indent: &str| format!("{}stage s{depth}, a levain\n", indent.repeat(depth));
    let text =
        "dough Deep\n".to_owned() + &(0..1200).map(|depth| stage(depth, " ")).collect::<Vec<_>>().concat();
    let start = Instant::now();
    assert_snapshot!(check(text.as_bytes()));
    // Ten thousand levels by tabs fit in the file that may be read.
    let text =
        "dough Deep\n".to_owned() + &(0..7000).map(|depth| stage(depth, "\t")).collect::<Vec<_>>().concat();
    let output = levamen(folder(&[("deep.dough", text.as_bytes())]).path(), &["check"], b"");
    assert_eq!(output.status.code(), Some(1));
    assert!(start.elapsed() < Duration::from_secs(20), "{:?}", start.elapsed());
}

#[test]
fn numbers_that_are_none() {
    let digits = "1".repeat(40);
    for amount in
        ["NaN %", "inf %", "-5 %", "0 %", &format!("{digits} %"), "1,5 %", "1.000,5 g", "1 000 g", "1e3 g"]
    {
        assert_snapshot!(check(
            format!("dough A\n\noverall\n  flour  100 %\n  water  {amount}\n").as_bytes()
        ));
    }
}

#[test]
fn units_that_are_missing_or_mixed() {
    for amount in ["65", "65 % g", "3 kg 200 g", "65 °C", "65 h", "65 gr", "2 cups"] {
        assert_snapshot!(check(
            format!("dough A\n\noverall\n  flour  100 %\n  water  {amount}\n").as_bytes()
        ));
    }
}

#[test]
fn doughs_that_cannot_be() {
    let doughs = [
        "dough Dry\n\noverall\n  flour  100 %\n  water  50 %\n\nstage poolish\n  takes  60 % of the flour\n  flour  100 %\n  water  100 %\n",
        "dough Sum\n\noverall\n  white flour  80 %\n  rye flour  25 %\n  water  65 %\n",
        "dough Ring\n\nstage levain\n  flour  100 g\n  water  100 g\n  levain  20 g\n\nfinal dough\n  flour  500 g\n  levain  100 g\n",
        "dough A\n\noverall\n  flour  100 %\n  water  65 %\n\ndough A\n\noverall\n  flour  100 %\n  water  70 %\n",
        "dough A\n\noverall\n  flour  100 %\n  water  65 %\n  levain  20 %\n\nstage levain\n  flour  100 %\n  water  100 %\n",
        "dough A\n\noverall\n  flour  100 %\n  wotar  65 %\n",
    ];
    for dough in doughs {
        assert_snapshot!(check(dough.as_bytes()));
    }
}

#[test]
fn a_sound_dough_in_a_book_with_problems() {
    let files = folder(&[
        ("good.dough", b"dough Good\n\noverall\n  flour  100 %\n  water  65 %\n"),
        ("wrong.dough", b"dough Wrong\n\noverall\n  flour  100 %\n  water  65\n"),
    ]);
    assert_snapshot!(record(files.path(), &["formula", "Good"], ""));
    assert_snapshot!(record(files.path(), &["formula", "Wrong"], ""));
    assert_snapshot!(record(files.path(), &["check", "--json"], ""));
    assert_snapshot!(record(files.path(), &["tidy"], ""));
}

#[test]
fn odd_texts_do_not_break_the_drawing() {
    let long = format!("dough A\n\noverall\n  flour  100 %\n  {}  65\n", "x".repeat(3000));
    let wide = "dough ブール\n\noverall\n\tflour  100 %\n\tWäßer  65\n";
    for text in
        [long.as_str(), wide, "", "\n\n", "dough", "\u{feff}dough A\n\noverall\n  flour 1\n", "\r\n\r\n"]
    {
        assert_snapshot!(check(text.as_bytes()));
    }
}

#[test]
fn standard_input_holds_one_dough() {
    let book = folder(&[]);
    for text in [
        "",
        "culture a\n  flour  100 %\n  water  100 %\n",
        "dough A\n\noverall\n  flour 100 %\n\ndough B\n\noverall\n  flour 100 %\n",
    ] {
        assert_snapshot!(record(book.path(), &["formula", "-"], text));
    }
}

#[test]
fn a_book_whose_files_cannot_be_read() {
    let files = folder(&[("pastry.dough", b"dough Caf\xe9 loaf\n")]);
    assert_snapshot!(record(files.path(), &["list"], ""));
    assert_snapshot!(record(files.path(), &["list", "--json"], ""));
}

#[test]
#[cfg(unix)]
fn a_pipe_among_the_files_keeps_nobody_waiting() {
    let files = folder(&[("good.dough", b"dough Good\n\noverall\n  flour  100 %\n  water  65 %\n")]);
    let pipe = files.path().join("pipe.dough");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.is_ok_and(|status| status.success()), "the system makes a pipe");
    assert_snapshot!(record(files.path(), &["check"], ""));
    assert_snapshot!(record(files.path(), &["tidy", "pipe.dough"], ""));
}

#[test]
fn a_stage_without_a_kind_is_one_mistake() {
    let text = b"dough A\n\noverall\n  strong white flour 100 %\n  water 70 %\n\nstage sour\n  takes 5 % of the flour\n  \
                 strong white flour 100 %\n  water 100 %\n\nmake 10 kg of dough\n";
    let book = folder(&[("a.dough", text)]);
    let told = record(book.path(), &["check"], "");
    assert_eq!(
        (told.matches("error[").count(), told.matches("error[missing-kind]").count()),
        (1, 1),
        "{told}"
    );
}
