//! Every example file is read, and the quotes are judged with the built-in catalog.

use std::fs;
use std::path::{Path, PathBuf};

use assert_cmd::Command;
use overwinter::import::{read_criteria, read_house, read_quotes};

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")
}

/// The files of a folder with an ending, by name.
fn files(folder: &Path, ending: &str) -> Vec<(String, String)> {
    let mut files: Vec<(String, String)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|found| found == ending))
        .map(|path| {
            (
                path.display().to_string(),
                fs::read_to_string(&path).unwrap(),
            )
        })
        .collect();
    files.sort();
    files
}

#[test]
fn every_example_is_read() {
    let houses = files(&examples(), "toml");
    assert!(houses.len() >= 2);
    for (name, text) in houses {
        read_house(&name, &text).unwrap_or_else(|problems| panic!("{problems}"));
    }
    let criteria = files(&examples().join("criteria"), "toml");
    assert!(criteria.len() >= 3);
    for (name, text) in criteria {
        read_criteria(&name, &text).unwrap_or_else(|problems| panic!("{problems}"));
    }
    let quotes = files(&examples(), "csv");
    assert!(!quotes.is_empty());
    for (name, text) in quotes {
        read_quotes(&name, &text).unwrap_or_else(|problems| panic!("{problems}"));
    }
}

/// A limit without a word on where it comes from would look like a rule.
#[test]
fn every_limit_of_the_ready_criteria_says_where_it_comes_from() {
    for (name, text) in files(&examples().join("criteria"), "toml") {
        for line in text.lines().filter(|line| line.starts_with("name = ")) {
            assert!(line.contains('#'), "{name}: {line}");
        }
    }
}

#[test]
fn the_example_quotes_show_every_outcome() {
    let folder = tempfile::tempdir().unwrap();
    let ended = Command::cargo_bin("overwinter")
        .unwrap()
        .env("OVERWINTER_CATALOG", folder.path().join("catalog.db"))
        .args(["quotes", "--today", "2026-09-01", "--format", "json"])
        .arg(examples().join("ordinary-house.toml"))
        .arg(examples().join("quotes.csv"))
        .assert()
        .success();
    let answer: serde_json::Value = serde_json::from_slice(&ended.get_output().stdout).unwrap();
    for group in ["accepted", "undecided", "rejected"] {
        assert!(!answer[group].as_array().unwrap().is_empty(), "{group}");
    }
    let text = answer.to_string();
    assert!(text.contains("\"expired\":true"));
    assert!(text.contains("\"in_catalog\":false"));
    assert!(text.contains("\"the warranty\""));
}
