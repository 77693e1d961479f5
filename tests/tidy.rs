//! Guards the architecture and the house rules: the core stays pure, every file says what it is for and fits on a few
//! screens, and nothing unfinished or tied to one machine is left behind.

use std::fs;
use std::path::{Path, PathBuf};

/// Modules that compute and never touch files, SQL, a clock, the environment or a terminal.
const PURE: [&str; 11] = [
    "quantity",
    "psychrometrics",
    "house",
    "climate",
    "equipment",
    "heating",
    "cooling",
    "rating",
    "criteria",
    "economics",
    "study",
];

/// What a pure module never mentions, not even in its tests.
const EDGES: [&str; 15] = [
    "rusqlite",
    "clap",
    "std::fs",
    "std::env",
    "std::time",
    "std::io",
    "std::net",
    "std::process",
    "std::thread",
    "rayon",
    "Zoned::now",
    "crate::cli",
    "crate::catalog",
    "crate::import",
    "crate::report",
];

/// Beyond this a file hides a second idea.
const LONGEST: usize = 500;

struct Text {
    path: PathBuf,
    text: String,
}

impl Text {
    /// Where one of the words stands, as a whole word: `crate::cli` is not part of `crate::climate`.
    fn with<'a>(&'a self, words: &'a [String]) -> impl Iterator<Item = String> + 'a {
        let lines = self.text.lines().enumerate();
        lines.flat_map(move |(place, line)| {
            let found = words.iter().filter(move |word| contains(line, word));
            found.map(move |word| format!("{}:{}: {word}", self.path.display(), place + 1))
        })
    }
}

/// Whether the line contains the word with nothing behind it that would make it a longer one.
fn contains(line: &str, word: &str) -> bool {
    let goes_on = |rest: &str| rest.starts_with(|next: char| next.is_alphanumeric() || next == '_');
    let ends_open = word.ends_with(|last: char| last.is_alphanumeric());
    line.match_indices(word)
        .any(|(at, _)| !(ends_open && goes_on(&line[at + word.len()..])))
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder with one of these endings, in the order of their paths.
fn files(folder: &Path, endings: &[&str]) -> Vec<Text> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap_or_else(|error| panic!("{folder:?}: {error}")) {
            let path = entry.expect("a folder's entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path
                .extension()
                .is_some_and(|ending| endings.iter().any(|wanted| ending == *wanted))
            {
                let text =
                    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"));
                found.push(Text { path, text });
            }
        }
    }
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

/// Every source file of library, program, tests, benchmarks and examples.
fn sources() -> Vec<Text> {
    let folders = ["src", "tests", "benches", "examples"].map(|folder| root().join(folder));
    let there = folders.iter().filter(|folder| folder.is_dir());
    let found: Vec<Text> = there.flat_map(|folder| files(folder, &["rs"])).collect();
    assert!(found.len() > 100, "only {} files found", found.len());
    found
}

fn assert_none(what: &str, found: &[String]) {
    assert!(found.is_empty(), "{what}:\n{}", found.join("\n"));
}

fn words(words: &[&str]) -> Vec<String> {
    words.iter().map(|&word| word.to_owned()).collect()
}

/// Words written in two halves, so that this file does not contain what it looks for.
fn halved(words: &[(&str, &str)]) -> Vec<String> {
    words
        .iter()
        .map(|(one, other)| format!("{one}{other}"))
        .collect()
}

#[test]
fn pure_modules_never_mention_the_edges() {
    let edges = words(&EDGES);
    let mut found = Vec::new();
    for module in PURE {
        let folder = root().join("src").join(module);
        let files = files(&folder, &["rs"]);
        assert!(!files.is_empty(), "{module} has no files");
        for file in &files {
            found.extend(file.with(&edges));
        }
    }
    assert_none("a pure module reaches for an edge", &found);
}

#[test]
fn reports_compute_text_and_open_nothing() {
    let opening = words(&[
        "std::fs",
        "std::env",
        "rusqlite",
        "crate::cli",
        "crate::catalog",
        "crate::import",
    ]);
    let mut files = files(&root().join("src/report"), &["rs"]);
    for file in &mut files {
        // Its tests may read a house or a climate to report on.
        let program = file
            .text
            .find("#[cfg(test)]\nmod tests {")
            .unwrap_or(file.text.len());
        file.text.truncate(program);
    }
    let found: Vec<String> = files.iter().flat_map(|file| file.with(&opening)).collect();
    assert_none("a report reaches for an edge", &found);
}

#[test]
fn every_source_file_opens_with_its_purpose() {
    let silent: Vec<String> = sources()
        .iter()
        .filter(|file| !file.text.starts_with("//! "))
        .map(|file| file.path.display().to_string())
        .collect();
    assert_none("a file does not say what it is for", &silent);
}

#[test]
fn no_source_file_is_longer_than_500_lines() {
    let long: Vec<String> = sources()
        .iter()
        .filter(|file| file.text.lines().count() > LONGEST)
        .map(|file| {
            format!(
                "{}: {} lines",
                file.path.display(),
                file.text.lines().count()
            )
        })
        .collect();
    assert_none("a file hides a second idea", &long);
}

#[test]
fn nothing_unfinished_is_left_behind() {
    let unfinished = halved(&[
        ("TO", "DO"),
        ("FIX", "ME"),
        ("XX", "X:"),
        ("dbg", "!("),
        ("todo", "!("),
        ("unimplemented", "!("),
        ("#[ign", "ore"),
    ]);
    let found: Vec<String> = sources()
        .iter()
        .flat_map(|file| file.with(&unfinished).collect::<Vec<_>>())
        .collect();
    assert_none("something is unfinished", &found);
}

#[test]
fn nothing_is_tied_to_one_machine() {
    // A folder of this very checkout, and the usual places of private ones.
    let mut places = halved(&[
        ("/ro", "ot/"),
        ("/wo", "rk/"),
        ("/ho", "me/"),
        ("/Us", "ers/"),
        ("C:\\", "Users"),
    ]);
    places.push(root().display().to_string());
    let mut texts = sources();
    for folder in ["docs", "catalog", "scripts", ".ci", ".github"] {
        let folder = root().join(folder);
        if folder.is_dir() {
            texts.extend(files(
                &folder,
                &["md", "sh", "py", "csv", "toml", "yml", "run"],
            ));
        }
    }
    for name in [
        "README.md",
        "DEVELOPERS.md",
        "CHANGELOG.md",
        "Cargo.toml",
        "clippy.toml",
        "schema.sql",
    ] {
        let path = root().join(name);
        if let Ok(text) = fs::read_to_string(&path) {
            texts.push(Text { path, text });
        }
    }
    let found: Vec<String> = texts
        .iter()
        .flat_map(|file| file.with(&places).collect::<Vec<_>>())
        .collect();
    assert_none("a place on somebody's machine is named", &found);
}

#[test]
fn the_guard_sees_whole_words() {
    assert!(
        contains("use crate::cli;", "crate::cli") && contains("crate::cli::app()", "crate::cli")
    );
    assert!(!contains("use crate::climate::State;", "crate::cli"));
}
