//! A type has a name that no other type of the workspace has, so that a name is looked up once.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// The source files below a folder.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path());
    let files = entries.flat_map(|path| if path.is_dir() { sources(&path) } else { vec![path] });
    files.filter(|path| path.extension().is_some_and(|extension| extension == "rs")).collect()
}

/// The types that a source defines at its margin or in a module.
fn types(source: &str) -> impl Iterator<Item = &str> {
    source.lines().filter_map(|line| {
        let mut words = line.split_whitespace().filter(|word| !word.starts_with("pub"));
        let kind = words.next()?;
        let name = words.next().filter(|_| ["struct", "enum", "trait"].contains(&kind))?;
        let end = name.find(|character: char| !character.is_alphanumeric()).unwrap_or(name.len());
        name.get(..end)
    })
}

#[test]
fn no_two_types_have_one_name() {
    let crates = Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates");
    let folders = fs::read_dir(&crates).expect("the crates").map(|entry| entry.expect("an entry").path());
    let mut defined: BTreeMap<String, Vec<PathBuf>> = BTreeMap::new();
    for file in folders.flat_map(|folder| sources(&folder.join("src"))) {
        let text = fs::read_to_string(&file).expect("a source");
        let code = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
        for name in types(code) {
            defined.entry(name.to_owned()).or_default().push(file.clone());
        }
    }
    assert!(defined.len() > 500, "the sources were read");
    defined.retain(|_, files| files.len() > 1);
    assert!(defined.is_empty(), "defined twice: {defined:#?}");
}

#[test]
fn types_are_found_in_a_source() {
    let source =
        "pub(crate) struct Mass(Exact);\n    enum Kind {\n/// struct Not\nlet x = 1;\npub trait Ask<T> {\n";
    assert_eq!(types(source).collect::<Vec<_>>(), ["Mass", "Kind", "Ask"]);
}
