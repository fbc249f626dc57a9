//! Files that are read and written: whole or not at all.

use std::fs;

use insta::assert_snapshot;

use crate::run::{book, folder, levamen, record};

#[test]
fn a_sheet_is_written_whole() {
    let files = folder(&[("sheet.csv", b"old")]);
    let path = files.path().join("sheet.csv");
    let shown = path.to_str().unwrap();
    let output = levamen(&book(), &["sheet", "Harbour loaf", "--as", "csv", "-o", shown, "--replace"], b"");
    assert!(output.status.success() && output.stdout.is_empty());
    let text = fs::read_to_string(&path).unwrap();
    assert!(text.starts_with("dough,") && text.ends_with("\r\n"));
    // Nothing else is left in the folder.
    assert_eq!(fs::read_dir(files.path()).unwrap().count(), 1);
}

#[test]
fn what_cannot_be_written_changes_nothing() {
    let files = folder(&[("keep.txt", b"old")]);
    fs::create_dir(files.path().join("sheet")).unwrap();
    // What is told is the file that was asked for, not the temporary one.
    let wrong = record(&book(), &["sheet", "Harbour loaf", "-o", "no-such-folder/sheet.txt"], "");
    assert_snapshot!(wrong);
    let path = files.path().join("sheet");
    let output = levamen(&book(), &["sheet", "Harbour loaf", "--replace", "-o", path.to_str().unwrap()], b"");
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&output.stderr).contains("nothing was changed"));
    assert_eq!(fs::read_dir(files.path()).unwrap().count(), 2);
    // A dough with problems writes no sheet.
    let path = files.path().join("keep.txt");
    let dough = "dough A\n\noverall\n  flour 100 %\n  water 65\n";
    let output = levamen(files.path(), &["sheet", "-", "-o", path.to_str().unwrap()], dough.as_bytes());
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(fs::read(&path).unwrap(), b"old");
}

#[test]
fn a_tidied_file_keeps_its_permissions() {
    use std::os::unix::fs::PermissionsExt as _;
    let files = folder(&[("a.dough", b"dough A\noverall\n flour 100%\n water 65%\n")]);
    let path = files.path().join("a.dough");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o640)).unwrap();
    assert!(levamen(files.path(), &["tidy"], b"").status.success());
    assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
}

#[test]
fn colour_only_where_it_is_wanted() {
    let files = folder(&[("a.dough", b"dough A\n\noverall\n  flour  100 %\n  water  65\n")]);
    let output = levamen(files.path(), &["check"], b"");
    assert!(!output.stderr.contains(&0x1b), "no terminal, no colour");
}

#[test]
fn an_empty_book() {
    let files = folder(&[]);
    for arguments in [&["list"][..], &["check"], &["formula", "A"], &["tidy"], &["list", "--json"]] {
        assert_snapshot!(record(files.path(), arguments, ""));
    }
}
