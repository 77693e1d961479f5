//! The README shows what the program prints.

use assert_cmd::Command;

#[test]
fn the_readme_shows_what_its_first_command_prints() {
    let readme = include_str!("../../README.md");
    let (_, shown) = readme
        .split_once("compared with the program's output by a test. -->\n```text\n")
        .unwrap();
    let (shown, _) = shown.split_once("```\n").unwrap();
    let folder = tempfile::tempdir().unwrap();
    let printed = Command::cargo_bin("overwinter")
        .unwrap()
        .args(["shortlist", "examples/ordinary-house.toml", "--catalog"])
        .arg(folder.path().join("catalog.db"))
        .env_remove("OVERWINTER_CATALOG")
        .env("COLUMNS", "80")
        .output()
        .unwrap();
    assert_eq!(String::from_utf8(printed.stdout).unwrap(), shown);
    assert_eq!(printed.status.code(), Some(0));
}
