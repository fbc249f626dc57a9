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
fn files_with_nothing_in_them() {
    for text in ["", "\n\n", "\r\n\r\n"] {
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
