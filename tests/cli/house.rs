//! `overwinter house`.

use assert_cmd::Command;
use tempfile::tempdir;

fn overwinter() -> Command {
    Command::cargo_bin("overwinter").expect("the program is built")
}

#[test]
fn a_new_house_reads_back_in_words_and_is_never_overwritten() {
    let folder = tempdir().unwrap();
    let file = folder.path().join("row.toml");
    overwinter()
        .args(["house", "new"])
        .arg(&file)
        .assert()
        .success();
    let written = std::fs::read(&file).unwrap();
    let words = overwinter()
        .args(["house", "check"])
        .arg(&file)
        .assert()
        .success();
    let words = String::from_utf8(words.get_output().stdout.clone()).unwrap();
    assert!(
        words.starts_with("Our house\n\nHeating: the rooms are kept at 21.0 °C."),
        "{words}"
    );
    let again = overwinter()
        .args(["house", "new"])
        .arg(&file)
        .assert()
        .code(2);
    let error = String::from_utf8(again.get_output().stderr.clone()).unwrap();
    assert!(
        error.ends_with("hint: it was left as it is; name another file\n"),
        "{error}"
    );
    assert_eq!(std::fs::read(&file).unwrap(), written);
}

#[test]
fn every_mistake_in_a_house_is_listed_and_the_exit_code_says_so() {
    let folder = tempdir().unwrap();
    let file = folder.path().join("row.toml");
    overwinter()
        .args(["house", "new"])
        .arg(&file)
        .assert()
        .success();
    let text = std::fs::read_to_string(&file)
        .unwrap()
        .replace("\"9.2 kW\"", "\"9 °C\"")
        .replace("0.60", "60");
    std::fs::write(&file, text).unwrap();
    let refused = overwinter()
        .args(["house", "check"])
        .arg(&file)
        .assert()
        .code(2)
        .stdout("");
    let error = String::from_utf8(refused.get_output().stderr.clone()).unwrap();
    assert!(
        error.contains("indoor.humidity_limit: found 60, "),
        "{error}"
    );
    assert!(
        error.contains(
            "heating.design_load: found \"9 °C\", expected a power (kW, W, Btu/h, kBtu/h, ton)"
        ),
        "{error}"
    );
}

#[test]
fn a_house_without_an_altitude_is_told_that_sea_level_is_assumed() {
    let folder = tempdir().unwrap();
    let file = folder.path().join("row.toml");
    overwinter()
        .args(["house", "new"])
        .arg(&file)
        .assert()
        .success();
    let text = std::fs::read_to_string(&file).unwrap();
    let (before, rest) = text.split_once("[site]").unwrap();
    let (_, after) = rest.split_once("[energy]").unwrap();
    std::fs::write(&file, format!("{before}[energy]{after}")).unwrap();
    let words = overwinter()
        .args(["house", "check"])
        .arg(&file)
        .assert()
        .success();
    let words = String::from_utf8(words.get_output().stdout.clone()).unwrap();
    assert!(
        words.contains("Place: altitude not given: sea level is assumed. No climate is named"),
        "{words}"
    );
}
