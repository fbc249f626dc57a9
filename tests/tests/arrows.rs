//! Arrows between the crates point one way, as `docs/architecture.md` has them; and no crate grows into the whole.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The crates, each after all that it may use.
const LAYERS: [&str; 19] = [
    "quantity",
    "language",
    "formula",
    "table",
    "calendar",
    "bakery",
    "balance",
    "ferment",
    "culture",
    "import",
    "convert",
    "orders",
    "timetable",
    "plan",
    "sheets",
    "levamen",
    "views",
    "files",
    "cli",
];

/// What a crate at the edge uses of ours. An arrow more is a decision: it is made here and in `docs/architecture.md`.
const EDGES: [(&str, &[&str]); 3] = [
    ("cli", &["files", "levamen", "views"]),
    ("files", &["levamen"]),
    // Only to show what their values hold; `orders`, `import`, `table` and `calendar` are not among them.
    (
        "views",
        &[
            "balance",
            "convert",
            "ferment",
            "formula",
            "language",
            "levamen",
            "plan",
            "quantity",
            "sheets",
            "timetable",
        ],
    ),
];

/// No crate has more than one part in so many of all lines.
const LARGEST_PART: usize = 6;

/// What each crate uses of ours.
type Arrows = BTreeMap<String, BTreeSet<String>>;

fn workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The name of one of our crates, without the first part that all but the library have; `None` for a crate of others.
fn our_name(package: &str) -> Option<&str> {
    if package == "levamen" { Some(package) } else { package.strip_prefix("levamen-") }
}

/// What a manifest says that the built crate uses of ours: all its tables of dependencies but those for tests.
fn uses(manifest: &str) -> BTreeSet<String> {
    let mut is_dependencies = false;
    let mut uses = BTreeSet::new();
    for line in manifest.lines().map(str::trim) {
        let mut name = line.split(['.', '=', ' ']).next();
        if let Some(table) = line.strip_prefix('[') {
            let table = table.trim_end_matches(']');
            is_dependencies = table.ends_with("dependencies") && !table.ends_with("dev-dependencies");
            name = table.strip_prefix("dependencies.");
        } else if !is_dependencies {
            continue;
        }
        uses.extend(name.and_then(our_name).map(str::to_owned));
    }
    uses
}

fn arrows() -> Arrows {
    let folders = fs::read_dir(workspace().join("crates")).unwrap().map(|entry| entry.unwrap());
    let read = |folder: fs::DirEntry| {
        let manifest = fs::read_to_string(folder.path().join("Cargo.toml")).unwrap();
        (folder.file_name().into_string().unwrap(), uses(&manifest))
    };
    folders.map(read).collect()
}

/// The arrows that point the wrong way, or from or to a crate that has no place among the layers.
fn wrong(arrows: &Arrows) -> Vec<String> {
    let place = |name: &str| LAYERS.iter().position(|layer| *layer == name);
    let all = arrows.iter().flat_map(|(from, uses)| uses.iter().map(move |to| (from, to)));
    let is_right = |from: &str, to: &str| place(from).zip(place(to)).is_some_and(|(from, to)| to < from);
    all.filter(|(from, to)| !is_right(from, to)).map(|(from, to)| format!("{from} -> {to}")).collect()
}

#[test]
fn arrows_point_from_the_edge_to_the_core() {
    let arrows = arrows();
    let crates: BTreeSet<&str> = arrows.keys().map(String::as_str).collect();
    assert_eq!(crates, LAYERS.into_iter().collect(), "every crate has its place among the layers");
    assert_eq!(wrong(&arrows), [""; 0]);
}

#[test]
fn edges_use_no_more_than_was_decided() {
    let arrows = arrows();
    for (name, decided) in EDGES {
        let uses: Vec<&str> = arrows[name].iter().map(String::as_str).collect();
        assert_eq!(uses, decided, "what `{name}` uses");
    }
}

/// Lines of a source that write out an option of a command, comments aside; what stands in tests of the file is no part
/// of the library.
fn options(source: &str) -> Vec<&str> {
    let code = source.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let lines = code.lines().filter(|line| !line.trim_start().starts_with("//"));
    let names_one = |line: &&str| {
        let mut parts = line.split("--");
        let mut before = parts.next();
        parts.any(|after| {
            let stands_alone =
                before.is_none_or(|before| before.ends_with([' ', '`', '"', '(']) || before.is_empty());
            before = Some(after);
            stands_alone && after.starts_with(|first: char| first.is_ascii_lowercase())
        })
    };
    lines.filter(names_one).collect()
}

#[test]
fn only_the_command_names_its_options() {
    for name in LAYERS.into_iter().filter(|name| *name != "cli") {
        for file in sources(&workspace().join("crates").join(name).join("src")) {
            let source = fs::read_to_string(&file).unwrap();
            assert_eq!(options(&source), [""; 0], "{}", file.display());
        }
    }
}

#[test]
fn a_named_option_is_noticed() {
    let source =
        "/// Not `--json`.\nlet a = \"write --share 30%\";\nlet b = \"`--name x`\";\nlet c = \"a--b\";\n";
    assert_eq!(options(source), ["let a = \"write --share 30%\";", "let b = \"`--name x`\";"]);
}

#[test]
fn the_page_has_the_arrows_as_they_are() {
    let page = fs::read_to_string(workspace().join("docs/architecture.md")).unwrap();
    let rows = page.lines().filter_map(|line| line.strip_prefix("| `levamen"));
    let on_page = rows.filter_map(|row| {
        let (name, cells) = row.split_once('`')?;
        let uses = cells.trim_end_matches(" |").rsplit(" | ").next()?;
        let name = name.strip_prefix('-').unwrap_or("levamen");
        Some((name.to_owned(), uses.split('`').skip(1).step_by(2).map(str::to_owned).collect()))
    });
    let on_page: Vec<(String, BTreeSet<String>)> = on_page.filter(|(name, _)| name != "tests").collect();
    assert_eq!(on_page.iter().map(|(name, _)| name).collect::<Vec<_>>(), LAYERS);
    assert_eq!(on_page.into_iter().collect::<Arrows>(), arrows());
}

#[test]
fn a_turned_arrow_is_noticed() {
    let mut turned = Arrows::new();
    turned.insert("formula".to_owned(), uses("[dependencies]\nlevamen-balance.workspace = true\n"));
    assert_eq!(wrong(&turned), ["formula -> balance"]);
    turned.insert("formula".to_owned(), uses("[dependencies]\nlevamen-new = { path = \"../new\" }\n"));
    assert_eq!(wrong(&turned), ["formula -> new"]);
}

#[test]
fn every_way_to_write_a_dependency_is_read() {
    let manifest = "[package]\nname = \"levamen-plan\"\n\n[dependencies]\nlevamen-table.workspace = true\nserde = \"1\"\n\
                    levamen = { path = \"../levamen\" }\n\n[dependencies.levamen-orders]\nworkspace = true\n\n\
                    [target.'cfg(unix)'.dependencies]\nlevamen-files.workspace = true\n\n\
                    [dev-dependencies]\nlevamen-views.workspace = true\n";
    assert_eq!(uses(manifest).into_iter().collect::<Vec<_>>(), ["files", "levamen", "orders", "table"]);
}

/// All Rust files in a folder and its folders.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let files = entries.flat_map(|path| if path.is_dir() { sources(&path) } else { vec![path] });
    files.filter(|path| path.extension().is_some_and(|ending| ending == "rs")).collect()
}

/// The lines of all Rust files in a folder and its folders.
fn lines(folder: &Path) -> usize {
    sources(folder).iter().map(|file| fs::read_to_string(file).unwrap().lines().count()).sum()
}

#[test]
fn no_crate_is_the_whole() {
    let count = |name| (name, lines(&workspace().join("crates").join(name).join("src")));
    let counts = BTreeMap::from(LAYERS.map(count));
    let all: usize = counts.values().sum();
    assert!(counts.values().all(|lines| lines * LARGEST_PART <= all), "of {all} lines: {counts:?}");
}
