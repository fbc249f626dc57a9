//! The README, followed word for word: its commands are run on a copy of the demo book, its changes are made,
//! and what it shows is what comes out.
//!
//! A block ```` ```console ```` holds commands after `$` and what they print; a line `[...]` stands for lines
//! that are left out. ```` ```diff FILE ```` is a change to a file of the book, ```` ```csv FILE ```` a new file.
//! A change that makes the next command fail is a mistake: it is taken back, as the text asks.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test says where it fails")]

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

const ELISION: &str = "[...]";

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

/// The words of a command; quotes keep a name together.
fn words(command: &str) -> Vec<String> {
    let parts = command.split('"').enumerate();
    parts
        .flat_map(|(index, part)| match index % 2 {
            0 => part.split_whitespace().map(str::to_owned).collect(),
            _ => vec![part.to_owned()],
        })
        .collect()
}

/// Runs a command of the README; what it prints, and whether it went well.
fn run(command: &str, root: &Path, book: &Path) -> (String, bool) {
    let (command, target) =
        command.split_once('>').map_or((command, None), |(command, file)| (command, Some(file.trim())));
    let (arguments, folder) = match command.strip_prefix("cargo run --release -- ") {
        Some(arguments) => (arguments, root),
        None => (command.strip_prefix("levamen ").unwrap(), book),
    };
    let output = Command::new(env!("CARGO_BIN_EXE_levamen"))
        .args(words(arguments))
        .current_dir(folder)
        .output()
        .unwrap();
    let mut shown = String::from_utf8(output.stdout).unwrap();
    if let Some(file) = target {
        std::fs::write(book.join(file), &shown).unwrap();
        shown.clear();
    }
    shown += &String::from_utf8(output.stderr).unwrap();
    (shown, output.status.success())
}

/// Whether lines are the expected ones, with anything where lines are left out.
fn matches(expected: &[&str], lines: &[&str]) -> bool {
    match expected {
        [] => lines.is_empty(),
        [ELISION, rest @ ..] => (0..=lines.len()).any(|skipped| matches(rest, &lines[skipped..])),
        [first, rest @ ..] => lines.first() == Some(first) && matches(rest, &lines[1..]),
    }
}

/// Runs the commands of a block; whether the last went well, and what came out otherwise than shown.
fn console(block: &Block<'_>, root: &Path, book: &Path, differences: &mut String) -> bool {
    let mut well = true;
    for session in sessions(&block.lines) {
        let command = session[0].strip_prefix("$ ").unwrap();
        let (shown, success) = run(command, root, book);
        let lines: Vec<&str> = shown.trim_end().lines().collect();
        if !matches(&session[1..], &lines) {
            let _ = write!(differences, "\n$ {command}\n{shown}");
        }
        well = success;
    }
    well
}

/// The commands of a block, each with the lines under it.
fn sessions<'b, 't>(lines: &'b [&'t str]) -> Vec<&'b [&'t str]> {
    let starts: Vec<usize> = (0..lines.len()).filter(|index| lines[*index].starts_with("$ ")).collect();
    let ends = starts.iter().skip(1).copied().chain([lines.len()]);
    starts.iter().zip(ends).map(|(start, end)| &lines[*start..end]).collect()
}

/// Makes a change to a file; gives back the file as it was.
fn change(block: &Block<'_>, file: &Path) -> String {
    let before = std::fs::read_to_string(file).unwrap();
    let with = |sign: char| -> String {
        block
            .lines
            .iter()
            .filter_map(|line| line.strip_prefix(sign))
            .fold(String::new(), |text, line| text + line + "\n")
    };
    assert_eq!(
        before.matches(&with('-')).count(),
        1,
        "one place for the change:\n{}",
        block.lines.join("\n")
    );
    std::fs::write(file, before.replace(&with('-'), &with('+'))).unwrap();
    before
}

#[test]
fn the_readme_is_true() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let book = tempfile::tempdir().unwrap();
    for file in std::fs::read_dir(root.join("formulas")).unwrap() {
        let file = file.unwrap();
        std::fs::copy(file.path(), book.path().join(file.file_name())).unwrap();
    }
    let text = std::fs::read_to_string(root.join("README.md")).unwrap();
    let mut undo: Option<(PathBuf, String)> = None;
    let mut differences = String::new();
    for block in blocks(&text) {
        match block.heading.split_once(' ').unwrap_or((block.heading, "")) {
            ("diff", file) => {
                let file = book.path().join(file);
                let before = change(&block, &file);
                undo = Some((file, before));
            }
            ("csv", file) => std::fs::write(book.path().join(file), block.lines.join("\n") + "\n").unwrap(),
            ("console", _) => {
                let well = console(&block, &root, book.path(), &mut differences);
                if let Some((file, before)) = undo.take().filter(|_| !well) {
                    std::fs::write(file, before).unwrap();
                }
            }
            _ => {}
        }
    }
    assert!(
        differences.is_empty(),
        "these commands print something else than the README shows:\n{differences}"
    );
}
