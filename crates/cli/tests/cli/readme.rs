//! The README and the tour, followed word for word: their commands are run in a copy of the demo book, their changes
//! are made, and what they show is what comes out.
//!
//! A block `shell-session` holds commands after `$` and what each prints, as on the other pages. A block
//! `diff FILE` is a change to a file of the book, a block `csv FILE` a new file. A change that makes the next command
//! fail is a mistake: it is taken back, as the text asks. A picture of `docs/pictures` is the file of its name that
//! a command of the page has written; `LEVAMEN_REWRITE=1` keeps what is written now.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fs;
use std::path::{Path, PathBuf};

use crate::pages::{agrees, arguments, workspace};
use crate::run::levamen;

/// A fenced block: the words after the fence, and its lines.
struct Block<'t> {
    heading: &'t str,
    lines: Vec<&'t str>,
}

fn blocks(text: &str) -> Vec<Block<'_>> {
    let mut blocks = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        if let Some(heading) = line.strip_prefix("```") {
            blocks.push(Block { heading, lines: lines.by_ref().take_while(|line| *line != "```").collect() });
        }
    }
    blocks
}

/// The commands of a block, each with the lines under it.
fn commands(lines: &[&str]) -> Vec<(String, String)> {
    let text = format!("\n{}", lines.join("\n"));
    let sessions = text.split("\n$ ").skip(1);
    sessions
        .map(|session| session.split_once('\n').unwrap_or((session, "")))
        .map(|(command, output)| (command.to_owned(), output.to_owned()))
        .collect()
}

/// Runs a command of a page; what it prints, and whether it went well.
fn run(command: &str, book: &Path) -> (String, bool) {
    let root = workspace();
    let (words, folder) = match command.strip_prefix("cargo run --release -- ") {
        Some(words) => (words, root.as_path()),
        None => (command.strip_prefix("levamen ").unwrap(), book),
    };
    let (words, file) = words.split_once(" > ").map_or((words, None), |(words, file)| (words, Some(file)));
    let words = arguments(words);
    let output = levamen(folder, &words.iter().map(String::as_str).collect::<Vec<_>>(), b"");
    let mut printed = String::from_utf8(output.stdout).unwrap();
    if let Some(file) = file {
        fs::write(book.join(file), &printed).unwrap();
        printed.clear();
    }
    (printed + &String::from_utf8(output.stderr).unwrap(), output.status.success())
}

/// Makes a change to a file; gives back the file as it was.
fn change(block: &Block<'_>, file: &Path) -> String {
    let side = |sign: char| -> String {
        let lines = block.lines.iter().filter_map(|line| line.strip_prefix(sign));
        lines.fold(String::new(), |text, line| text + line + "\n")
    };
    let before = fs::read_to_string(file).unwrap();
    assert_eq!(
        before.matches(&side('-')).count(),
        1,
        "one place for this change:\n{}",
        block.lines.join("\n")
    );
    fs::write(file, before.replace(&side('-'), &side('+'))).unwrap();
    before
}

/// Copies a folder with all that is in it.
fn copy(from: &Path, to: &Path) {
    for entry in fs::read_dir(from).unwrap().map(Result::unwrap) {
        let (from, to) = (entry.path(), to.join(entry.file_name()));
        if from.is_dir() {
            fs::create_dir(&to).unwrap();
            copy(&from, &to);
        } else {
            fs::copy(from, to).unwrap();
        }
    }
}

/// Follows a page in a copy of the demo book.
fn follow(page: &str, book: &Path) {
    let text = fs::read_to_string(workspace().join(page)).unwrap();
    let mut made: Option<(PathBuf, String)> = None;
    for block in blocks(&text) {
        match block.heading.split_once(' ').unwrap_or((block.heading, "")) {
            ("diff", file) => {
                let file = book.join(file);
                let before = change(&block, &file);
                made = Some((file, before));
            }
            ("csv", file) => fs::write(book.join(file), block.lines.join("\n") + "\n").unwrap(),
            ("shell-session", _) => {
                for (command, shown) in commands(&block.lines) {
                    let (printed, went_well) = run(&command, book);
                    assert!(
                        agrees(&shown, &printed),
                        "{page} does not show what `{command}` prints:\n{printed}"
                    );
                    if let Some((file, before)) = made.take().filter(|_| !went_well) {
                        fs::write(file, before).unwrap();
                    }
                }
            }
            _ => {}
        }
    }
}

/// The names of the pictures on a page.
fn pictures(page: &str) -> impl Iterator<Item = &str> {
    page.split("](docs/pictures/").skip(1).filter_map(|after| after.split(')').next())
}

#[test]
fn who_follows_the_readme_sees_what_it_shows() {
    let book = tempfile::tempdir().unwrap();
    copy(&workspace().join("formulas"), book.path());
    follow("README.md", book.path());
    let readme = fs::read_to_string(workspace().join("README.md")).unwrap();
    let kept = workspace().join("docs/pictures");
    for name in pictures(&readme) {
        let drawn = fs::read_to_string(book.path().join(name)).unwrap();
        if std::env::var_os("LEVAMEN_REWRITE").is_some() {
            fs::write(kept.join(name), &drawn).unwrap();
        }
        assert!(fs::read_to_string(kept.join(name)).unwrap() == drawn, "`{name}` is not what is drawn now");
    }
    let all = fs::read_dir(kept).unwrap().count();
    assert_eq!(pictures(&readme).count(), all, "each picture is shown once");
}

#[test]
fn who_follows_the_tour_sees_what_it_shows() {
    let book = tempfile::tempdir().unwrap();
    copy(&workspace().join("formulas"), book.path());
    follow("docs/tour.md", book.path());
}
