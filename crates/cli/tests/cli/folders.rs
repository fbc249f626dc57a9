//! Which files are the book.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fs;
use std::os::unix::fs::symlink;

use insta::assert_snapshot;
use tempfile::TempDir;

use crate::run::{folder, record};

const A: &[u8] = b"dough A\n\noverall\n  flour  100 %\n  water   65 %\n";
const RYE: &str = "dough Rye\n\noverall\n  rye flour  100 %\n  water       80 %\n";

fn book(own: &[(&str, &[u8])], below: &[(&str, &str)]) -> TempDir {
    let book = folder(own);
    for (path, text) in below {
        let path = book.path().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    book
}

fn run(book: &TempDir, arguments: &[&str]) -> String {
    record(book.path(), arguments, "")
}

#[test]
fn a_copy_in_a_folder_below_is_no_part_of_the_book() {
    let a = std::str::from_utf8(A).unwrap();
    let book = book(
        &[("a.dough", A), (".hidden.dough", b"dough A\n"), ("notes.txt", b"dough A\n")],
        &[("old/a.dough", a), ("backup/2025/a.dough", a), ("backup/2025/b.dough", a)],
    );
    assert_snapshot!(run(&book, &["check"]));
    assert_snapshot!(run(&book, &["list"]));
    assert_snapshot!(run(&book, &["formula", "A"]));
    assert_snapshot!(run(&book, &["tidy"]));
}

#[test]
fn folders_that_the_bakery_names_are_read() {
    let card = b"bakery Harbour\n  folder breads/rye\n\ndough A\n\noverall\n  flour  100 %\n  water   65 %\n";
    let book =
        book(&[("a.dough", card)], &[("breads/rye/rye.dough", RYE), ("breads/plain.dough", "dough A\n")]);
    assert_snapshot!(run(&book, &["list", "--json"]));
    assert_snapshot!(run(&book, &["check"]));
    // However deep.
    let deep = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10"].join("/");
    let card = format!("bakery Harbour\n  folder {deep}\n");
    let book = self::book(&[("a.dough", card.as_bytes())], &[(&format!("{deep}/rye.dough"), RYE)]);
    assert_snapshot!(run(&book, &["list"]));
}

#[test]
fn a_folder_that_cannot_be_read_is_a_problem() {
    let card = |folder: &str| format!("bakery Harbour\n  folder {folder}\n\n{RYE}");
    let of = |folder: &str| book(&[("a.dough", card(folder).as_bytes()), ("file", b"")], &[]);
    assert_snapshot!(run(&of("breads"), &["check"]));
    assert_snapshot!(run(&of("file"), &["check"]));
    assert_snapshot!(run(&of("../elsewhere"), &["check"]));
    assert_snapshot!(run(&of("/tmp"), &["check"]));
    let circle = of("circle");
    symlink("circle", circle.path().join("circle")).unwrap();
    assert_snapshot!(run(&circle, &["check"]));
    // A dough that is there can be used all the same, and it is said that something is missing.
    assert_snapshot!(run(&circle, &["formula", "Rye"]));
}

#[test]
fn nothing_but_folders() {
    let book = book(&[], &[("breads/rye.dough", RYE)]);
    assert_snapshot!(run(&book, &["check"]));
    assert_snapshot!(run(&book, &["formula", "Rye"]));
}
