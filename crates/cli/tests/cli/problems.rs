//! The page of problem codes has the codes of the crates that find them, each and no other.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use crate::pages::workspace;

/// The sections of the page, and the crate that each is about.
const SECTIONS: [(&str, &[&str]); 5] = [
    ("## What a text means", &["formula"]),
    ("## What does not balance", &["balance"]),
    ("## What a scale cannot show", &["sheets"]),
    ("## A recipe that is imported", &["import"]),
    ("## Files, and what is asked of a command", &["levamen", "files", "cli"]),
];

/// The codes of a section's table, in its order.
fn listed(page: &str, section: &str) -> Vec<String> {
    let after = page.split_once(section).map(|(_, after)| after).unwrap();
    let rows = after.lines().skip(1).take_while(|line| !line.starts_with('#'));
    let codes = rows.filter_map(|row| row.strip_prefix("| `")?.split_once('`'));
    codes.map(|(code, _)| code.to_owned()).collect()
}

/// The codes that stand in quotes where a source makes a problem, its tests left out.
fn made(source: &str) -> BTreeSet<String> {
    let source = source.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let makers = ["Problem::error(", "Problem::warning(", " of(cell,"];
    let after = makers.iter().flat_map(|maker| source.split(maker).skip(1));
    let quoted = after.filter_map(|after| after.trim_start().strip_prefix('"')?.split('"').next());
    // A fault of the program belongs to no crate: the page says it once, at its head.
    quoted.filter(|code| *code != "internal").map(str::to_owned).collect()
}

fn made_in(folder: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries
        .flat_map(
            |path| {
                if path.is_dir() { made_in(&path) } else { made(&fs::read_to_string(&path).unwrap()) }
            },
        )
        .collect()
}

#[test]
fn the_page_of_problems_has_every_code() {
    let page = fs::read_to_string(workspace().join("docs/problems.md")).unwrap();
    for (section, crates) in SECTIONS {
        let listed = listed(&page, section);
        assert!(listed.is_sorted(), "{section}");
        let sources = crates.iter().map(|name| workspace().join("crates").join(name).join("src"));
        let made: BTreeSet<String> = sources.flat_map(|folder| made_in(&folder)).collect();
        assert_eq!(listed.into_iter().collect::<BTreeSet<_>>(), made, "{section}");
    }
}

#[test]
fn codes_are_found_in_a_source() {
    let source = "Problem::error(\n  \"a-b\", x) \"d\" #[cfg(test)]\nmod tests Problem::error(\"e\"";
    assert_eq!(made(source), BTreeSet::from(["a-b".to_owned()]));
    assert_eq!(made(" of(cell, \"c\""), BTreeSet::from(["c".to_owned()]));
}
