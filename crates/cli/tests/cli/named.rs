//! What the pages of the project name is there: files, names of the code, what links lead to, and the reasons for
//! dependencies.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use crate::pages::{pages, workspace};

/// The folders that a path on a page begins with.
const FOLDERS: [&str; 5] = ["crates/", "docs/", "formulas/", "tests/", ".ci/"];

/// The words in back quotes of a page that are paths of the workspace.
fn paths(page: &str) -> impl Iterator<Item = &str> {
    let is_path = |words: &&str| {
        let is_plain = words.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"/-_.".contains(&byte));
        is_plain && FOLDERS.iter().any(|folder| words.starts_with(folder))
    };
    page.lines().flat_map(|line| line.split('`').skip(1).step_by(2)).filter(is_path)
}

#[test]
fn files_that_pages_name_are_there() {
    let mut count = 0;
    for (page, text) in pages() {
        for path in paths(&text) {
            assert!(workspace().join(path).exists(), "{} names `{path}`, which is not there", page.display());
            count += 1;
        }
    }
    assert!(count > 40, "{count} paths on all pages");
}

#[test]
fn paths_are_told_from_other_words() {
    let page = "`crates/cli` and `cargo run -p x`, `tests/*.rs`, docs/plain.md, `formulas/`";
    assert_eq!(paths(page).collect::<Vec<_>>(), ["crates/cli", "formulas/"]);
}

/// The words in back quotes of a page that are names of the code, such as `OrderRequest` or `Book::read`, outside of blocks.
fn code_names(page: &str) -> impl Iterator<Item = &str> {
    let is_path = |words: &&str| words.contains("::") && words.bytes().all(is_of_name);
    let is_type = |words: &&str| {
        let has_inner_capital = words.bytes().skip(1).any(|byte| byte.is_ascii_uppercase());
        let has_small = words.bytes().any(|byte| byte.is_ascii_lowercase());
        words.starts_with(|first: char| first.is_ascii_uppercase())
            && has_inner_capital
            && has_small
            && words.bytes().all(is_of_name)
    };
    let prose = page.split("```").step_by(2).flat_map(str::lines);
    prose
        .flat_map(|line| line.split('`').skip(1).step_by(2))
        .filter(move |words| is_path(words) || is_type(words))
}

fn is_of_name(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || b"_:".contains(&byte)
}

/// The words before the name of an item.
const ITEMS: [&str; 10] =
    ["struct", "enum", "trait", "type", "fn", "mod", "const", "static", "macro_rules!", "union"];

/// The items, variants and fields that a source defines, its own name as a module among them.
fn items(file: &Path) -> BTreeSet<String> {
    let source = fs::read_to_string(file).unwrap();
    let name = |words: &str| {
        let end = words.find(|c: char| !c.is_ascii_alphanumeric() && c != '_').unwrap_or(words.len());
        words.get(..end).filter(|name| !name.is_empty()).map(str::to_owned)
    };
    let defined = |line: &str| {
        let mut words = line.split_whitespace();
        while let Some(word) = words.next() {
            let is_before = word.starts_with("pub") || ["unsafe", "async", "crate)"].contains(&word);
            // `const fn` names a function.
            if ITEMS.contains(&word) && !(word == "const" && line.contains(" fn ")) {
                return words.next().and_then(name);
            }
            if !is_before && word != "const" {
                break;
            }
        }
        let line = line.trim_start();
        let own = name(line.trim_start_matches("pub "))?;
        let after = line.trim_start_matches("pub ").get(own.len()..)?;
        let is_variant = own.starts_with(|first: char| first.is_ascii_uppercase())
            && (after.starts_with([',', '(']) || after.starts_with(" {") || after.starts_with(" = "));
        (is_variant || after.starts_with(": ")).then_some(own)
    };
    let code = source.lines().filter(|line| !line.trim_start().starts_with("//"));
    let own = file.file_stem().map(|stem| stem.to_string_lossy().into_owned());
    code.filter_map(defined).chain(own).collect()
}

/// A Rust file of a crate.
struct Source {
    /// The crate, as code calls it.
    of: String,
    text: String,
    items: BTreeSet<String>,
}

/// All Rust files of a folder of a crate and its folders.
fn add_sources(of: &str, folder: &Path, files: &mut Vec<Source>) {
    for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
        if path.is_dir() {
            add_sources(of, &path, files);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = fs::read_to_string(&path).unwrap();
            files.push(Source { of: of.to_owned(), text, items: items(&path) });
        }
    }
}

/// What code calls the crate of a folder.
fn crate_name(folder: &Path) -> String {
    let name = folder.file_name().unwrap().to_string_lossy().into_owned();
    if name == "levamen" { name } else { format!("levamen_{name}") }
}

/// Whether there is an item of that name; of `Type::member`, one in a file that defines the type or its
/// methods, and of `levamen_plan::Day` one of that crate.
fn is_item(name: &str, files: &[Source]) -> bool {
    let parts: Vec<&str> = name.split("::").filter(|part| !part.is_empty()).collect();
    let Some((last, before)) = parts.split_last() else { return false };
    let Some(owner) = before.last() else { return files.iter().any(|file| file.items.contains(*last)) };
    let has_owner = |file: &&Source| {
        let methods = file.text.lines().filter(|line| line.starts_with("impl"));
        let mut names = methods.flat_map(|line| line.split(|c: char| !c.is_ascii_alphanumeric() && c != '_'));
        file.of == *owner || file.items.contains(*owner) || names.any(|name| name == *owner)
    };
    files.iter().filter(has_owner).any(|file| file.items.contains(*last))
}

#[test]
fn names_of_the_code_that_pages_name_are_there() {
    let mut files = Vec::new();
    for folder in fs::read_dir(workspace().join("crates")).unwrap().map(|entry| entry.unwrap().path()) {
        add_sources(&crate_name(&folder), &folder.join("src"), &mut files);
    }
    let mut count = 0;
    let mut missing = Vec::new();
    for (page, text) in pages() {
        for name in code_names(&text) {
            if !is_item(name, &files) {
                missing.push(format!("{} names `{name}`", page.display()));
            }
            count += 1;
        }
    }
    assert_eq!(missing, [""; 0], "what is no item of the code");
    assert!(count > 40, "{count} names of the code on all pages");
}

#[test]
fn a_name_that_no_item_has_is_noticed() {
    let mut files = Vec::new();
    add_sources("levamen_language", &workspace().join("crates/language/src"), &mut files);
    for name in [
        "Problem",
        "Problem::internal",
        "Statement",
        "Severity::Error",
        "Problem::help",
        "levamen_language::Texts",
    ] {
        assert!(is_item(name, &files), "{name}");
    }
    // Words of the code that name no item of it, and members of other types.
    for name in ["Vec", "Texts::internal", "Problem::line_number", "levamen_balance::Problem"] {
        assert!(!is_item(name, &files), "{name}");
    }
}

#[test]
fn names_of_the_code_are_known_from_other_words() {
    let page = "`OrderRequest`, `Book::read`, `JSON`, `Tin loaf`, `Mass`\n```\n`NotThis`\n```\n`DayJson`";
    assert_eq!(code_names(page).collect::<Vec<_>>(), ["OrderRequest", "Book::read", "DayJson"]);
}

/// Where the links of a page lead, but for those into the web.
fn links(page: &str) -> impl Iterator<Item = &str> {
    let targets = page.split("](").skip(1).filter_map(|after| after.split(')').next());
    targets.filter(|target| !target.contains("://"))
}

/// The name by which a link finds a heading, as web sites that show such pages make it.
fn anchor(heading: &str) -> String {
    let kept = heading.chars().filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_'));
    kept.map(|c| if c == ' ' { '-' } else { c.to_ascii_lowercase() }).collect()
}

/// Whether a page has a heading of that name.
fn has_heading(page: &str, name: &str) -> bool {
    let headings = page.lines().filter_map(|line| line.strip_prefix('#'));
    headings.map(|heading| anchor(heading.trim_start_matches('#').trim())).any(|heading| heading == name)
}

#[test]
fn links_lead_somewhere() {
    let mut count = 0;
    for (path, text) in pages() {
        for link in links(&text) {
            let (file, heading) = link.split_once('#').unwrap_or((link, ""));
            let target = if file.is_empty() { path.clone() } else { path.parent().unwrap().join(file) };
            let page = path.display();
            assert!(target.exists(), "{page} links to `{link}`, which is not there");
            let is_page = target.extension().is_some_and(|extension| extension == "md");
            let is_found = heading.is_empty() || has_heading(&fs::read_to_string(&target).unwrap(), heading);
            assert!(!is_page || is_found, "{page} links to `{link}`, which has no such heading");
            count += 1;
        }
    }
    assert!(count > 40, "{count} links on all pages");
}

#[test]
fn a_heading_is_found_by_its_name() {
    let page = "# A page\n\n## Three meanings of 20 % levain\n\n### Baker's percentage\n";
    assert!(has_heading(page, "three-meanings-of-20--levain"));
    assert!(has_heading(page, "bakers-percentage"));
    assert!(!has_heading(page, "three-meanings"));
}

#[test]
fn every_dependency_has_its_reason() {
    let manifest = fs::read_to_string(workspace().join("Cargo.toml")).unwrap();
    let developers = fs::read_to_string(workspace().join("DEVELOPERS.md")).unwrap();
    let (_, reasons) = developers.split_once("## Dependencies").unwrap();
    let (_, section) = manifest.split_once("[workspace.dependencies]").unwrap();
    let lines = section.lines().take_while(|line| !line.starts_with('['));
    let names = lines.filter_map(|line| line.split_once(" = ")).map(|(name, _)| name);
    let foreign: Vec<&str> = names.filter(|name| !name.starts_with("levamen")).collect();
    assert!(foreign.len() > 10);
    for name in foreign {
        assert!(reasons.contains(&format!("`{name}`")), "DEVELOPERS.md does not say why `{name}` is here");
    }
}
