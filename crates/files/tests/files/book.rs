//! Which files are the book.

use std::fs;

use levamen::{Problem, Silent, TextId};
use levamen_files::{BookFiles, FileError, is_dough_file};
use tempfile::TempDir;

use crate::{Sums, folder};

const RYE: &[u8] = b"dough Rye\n\noverall\n  rye flour  100 %\n  water  80 %\n";

fn shown(files: &BookFiles) -> Vec<&str> {
    files.files.iter().map(|file| file.shown.as_str()).collect()
}

fn codes(problems: &[Problem]) -> Vec<&'static str> {
    problems.iter().map(|problem| problem.code).collect()
}

fn read(book: &TempDir) -> BookFiles {
    BookFiles::read(book.path(), &Silent).unwrap()
}

/// A book whose bakery names some folders; a dough is in the book, in `breads` and in `old`.
fn naming(folders: &[&str]) -> TempDir {
    let lines = folders.iter().map(|folder| format!("  folder {folder}\n")).collect::<Vec<_>>().concat();
    let card = format!("bakery Harbour\n{lines}");
    folder(&[("a.dough", card.as_bytes()), ("breads/rye.dough", RYE), ("old/rye.dough", RYE)])
}

#[test]
fn files_are_in_the_order_of_their_names_and_of_nothing_else() {
    let book = folder(&[("b.dough", RYE), ("a.dough", RYE), (".c.dough", RYE), ("d.txt", RYE), ("e", RYE)]);
    fs::create_dir(book.path().join("folder.dough")).unwrap();
    let mut files = read(&book);
    assert_eq!(shown(&files), ["a.dough", "b.dough"]);
    assert_eq!(files.path_of(TextId(1)).unwrap(), book.path().join("b.dough"));
    assert_eq!(files.path_of(TextId(2)), None);
    let (texts, problems) = files.take_texts();
    let texts: Vec<(&str, &str)> =
        texts.iter().map(|text| (text.name.as_str(), text.text.as_deref().unwrap())).collect();
    let rye = std::str::from_utf8(RYE).unwrap();
    assert_eq!(texts, [("a.dough", rye), ("b.dough", rye)]);
    assert!(problems.is_empty());
}

#[test]
fn a_folder_that_is_named_is_read_once_however_it_is_written() {
    let as_is = naming(&["breads"]);
    assert_eq!(shown(&read(&as_is)), ["a.dough", "breads/rye.dough"]);
    let again = naming(&["breads", "./breads", "breads/."]);
    let files = read(&again);
    assert_eq!(shown(&files), ["a.dough", "breads/rye.dough"]);
    assert!(files.problems.is_empty());
    // What was named is not passed over; `old` is.
    let passed = files.passed_over(again.path());
    assert_eq!(passed[0].message, "not part of the book: 1 dough file in `old`");
    assert_eq!(passed.len(), 1);
}

#[test]
fn the_folder_of_the_book_is_not_read_twice() {
    for own in [".", "./."] {
        let files = read(&naming(&[own]));
        assert_eq!(shown(&files), ["a.dough"]);
        assert!(files.problems.is_empty());
    }
}

#[test]
fn a_folder_outside_of_the_book_or_nowhere_is_a_problem() {
    for outside in ["..", "../old", "breads/../..", "/tmp"] {
        let files = read(&naming(&[outside]));
        assert_eq!(
            (shown(&files), codes(&files.problems)),
            (vec!["a.dough"], vec!["folder-outside"]),
            "{outside}"
        );
    }
    for nowhere in ["cakes", "a.dough"] {
        let files = read(&naming(&[nowhere]));
        assert_eq!(
            (shown(&files), codes(&files.problems)),
            (vec!["a.dough"], vec!["folder-unread"]),
            "{nowhere}"
        );
    }
}

#[test]
fn what_is_passed_over_is_counted_folder_by_folder() {
    let mut files: Vec<(String, &[u8])> = (1..=7).map(|number| (format!("f{number}/a.dough"), RYE)).collect();
    files.extend([
        ("f1/b.dough".to_owned(), RYE),
        (".git/c.dough".to_owned(), RYE),
        ("f2/d.txt".to_owned(), RYE),
    ]);
    let files: Vec<(&str, &[u8])> = files.iter().map(|(path, bytes)| (path.as_str(), *bytes)).collect();
    let book = folder(&files);
    let passed = read(&book).passed_over(book.path());
    assert_eq!(codes(&passed), ["folder-not-named"]);
    assert_eq!(
        passed[0].message,
        "not part of the book: 2 dough files in `f1`, 1 dough file in `f2`, 1 dough file in `f3`, 1 dough file in `f4`, \
         1 dough file in `f5`, those of 2 more folders"
    );
}

#[test]
fn a_file_that_is_no_text_leaves_the_others_readable() {
    let book = folder(&[("a.dough", b"dough \xff\n"), ("b.dough", b"\xef\xbb\xbfdough B\n")]);
    let (texts, problems) = read(&book).take_texts();
    assert!(problems.is_empty(), "it is the file's own");
    assert_eq!(texts[0].text.as_ref().unwrap_err().code, "not-utf-8");
    assert_eq!(texts[1].text.as_deref().unwrap(), "dough B\n", "without the byte order mark");
}

#[test]
fn no_book_is_said_to_be_a_file_or_not_there() {
    let book = folder(&[("a.dough", RYE)]);
    let of = |path: &str| BookFiles::read(&book.path().join(path), &Silent).err().unwrap();
    assert!(matches!(of("none"), FileError::NoBook { reason, .. } if reason == "it is not there"));
    let FileError::BookIsFile { folder, .. } = of("a.dough") else { panic!("a file is no book") };
    assert_eq!(folder, book.path().display().to_string());
}

#[test]
fn files_that_are_named_one_by_one_are_shown_as_they_are_named() {
    let book = folder(&[("a.dough", RYE)]);
    let (there, gone) = (book.path().join("a.dough"), book.path().join("b.dough"));
    let files = BookFiles::named(&[there.clone(), gone]);
    assert_eq!(files.files[0].shown, there.display().to_string());
    assert!(files.files[0].text.is_ok());
    assert_eq!(files.files[1].text.as_ref().unwrap_err().code, "not-read");
    let by_path = read(&book).named_by_path();
    assert_eq!(shown(&by_path), [there.display().to_string().as_str()]);
}

#[test]
fn every_file_is_expected_and_done() {
    let sums = Sums::default();
    BookFiles::read(naming(&["breads", "old"]).path(), &sums).unwrap();
    assert_eq!((sums.expected.into_inner(), sums.done.into_inner()), (3, 3));
}

#[test]
fn a_dough_file_is_told_by_its_name() {
    let is = |name: &str| is_dough_file(name.as_ref());
    assert_eq!(["a.dough", "b/a.b.dough"].map(is), [true; 2]);
    assert_eq!(["a.DOUGH", ".a.dough", "dough", ".dough", "a.dough~", "a.dough/b"].map(is), [false; 6]);
}
