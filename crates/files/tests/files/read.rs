//! Single files, within limits.

use std::fs::File;
use std::io::{Error, ErrorKind};

use levamen::{MAX_BYTES, TextId};
use levamen_files::{bytes, reason, text_beside, text_file};

use crate::folder;

#[test]
fn bytes_are_those_of_the_file() {
    let here = folder(&[("a.csv", b"a,b\n\xff"), ("empty.csv", b"")]);
    assert_eq!(bytes(&here.path().join("a.csv")).unwrap(), b"a,b\n\xff");
    assert_eq!(bytes(&here.path().join("empty.csv")).unwrap(), b"");
    let path = here.path().join("none.csv");
    let problem = bytes(&path).unwrap_err();
    assert_eq!(problem.message, format!("`{}` could not be read: it is not there", path.display()));
    let problem = bytes(here.path()).unwrap_err();
    assert_eq!(problem.message, format!("`{}` is a folder, not a file", here.path().display()));
}

#[test]
fn a_file_of_the_most_bytes_is_read_and_a_longer_one_is_not() {
    let here = folder(&[]);
    let of_length = |length: usize| {
        let path = here.path().join("long.dough");
        File::create(&path).unwrap().set_len(length as u64).unwrap();
        text_file(&path, "long.dough", TextId(0)).map(|text| text.len())
    };
    assert_eq!(of_length(MAX_BYTES).unwrap(), MAX_BYTES);
    let problem = of_length(MAX_BYTES + 1).unwrap_err();
    assert_eq!(
        (problem.code, problem.message.as_str()),
        ("too-long", "`long.dough` is 33 MB long; at most 32 MB are read")
    );
}

#[test]
fn the_name_of_a_file_stands_in_what_is_wrong_with_its_bytes() {
    let here = folder(&[("a.dough", b"dough A\n  \xe9t\xe9\n")]);
    let problem = text_file(&here.path().join("a.dough"), "a.dough", TextId(0)).unwrap_err();
    assert_eq!(problem.code, "not-utf-8");
    assert!(problem.message.starts_with("`a.dough`: line 2"), "{}", problem.message);
}

#[cfg(unix)]
#[test]
fn a_device_is_not_waited_for() {
    let problem = text_file("/dev/zero".as_ref(), "zero.dough", TextId(0)).unwrap_err();
    assert_eq!(problem.message, "`zero.dough` is a pipe or a device, not a file");
}

#[test]
fn a_text_beside_the_book_keeps_its_name_also_where_it_cannot_be_read() {
    let here = folder(&[("stock.csv", b"\xef\xbb\xbfingredient,on hand\n")]);
    let there = text_beside(&here.path().join("stock.csv"));
    assert_eq!(there.text.unwrap(), "ingredient,on hand\n");
    let path = here.path().join("none.csv");
    let gone = text_beside(&path);
    assert_eq!(gone.name, path.display().to_string());
    assert_eq!(gone.text.unwrap_err().code, "not-read");
}

#[test]
fn reasons_are_words_without_the_number_of_the_system() {
    assert_eq!(reason(&ErrorKind::NotFound.into()), "it is not there");
    assert_eq!(reason(&ErrorKind::PermissionDenied.into()), "it is not yours to read");
    assert_eq!(reason(&ErrorKind::NotADirectory.into()), "it is a file, not a folder");
    assert_eq!(reason(&Error::other("the disk was taken out (os error 5)")), "the disk was taken out");
    assert_eq!(reason(&Error::other("the disk was taken out")), "the disk was taken out");
}
