//! What the program says beside its answers: mistakes lead with their cause, and every line fits.

use std::path::Path;
use std::process::Command;

use tempfile::tempdir;

/// Exit code, standard output and standard error.
fn run(catalog: &Path, arguments: &[&str]) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_overwinter"))
        .arg("--catalog")
        .arg(catalog)
        .args(arguments)
        .env("COLUMNS", "80")
        .output()
        .expect("the program runs");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("text");
    let code = output.status.code().expect("an exit code");
    (code, text(output.stdout), text(output.stderr))
}

/// A house that is heated only, without a climate.
fn heated_house(climate: &str) -> String {
    format!(
        "name = \"Alder Row\"\n[indoor]\nheating = 21\ncooling = 24\n[heating]\ndesign_outdoor = -5\n\
         design_load = 0.9\nzero_load_outdoor = 15\n{climate}"
    )
}

#[test]
fn a_new_catalog_is_told_of_once_and_makes_no_folders() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let created = format!("created {} with the built-in data\n", catalog.display());
    let (code, _, told) = run(&catalog, &["catalog", "list"]);
    assert_eq!((code, told), (0, created));
    assert_eq!(run(&catalog, &["catalog", "list"]).2, "");

    let mistyped = folder.path().join("no such").join("catalog.db");
    let (code, _, error) = run(&mistyped, &["catalog", "list"]);
    assert!(
        code == 2 && error.contains("its folder does not exist"),
        "{error}"
    );
    assert!(!mistyped.parent().unwrap().exists());
}

#[test]
fn a_house_check_looks_its_climate_up() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let house = folder.path().join("house.toml");
    let check = |climate: &str| {
        std::fs::write(&house, heated_house(climate)).unwrap();
        run(&catalog, &["house", "check", house.to_str().unwrap()])
    };
    assert_eq!(check("[site]\nclimate = \"chicago-ohare\"\n").0, 0);
    let (code, _, error) = check("[site]\nclimate = \"chicago\"\n");
    assert_eq!(code, 2);
    assert!(
        error.contains("site.climate: no climate `chicago` in the catalog")
            && error.contains("did you mean `chicago-ohare`?"),
        "{error}"
    );
    let (code, _, error) = check("[site]\nclimate_file = \"none.epw\"\n");
    assert!(code == 2 && error.contains("none.epw"), "{error}");
}

#[test]
fn a_short_list_says_what_was_not_judged_and_whom_a_caveat_concerns() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let house = folder.path().join("house.toml");
    std::fs::write(&house, heated_house("")).unwrap();
    let (_, list, _) = run(&catalog, &["shortlist", house.to_str().unwrap()]);
    assert!(
        list.contains("\nCooling was not judged: the house file has no section [cooling]."),
        "{list}"
    );
    // In the register the coldest capacities and COPs of these units are, digit for digit, those of a milder point.
    let list = list.replace("\n  ", " ");
    assert!(
        list.contains("Caveat for AA010, AA011, AA012 and 3 more, AA010 for example: the heating point at -15.0 °C has the"),
        "{list}"
    );
    let (_, explained, _) = run(&catalog, &["explain", house.to_str().unwrap(), "AA011"]);
    assert!(explained.contains("probably copied, not measured"));
}

#[test]
fn a_second_reason_that_is_a_criterion_is_called_by_its_name() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let (house, criteria) = (folder.path().join("h.toml"), folder.path().join("c.toml"));
    std::fs::write(&house, heated_house("").replace("= 0.9", "= 90")).unwrap();
    std::fs::write(
        &criteria,
        "[[criterion]]\nname = \"warm hands\"\nvalue = \"heating.cop\"\nspeed = \"maximum\"\nat = -5\nat_least = 50\n",
    )
    .unwrap();
    let (_, list, _) = run(
        &catalog,
        &[
            "shortlist",
            house.to_str().unwrap(),
            "--criteria",
            criteria.to_str().unwrap(),
        ],
    );
    assert!(list.contains("also criterion \"warm hands\""), "{list}");
}

#[test]
fn a_wrong_header_hides_no_other_mistake_and_makes_none() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let import = |units: &str| {
        let files = [
            ("sources.csv", "source,title,kind\nbench,A bench,invented\n"),
            ("units.csv", units),
            (
                "points.csv",
                "unit,mode,speed,outdoor_db_c,capacity_kw,cop\nmy a,heeting,maximum,-15,4.4,2.2\n\
                 my a,heating,maximum,warm,4.4,2.2\nmy a,heating,maximum,8,five,2.2\n",
            ),
        ];
        for (name, text) in files {
            std::fs::write(folder.path().join(name), text).unwrap();
        }
        let (code, _, error) = run(
            &catalog,
            &["catalog", "import", folder.path().to_str().unwrap()],
        );
        assert_eq!(code, 2);
        for found in ["\"heeting\"", "\"warm\"", "\"five\""] {
            assert!(error.contains(found), "{found}: {error}");
        }
        assert!(!error.contains("a unit of units.csv"), "{error}");
        error
    };
    // An unknown column leaves the rows readable ...
    let error = import("unit,form,hspf3,source\nmy a,flor,9,bench\n");
    assert!(
        error.contains("did you mean `hspf`?") || error.contains("did you mean `hspf2`?"),
        "{error}"
    );
    assert!(error.contains("found \"flor\""), "{error}");
    assert_eq!(error.matches(": found ").count(), 5, "{error}");
    // ... a missing one does not, and nothing is said of units that are then not known.
    let error = import("unit,from,source\nmy a,floor,bench\n");
    assert!(error.contains("no column for `form`"), "{error}");
    assert_eq!(error.matches(": found ").count(), 5, "{error}");
}

#[test]
fn everything_fits_80_columns() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let house = folder.path().join("house.toml");
    std::fs::write(&house, heated_house("")).unwrap();
    for arguments in [
        &["about"][..],
        &["catalog", "check"],
        &["climate", "show", "chicago-ohare"],
        &["shortlist", house.to_str().unwrap()],
    ] {
        let (_, text, _) = run(&catalog, arguments);
        assert!(!text.is_empty());
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{arguments:?}: {line}");
        }
    }
}
