//! Files that are written: whole or not at all, and never one that is read.

use std::fs;
use std::path::Path;
use std::time::{Duration, SystemTime};

use levamen_files::{FileError, Target, is_same_file, rewrite};

use crate::folder;

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn a_free_place_is_written_and_nothing_is_left_beside_it() {
    let here = folder(&[]);
    let path = here.path().join("day.json");
    let target = Target::new(&path, false);
    target.check(here.path(), []).unwrap();
    assert_eq!(target.write(b"{}\n").unwrap(), Vec::<String>::new());
    assert_eq!(fs::read(&path).unwrap(), b"{}\n");
    assert_eq!(names(here.path()), ["day.json"]);
}

#[test]
fn a_file_that_is_there_is_replaced_only_where_that_is_wanted() {
    let here = folder(&[("day.json", b"old")]);
    let path = here.path().join("day.json");
    let kept = Target::new(&path, false);
    assert!(matches!(kept.check(here.path(), []), Err(FileError::Taken { .. })));
    // Also where another run made it after the look.
    assert!(matches!(kept.write(b"new"), Err(FileError::NotWritten(_))));
    assert_eq!(
        (fs::read(&path).unwrap(), names(here.path())),
        (b"old".to_vec(), vec!["day.json".to_owned()])
    );
    let replaced = Target::new(&path, true);
    replaced.check(here.path(), []).unwrap();
    replaced.write(b"new").unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"new");
}

#[test]
fn a_file_that_is_read_is_not_written_whatever_its_name() {
    let here = folder(&[("orders.csv", b"o"), ("below/empty", b"")]);
    let (orders, other) = (here.path().join("orders.csv"), here.path().join("below/../orders.csv"));
    let error = Target::new(&other, true).check_not_read([orders.as_path()]).unwrap_err();
    assert!(matches!(error, FileError::IsRead { file } if file == orders.display().to_string()));
    Target::new(&here.path().join("below/empty"), true).check_not_read([orders.as_path()]).unwrap();
    assert!(!is_same_file(&orders, &here.path().join("none")));
}

#[test]
fn a_result_becomes_no_dough_of_the_book() {
    let (book, elsewhere) = (folder(&[("below/empty", b"")]), folder(&[]));
    let check = |path: &Path| Target::new(path, false).check(book.path(), []);
    for inside in ["new.dough", "below/new.dough"] {
        assert!(matches!(check(&book.path().join(inside)), Err(FileError::WouldBeDough { .. })), "{inside}");
    }
    check(&book.path().join("new.json")).unwrap();
    check(&elsewhere.path().join("new.dough")).unwrap();
}

#[test]
fn what_cannot_be_written_is_said_and_changes_nothing() {
    let here = folder(&[("folder/a", b"")]);
    let error = Target::new(&here.path().join("none/day.json"), false).write(b"new").unwrap_err();
    assert!(error.to_string().contains("none/day.json` could not be written"), "{error}");
    let error = rewrite(&here.path().join("folder"), b"new").unwrap_err();
    assert!(error.to_string().ends_with("it is no ordinary file"), "{error}");
    assert_eq!(names(here.path()), ["folder"]);
}

#[test]
fn what_a_killed_run_left_is_swept_and_what_a_running_one_writes_is_not() {
    let here = folder(&[(".levamen-old.tmp", b"x"), (".levamen-new.tmp", b"x"), (".levamen-old.txt", b"x")]);
    let long_ago = SystemTime::now() - Duration::from_secs(700);
    for old in [".levamen-old.tmp", ".levamen-old.txt"] {
        fs::File::options().write(true).open(here.path().join(old)).unwrap().set_modified(long_ago).unwrap();
    }
    Target::new(&here.path().join("day.json"), false).write(b"{}").unwrap();
    assert_eq!(names(here.path()), [".levamen-new.tmp", ".levamen-old.txt", "day.json"]);
}

#[cfg(unix)]
mod links {
    use std::os::unix::fs::{PermissionsExt as _, symlink};

    use super::*;

    #[test]
    fn a_link_stays_a_link_and_what_it_points_at_is_replaced() {
        let here = folder(&[("real.json", b"old")]);
        let link = here.path().join("link.json");
        symlink("real.json", &link).unwrap();
        rewrite(&link, b"new").unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(here.path().join("real.json")).unwrap(), b"new");
        let lost = here.path().join("lost.json");
        symlink("none.json", &lost).unwrap();
        let error = Target::new(&lost, true).check_free().unwrap_err();
        assert!(matches!(error, FileError::LinkToNothing { .. }));
    }

    #[test]
    fn permissions_are_kept_and_a_read_only_file_is_not_replaced() {
        let here = folder(&[("a.dough", b"old")]);
        let path = here.path().join("a.dough");
        let set = |mode: u32| fs::set_permissions(&path, fs::Permissions::from_mode(mode)).unwrap();
        set(0o640);
        rewrite(&path, b"new").unwrap();
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o640);
        set(0o440);
        let error = rewrite(&path, b"newer").unwrap_err();
        assert!(error.to_string().ends_with("it is read-only"), "{error}");
        assert_eq!(fs::read(&path).unwrap(), b"new");
    }

    #[test]
    fn other_names_of_a_file_are_said_to_hold_what_it_held() {
        let here = folder(&[("a.dough", b"old")]);
        let (path, other) = (here.path().join("a.dough"), here.path().join("b.dough"));
        fs::hard_link(&path, &other).unwrap();
        assert!(is_same_file(&path, &other));
        let losses = rewrite(&path, b"new").unwrap();
        assert_eq!(
            losses,
            [format!(
                "`{}` has other names (hard links): those still hold what it held before",
                path.display()
            )]
        );
        assert_eq!(fs::read(&other).unwrap(), b"old");
    }
}
