//! Which files orders are read from.

use std::io::Read as _;
use std::path::PathBuf;

use levamen::Silent;
use levamen_files::{FileError, OrderFileKind, OrderFiles};

use crate::{Sums, folder};

const USUAL: [(&str, &[u8]); 3] = [("orders.csv", b"o1"), ("weekly.csv", b"w1"), ("exceptions.csv", b"e1")];

/// What the files of each kind hold: orders, weekly orders, exceptions.
fn held(files: &OrderFiles) -> [Vec<String>; 3] {
    files.read(&Silent, |sources| {
        [sources.orders, sources.standing, sources.exceptions].map(|kind| {
            let words = |source: &&dyn levamen::OrderSource| {
                let mut words = String::new();
                source.open().unwrap().read_to_string(&mut words).unwrap();
                words
            };
            kind.iter().map(words).collect()
        })
    })
}

#[test]
fn without_names_the_usual_files_are_read() {
    let book = folder(&USUAL);
    let files = OrderFiles::find([&[], &[], &[]], book.path()).unwrap();
    assert_eq!(held(&files), [["o1"], ["w1"], ["e1"]]);
    assert_eq!(files.left_out(), []);
    assert_eq!(files.paths().count(), 3);
}

#[test]
fn files_that_are_named_take_the_place_of_the_usual_one_of_their_kind() {
    let book = folder(&[USUAL[0], USUAL[1], ("mon.csv", b"o2"), ("tue.csv", b"o3")]);
    let named: Vec<PathBuf> = ["mon.csv", "tue.csv"].map(|name| book.path().join(name)).into();
    let files = OrderFiles::find([&named, &[], &[]], book.path()).unwrap();
    assert_eq!(held(&files), [vec!["o2", "o3"], vec!["w1"], vec![]]);
    assert_eq!(files.left_out(), [(OrderFileKind::Orders, book.path().join("orders.csv"))]);
}

#[test]
fn the_usual_file_by_another_name_is_not_left_out() {
    let book = folder(&[USUAL[0], ("below/empty", b"")]);
    let named = [book.path().join("below/../orders.csv")];
    let files = OrderFiles::find([&named, &[], &[]], book.path()).unwrap();
    assert_eq!(files.left_out(), []);
    assert_eq!(held(&files)[0], ["o1"]);
}

#[test]
fn a_file_that_is_named_and_not_there_is_an_error() {
    let book = folder(&USUAL);
    let gone = [book.path().join("gone.csv")];
    for named in [[&gone[..], &[], &[]], [&[], &gone[..], &[]], [&[], &[], &gone[..]]] {
        let error = OrderFiles::find(named, book.path()).unwrap_err();
        assert!(matches!(error, FileError::NotThere { file } if file.ends_with("gone.csv")));
    }
}

#[test]
fn exceptions_alone_are_no_orders() {
    for files in [&USUAL[2..], &[]] {
        let book = folder(files);
        let error = OrderFiles::find([&[], &[], &[]], book.path()).unwrap_err();
        assert!(matches!(error, FileError::NoOrders { .. }));
    }
}

#[test]
fn bytes_are_counted_as_they_are_read() {
    let book = folder(&[("orders.csv", &[b'x'; 300]), ("weekly.csv", &[b'x'; 45])]);
    let files = OrderFiles::find([&[], &[], &[]], book.path()).unwrap();
    let sums = Sums::default();
    files.read(&sums, |sources| {
        let mut words = Vec::new();
        sources.orders[0].open().unwrap().read_to_end(&mut words).unwrap();
    });
    assert_eq!((sums.expected.into_inner(), sums.done.into_inner()), (345, 300));
}
