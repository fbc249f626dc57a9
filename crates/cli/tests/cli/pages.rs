//! What the pages of the project show of the command is what the command prints.
//!
//! In `README.md`, `DEVELOPERS.md` and `docs`, a fenced block marked `console` begins with `$ levamen` and its arguments,
//! and goes on with the output, the standard error last. A line `…` stands for lines that are not shown. Commands run
//! where the workspace lies; one with the argument `-` reads the nearest block marked `dough` above it.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::fs;
use std::path::{Path, PathBuf};

use crate::run::levamen;

/// A command on a page, and what is shown of its output.
struct Shown {
    command: String,
    input: String,
    output: String,
}

/// Where the workspace lies.
pub fn workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The pages of the project, each with its path.
pub fn pages() -> Vec<(PathBuf, String)> {
    let docs = fs::read_dir(workspace().join("docs")).unwrap().map(|entry| entry.unwrap().path());
    let pages = docs.chain(["README.md", "DEVELOPERS.md"].map(|page| workspace().join(page)));
    let pages = pages.filter(|path| path.is_file());
    pages.map(|path| (path.clone(), fs::read_to_string(path).unwrap())).collect()
}

/// The commands of a page.
fn shown(page: &str) -> Vec<Shown> {
    let mut commands = Vec::new();
    let mut input = String::new();
    let mut lines = page.lines();
    while let Some(line) = lines.next() {
        let Some(label) = line.strip_prefix("```") else { continue };
        let block: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
        match (label, block.split_first()) {
            ("dough", _) => input = block.join("\n") + "\n",
            ("console", Some((first, rest))) => {
                let command = first.strip_prefix("$ levamen ").unwrap();
                commands.push(Shown {
                    command: command.to_owned(),
                    input: input.clone(),
                    output: rest.join("\n"),
                });
            }
            _ => {}
        }
    }
    commands
}

/// The arguments of a command, as a shell parts them: by space, but not within double quotes.
pub fn arguments(command: &str) -> Vec<String> {
    let mut arguments = Vec::new();
    for (index, part) in command.split('"').enumerate() {
        if index % 2 == 1 {
            arguments.push(part.to_owned());
        } else {
            arguments.extend(part.split_whitespace().map(str::to_owned));
        }
    }
    arguments
}

/// Whether an output is what is shown, with any lines for each `…`.
pub fn agrees(shown: &str, output: &str) -> bool {
    let output: Vec<&str> = output.trim_end().lines().map(str::trim_end).collect();
    let shown: Vec<&str> = shown.trim_end().lines().map(str::trim_end).collect();
    let runs: Vec<&[&str]> = shown.split(|line| *line == "…").collect();
    let mut at = 0;
    for (index, run) in runs.iter().enumerate() {
        let rest = output.get(at..).unwrap_or_default();
        let found = match (index, index + 1 == runs.len()) {
            (0, true) => (rest == *run).then_some(0),
            (0, false) => rest.starts_with(run).then_some(0),
            (_, true) => rest.ends_with(run).then(|| rest.len() - run.len()),
            (_, false) if run.is_empty() => Some(0),
            (_, false) => rest.windows(run.len()).position(|window| window == *run),
        };
        let Some(found) = found else { return false };
        at += found + run.len();
    }
    true
}

#[test]
fn pages_show_what_the_command_prints() {
    let mut count = 0;
    for (path, page) in pages() {
        for Shown { command, input, output } in shown(&page) {
            let arguments = arguments(&command);
            let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
            let ran = levamen(&workspace(), &arguments, input.as_bytes());
            let printed = String::from_utf8([ran.stdout, ran.stderr].concat()).unwrap();
            let page = path.display();
            assert!(
                agrees(&output, &printed),
                "{page} does not show what `levamen {command}` prints:\n{printed}"
            );
            count += 1;
        }
    }
    assert!(count > 10, "{count} commands on all pages");
}

#[test]
fn another_output_is_noticed() {
    let output = "one\ntwo\nthree\nfour\n";
    for right in ["one\ntwo\nthree\nfour", "one\n…\nfour", "…\nthree\n…", "one\n…", "…\nthree\nfour"]
    {
        assert!(agrees(right, output), "{right}");
    }
    for wrong in ["one\ntwo\nthree", "two\n…", "one\n…\ntwo\nfour", "…\nthree", "one\n…\nthree\ntwo\n…", ""]
    {
        assert!(!agrees(wrong, output), "{wrong}");
    }
}

#[test]
fn quotes_keep_the_words_of_a_name_together() {
    assert_eq!(
        arguments("sheet \"Quayside loaf\" --book formulas"),
        ["sheet", "Quayside loaf", "--book", "formulas"]
    );
}
