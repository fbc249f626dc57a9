//! Files that are written: never one that is read, and no file is lost.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fs;
use std::os::unix::fs::{PermissionsExt as _, symlink};
use std::path::Path;
use std::time::{Duration, SystemTime};

use insta::assert_snapshot;
use tempfile::TempDir;

use crate::run::{folder, levamen, record};

const DOUGH: &[u8] = b"dough A\n\noverall\n  flour  100 %\n  water   65 %\n\nmake 10 kg of dough\n";
const SHEET: [&str; 3] = ["sheet", "A", "-o"];

fn sheet(book: &TempDir, more: &[&str]) -> std::process::Output {
    levamen(book.path(), &[&SHEET[..], more].concat(), b"")
}

fn refused(book: &TempDir, more: &[&str]) -> String {
    record(book.path(), &[&SHEET[..], more].concat(), "")
}

#[test]
fn a_file_that_is_there_stays_unless_it_is_to_be_replaced() {
    let book = folder(&[("a.dough", DOUGH), ("sheet.txt", b"old")]);
    assert_snapshot!(refused(&book, &["sheet.txt"]));
    assert_eq!(fs::read(book.path().join("sheet.txt")).unwrap(), b"old");
    assert!(sheet(&book, &["sheet.txt", "--replace"]).status.success());
    assert!(fs::read_to_string(book.path().join("sheet.txt")).unwrap().starts_with("A: bench sheet"));
}

#[test]
fn what_is_read_is_never_written() {
    let book = folder(&[("a.dough", DOUGH), ("orders.csv", b"date,customer,product,quantity\n")]);
    fs::hard_link(book.path().join("a.dough"), book.path().join("hard.txt")).unwrap();
    symlink("a.dough", book.path().join("soft.txt")).unwrap();
    for path in ["a.dough", "./a.dough", "hard.txt", "soft.txt", "new.dough"] {
        let output = sheet(&book, &[path, "--replace"]);
        assert_eq!(output.status.code(), Some(2), "{path}");
        assert_eq!(fs::read(book.path().join("a.dough")).unwrap(), DOUGH, "{path}");
    }
    assert_snapshot!(refused(&book, &["a.dough", "--replace"]));
    assert_snapshot!(refused(&book, &["hard.txt", "--replace"]));
    assert_snapshot!(refused(&book, &["new.dough"]));
    let day = ["day", "2026-11-27", "-o", "orders.csv", "--replace"];
    assert_snapshot!(record(book.path(), &day, ""));
    let own = ["convert", "A", "--to", "poolish", "-o", "a.dough", "--replace"];
    assert_snapshot!(record(book.path(), &own, ""));
    assert_eq!(fs::read(book.path().join("a.dough")).unwrap(), DOUGH);
}

#[test]
fn a_plot_replaces_nothing_without_a_word() {
    let dough = b"dough A\n\noverall\n  flour  100 %\n  water   65 %\n\nstage poolish, a poolish\n  takes  20 % of the flour\n  \
                  flour  100 %\n  water  100 %\n  instant yeast  0.1 %\n  ripens  12 h at 21 \xc2\xb0C\n";
    let book = folder(&[("a.dough", dough), ("plot.svg", b"old")]);
    assert_snapshot!(record(book.path(), &["ripen", "A", "--at", "18\u{b0}C", "--plot", "plot.svg"], ""));
    assert_snapshot!(record(
        book.path(),
        &["ripen", "A", "--at", "18\u{b0}C", "--plot", "a.dough", "--replace"],
        ""
    ));
    assert_eq!(fs::read(book.path().join("a.dough")).unwrap(), dough);
    assert_eq!(fs::read(book.path().join("plot.svg")).unwrap(), b"old");
}

#[test]
fn a_link_to_nothing_is_refused() {
    let book = folder(&[("a.dough", DOUGH)]);
    symlink("nowhere.txt", book.path().join("sheet.txt")).unwrap();
    assert_snapshot!(refused(&book, &["sheet.txt"]));
    assert_snapshot!(refused(&book, &["sheet.txt", "--replace"]));
    assert!(!book.path().join("nowhere.txt").exists());
}

#[test]
fn other_names_of_a_replaced_file_are_mentioned() {
    let book = folder(&[("a.dough", DOUGH), ("sheet.txt", b"old")]);
    fs::hard_link(book.path().join("sheet.txt"), book.path().join("copy.txt")).unwrap();
    let output = sheet(&book, &["sheet.txt", "--replace"]);
    assert!(output.status.success());
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("has other names (hard links)"), "{said}");
    assert_eq!(fs::read(book.path().join("copy.txt")).unwrap(), b"old");
}

#[test]
fn a_new_file_has_the_permissions_that_the_system_gives() {
    let book = folder(&[("a.dough", DOUGH)]);
    assert!(sheet(&book, &["sheet.txt"]).status.success());
    fs::write(book.path().join("plain.txt"), "").unwrap();
    let mode = |name: &str| fs::metadata(book.path().join(name)).unwrap().permissions().mode();
    assert_eq!(mode("sheet.txt"), mode("plain.txt"));
}

#[test]
fn what_a_killed_run_left_is_taken_away_and_what_another_run_writes_is_not() {
    let book = folder(&[("a.dough", DOUGH), (".levamen-old.tmp", b"half"), (".levamen-new.tmp", b"half")]);
    let old = fs::File::options().write(true).open(book.path().join(".levamen-old.tmp")).unwrap();
    old.set_modified(SystemTime::now() - Duration::from_secs(3600)).unwrap();
    assert!(sheet(&book, &["sheet.txt"]).status.success());
    let mut names: Vec<String> = names(book.path());
    names.sort();
    assert_eq!(names, [".levamen-new.tmp", "a.dough", "sheet.txt"]);
}

#[test]
fn two_at_once_leave_one_whole_file() {
    let book = folder(&[("a.dough", DOUGH)]);
    std::thread::scope(|scope| {
        let runs: Vec<_> = (0..8)
            .map(|_| scope.spawn(|| sheet(&book, &["sheet.txt", "--replace"]).status.success()))
            .collect();
        assert!(runs.into_iter().all(|run| run.join().unwrap()));
    });
    let text = fs::read_to_string(book.path().join("sheet.txt")).unwrap();
    assert!(text.starts_with("A: bench sheet") && text.ends_with(".\n"), "{text}");
    assert_eq!(names(book.path()).len(), 2);
}

#[test]
fn standard_input_stands_alone() {
    let book = folder(&[("a.dough", DOUGH)]);
    assert_snapshot!(record(book.path(), &["tidy", "-", "a.dough"], ""));
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}
