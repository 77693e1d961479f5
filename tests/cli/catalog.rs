//! `overwinter catalog`.

use std::path::{Path, PathBuf};
use std::process::{Command as Process, Output, Stdio};

use tempfile::{TempDir, tempdir};

const SOURCES: &str = "source,title,kind\nbench,\"A bench, invented\",invented\n";
const UNITS: &str = "unit,form,source\nalder,wall,bench\n";
const POINTS: &str =
    "unit,mode,speed,outdoor_db_f,capacity_btu_h,cop\nalder,heating,maximum,5,14000,2.2\n";

fn overwinter(catalog: &Path, arguments: &[&str]) -> Process {
    let mut process = Process::new(env!("CARGO_BIN_EXE_overwinter"));
    process
        .arg("--catalog")
        .arg(catalog)
        .arg("catalog")
        .args(arguments);
    process
}

fn run(catalog: &Path, arguments: &[&str]) -> (i32, String, String) {
    said(
        &overwinter(catalog, arguments)
            .output()
            .expect("the program runs"),
    )
}

fn said(output: &Output) -> (i32, String, String) {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).expect("text");
    (
        output.status.code().expect("an exit code"),
        text(&output.stdout),
        text(&output.stderr),
    )
}

fn folder(points: &str) -> (TempDir, PathBuf, String) {
    let folder = tempdir().expect("a folder");
    for (name, text) in [
        ("sources.csv", SOURCES),
        ("units.csv", UNITS),
        ("points.csv", points),
    ] {
        std::fs::write(folder.path().join(name), text).expect("written");
    }
    let catalog = folder.path().join("catalog.db");
    let files = folder.path().display().to_string();
    (folder, catalog, files)
}

#[test]
fn units_come_in_once_are_shown_and_go_again() {
    let (_folder, catalog, files) = folder(POINTS);
    let (code, out, _) = run(&catalog, &["import", &files]);
    assert_eq!(code, 0);
    assert!(
        out.contains("1 unit: 1 new, 0 replaced, 0 unchanged"),
        "{out}"
    );
    let before = std::fs::read(&catalog).unwrap();
    let (code, out, _) = run(&catalog, &["import", &files]);
    assert_eq!(
        (code, out.starts_with("nothing new: 1 unit")),
        (0, true),
        "{out}"
    );
    assert_eq!(std::fs::read(&catalog).unwrap(), before);

    let (_, shown, _) = run(&catalog, &["show", "alder"]);
    assert!(
        shown.contains("A bench, invented")
            && shown.contains("outdoor_db 5 °F; capacity 14000 Btu/h"),
        "{shown}"
    );
    assert!(
        shown.lines().all(|line| line.chars().count() <= 80),
        "{shown}"
    );
    let (_, json, _) = run(&catalog, &["show", "alder", "--format", "json"]);
    let shown: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(shown["points"][0]["outdoor_db_c"], -15.0);
    assert_eq!(shown["sources"][0]["kind"], "invented");

    let (code, _, err) = run(&catalog, &["remove", "aldr"]);
    assert_eq!(code, 2);
    assert!(
        err.contains("no unit `aldr`") && err.contains("did you mean `alder`?"),
        "{err}"
    );
    assert_eq!(
        run(&catalog, &["remove", "alder"]),
        (0, "removed alder\n".to_owned(), String::new())
    );
    assert_eq!(run(&catalog, &["show", "alder"]).0, 2);
}

#[test]
fn problems_are_told_on_standard_error_with_exit_code_2_and_nothing_changes() {
    let (_folder, catalog, files) = folder(&POINTS.replace("14000", "lots"));
    assert_eq!(run(&catalog, &["list"]).0, 0);
    let before = std::fs::read(&catalog).unwrap();
    let (code, out, err) = run(&catalog, &["import", &files]);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(
        err.contains("points.csv:2: capacity_btu_h: found \"lots\", expected a number"),
        "{err}"
    );
    assert_eq!(std::fs::read(&catalog).unwrap(), before);
}

#[test]
fn the_first_run_lists_the_built_in_units_within_80_columns() {
    let folder = tempdir().unwrap();
    let (code, out, _) = run(&folder.path().join("catalog.db"), &["list"]);
    assert_eq!(code, 0);
    assert!(
        out.contains("DEMO larch 6") && out.contains("AA001") && out.contains("48 units"),
        "{out}"
    );
    assert!(out.lines().all(|line| line.chars().count() <= 80), "{out}");
}

#[test]
fn the_check_names_units_and_points() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let (code, out, _) = run(&catalog, &["check"]);
    assert_eq!(code, 0);
    // The register has these two capacities and COPs, digit for digit, at -10 and -15 °C.
    let copied = "heating, maximum, -15 °C: 2.3 kW at a COP of 3.14, digit for digit as at";
    assert!(out.contains("AA010\n") && out.contains(copied), "{out}");
    assert!(
        out.contains("turndown_missing") && out.contains("operating_limit_missing"),
        "{out}"
    );
    let (_, json, _) = run(&catalog, &["check", "--impossible", "--format", "json"]);
    assert_eq!(json, "[]\n", "no built-in number is impossible");
}

#[test]
fn an_export_is_an_import_that_changes_nothing() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    let copy = folder.path().join("copy");
    let copy = copy.to_str().unwrap();
    assert_eq!(run(&catalog, &["export", copy]).0, 0);
    let (code, out, _) = run(&catalog, &["import", copy]);
    assert!(
        code == 0 && out.starts_with("nothing new: 48 units"),
        "{out}"
    );
    let (code, _, err) = run(&catalog, &["export", copy]);
    assert!(code == 2 && err.contains("exists already"), "{err}");
}

#[test]
fn a_damaged_or_newer_catalog_is_exit_code_3_and_stays_as_it_is() {
    let folder = tempdir().unwrap();
    let catalog = folder.path().join("catalog.db");
    assert_eq!(run(&catalog, &["list"]).0, 0);
    let sound = std::fs::read(&catalog).unwrap();
    let mut newer = sound.clone();
    newer[60..64].copy_from_slice(&99_u32.to_be_bytes());
    for (bytes, words) in [
        (&sound[..sound.len() / 2], "is damaged"),
        (&newer[..], "newer version"),
    ] {
        for arguments in [
            &["list"][..],
            &["import", "."],
            &["remove", "AA001"],
            &["check"],
        ] {
            std::fs::write(&catalog, bytes).unwrap();
            let (code, _, err) = run(&catalog, arguments);
            // An import looks at its files first: a folder without any is its own error.
            let expected = if arguments[0] == "import" { 2 } else { 3 };
            assert_eq!(code, expected, "{arguments:?}: {err}");
            assert!(
                expected == 2 || (err.contains(words) && err.contains("catalog.db")),
                "{err}"
            );
            assert_eq!(std::fs::read(&catalog).unwrap(), bytes);
        }
    }
}

#[test]
fn two_imports_at_once_both_arrive() {
    let (_one, catalog, first) = folder(POINTS);
    let (two, _, second) = folder(&POINTS.replace("alder", "birch"));
    std::fs::write(
        two.path().join("units.csv"),
        UNITS.replace("alder", "birch"),
    )
    .unwrap();
    let started: Vec<_> = [first, second]
        .iter()
        .map(|files| {
            overwinter(&catalog, &["import", files])
                .stdout(Stdio::piped())
                .stderr(Stdio::piped())
                .spawn()
                .unwrap()
        })
        .collect();
    for process in started {
        let (code, _, err) = said(&process.wait_with_output().unwrap());
        assert_eq!(code, 0, "{err}");
    }
    for key in ["alder", "birch"] {
        assert_eq!(run(&catalog, &["show", key]).0, 0);
    }
}

/// The program as a user without rights to a folder would run it, whoever runs the test.
#[cfg(unix)]
#[test]
fn a_write_protected_catalog_can_be_read_but_not_changed() {
    use std::os::unix::fs::{MetadataExt, PermissionsExt};
    use std::os::unix::process::CommandExt;

    let (folder, catalog, files) = folder(POINTS);
    assert_eq!(run(&catalog, &["list"]).0, 0);
    let program = folder.path().join("program");
    std::fs::copy(env!("CARGO_BIN_EXE_overwinter"), &program).unwrap();
    let allow = |path: &Path, mode| {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap()
    };
    for name in ["sources.csv", "units.csv", "points.csv", "catalog.db"] {
        allow(&folder.path().join(name), 0o444);
    }
    allow(folder.path(), 0o555);
    let before = std::fs::read(&catalog).unwrap();
    let unprivileged = |arguments: &[&str]| {
        let mut process = Process::new(&program);
        process
            .arg("--catalog")
            .arg(&catalog)
            .arg("catalog")
            .args(arguments);
        if std::fs::metadata(folder.path()).unwrap().uid() == 0 {
            // Root may write anywhere: a user number without rights here.
            process.uid(65_534);
        }
        // A test beside this one that starts a process may still hold the fresh copy open for writing, for a moment.
        let output = loop {
            match process.output() {
                Err(error) if error.kind() == std::io::ErrorKind::ExecutableFileBusy => {
                    std::thread::sleep(std::time::Duration::from_millis(10));
                }
                output => break output.unwrap(),
            }
        };
        said(&output)
    };
    let (code, out, err) = unprivileged(&["list"]);
    assert!(code == 0 && out.contains("48 units"), "{err}");
    let (code, _, err) = unprivileged(&["import", &files]);
    assert_eq!(code, 2, "{err}");
    assert!(
        err.contains("write-protected; nothing was changed"),
        "{err}"
    );
    assert_eq!(std::fs::read(&catalog).unwrap(), before);
    allow(folder.path(), 0o755);
}
