//! `overwinter climate`.

use std::path::Path;

use assert_cmd::Command;
use tempfile::tempdir;

fn climate(catalog: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::cargo_bin("overwinter").expect("the program is built");
    command
        .env("OVERWINTER_CATALOG", catalog)
        .arg("climate")
        .args(arguments);
    command
}

fn printed(command: &mut Command) -> String {
    String::from_utf8(command.assert().success().get_output().stdout.clone()).expect("text")
}

#[test]
fn a_climate_comes_in_is_shown_and_goes_again() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let file = folder.path().join("Our valley.csv");
    std::fs::write(
        &file,
        "# name: Our valley\nhours,outdoor_db_f\n4380,14\n4380,50\n",
    )
    .unwrap();
    let file = file.to_str().unwrap();
    let imported = printed(&mut climate(&catalog, &["import", file]));
    assert!(
        imported
            .starts_with("Imported our-valley: Our valley, 8760 hours in 2 states.\n- no humidity"),
        "{imported}"
    );
    assert!(
        printed(&mut climate(&catalog, &["import", file]))
            .starts_with("Already there, unchanged: our-valley")
    );
    assert!(printed(&mut climate(&catalog, &["list"])).contains("our-valley"));
    let json = printed(&mut climate(
        &catalog,
        &["show", "our-valley", "--format", "json"],
    ));
    let answer: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(answer["hours"], 8760.0);
    assert_eq!(answer["states"][1]["outdoor_db_c"], 10.0);
    assert!(printed(&mut climate(&catalog, &["show", "our-valley"])).contains("-10.0   4380  █"));
    climate(&catalog, &["remove", "our-valey"])
        .assert()
        .code(2)
        .stderr("error: no climate `our-valey` in the catalog\nhint: did you mean `our-valley`?\n");
    printed(&mut climate(&catalog, &["remove", "our-valley"]));
    climate(&catalog, &["show", "our-valley"]).assert().code(2);
}

#[test]
fn a_first_run_has_the_built_in_climates() {
    let folder = tempdir().unwrap();
    let list = printed(&mut climate(&folder.path().join("catalog.db"), &["list"]));
    let keys: Vec<&str> = list
        .lines()
        .skip(2)
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    assert!(
        keys.contains(&"chicago-ohare") && keys.contains(&"pittsburgh"),
        "{list}"
    );
}

#[test]
fn a_bad_file_changes_nothing() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let file = folder.path().join("bad.epw");
    std::fs::write(&file, "not weather\n").unwrap();
    let refused = climate(&catalog, &["import", file.to_str().unwrap()])
        .assert()
        .code(2);
    let error = String::from_utf8(refused.get_output().stderr.clone()).unwrap();
    assert!(
        error.contains("bad.epw:1: found \"not weather\", expected the header line LOCATION"),
        "{error}"
    );
    assert!(!catalog.exists());
}

#[test]
fn design_temperatures_carry_their_source_and_those_from_memory_a_mark() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let text = printed(&mut climate(&catalog, &["design", "saskatoon"]));
    assert!(
        text.contains("Saskatoon*") && text.contains("verify it there before use"),
        "{text}"
    );
    climate(&catalog, &["design", "torronto"])
        .assert()
        .code(2)
        .stderr("error: no design temperatures for `torronto` in the table\nhint: did you mean `Toronto`?\n");
}
