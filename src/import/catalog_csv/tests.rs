//! Whole imports: what is read, what is refused, and that a refusal changes nothing.

use std::path::PathBuf;

use super::*;
use crate::catalog::Catalog;
use crate::equipment::{FanBasis, Mode, Speed};

const SOURCES: &str = "source,title,kind\nbench,\"A bench, invented\",invented\n";
const UNITS: &str = "unit,form,source\nalder,wall,bench\nbirch,ducted,bench\n";
const POINTS: &str = "unit,mode,speed,outdoor_db_c,capacity_kw,cop\n\
    alder,heating,maximum,-15,4.4,2.2\nalder,heating,maximum,8.3,6,4\nbirch,cooling,rated,35,3,3\n";

/// A folder with the three files.
struct Files {
    folder: tempfile::TempDir,
}

impl Files {
    fn new(sources: &str, units: &str, points: impl AsRef<[u8]>) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("sources.csv"), sources).unwrap();
        std::fs::write(folder.path().join("units.csv"), units).unwrap();
        std::fs::write(folder.path().join("points.csv"), points).unwrap();
        Self { folder }
    }

    fn import(&self, catalog: &mut Catalog) -> Result<Summary, ImportError> {
        let files = CatalogFiles::find(&[self.folder.path().to_path_buf()])
            .map_err(|problems| ImportError::Problems { problems, more: 0 })?;
        import_catalog(catalog, &files)
    }
}

fn imported(sources: &str, units: &str, points: impl AsRef<[u8]>) -> Catalog {
    let mut catalog = Catalog::in_memory().unwrap();
    Files::new(sources, units, points)
        .import(&mut catalog)
        .unwrap();
    catalog
}

/// Every problem, without the folder's name; the catalog is shown to be as it was.
fn refused(sources: &str, units: &str, points: impl AsRef<[u8]>) -> Vec<String> {
    let mut catalog = imported(SOURCES, UNITS, POINTS);
    let before = (catalog.counts().unwrap(), catalog.revision().unwrap());
    let files = Files::new(sources, units, points);
    let error = files.import(&mut catalog).expect_err("problems");
    assert_eq!(
        (catalog.counts().unwrap(), catalog.revision().unwrap()),
        before
    );
    let folder = format!("{}/", files.folder.path().display());
    error
        .to_string()
        .replace(&folder, "")
        .lines()
        .map(str::to_owned)
        .collect()
}

#[test]
fn units_and_points_are_read_with_their_sources() {
    let catalog = imported(SOURCES, UNITS, POINTS);
    let alder = catalog.unit("alder").unwrap();
    assert_eq!(alder.points.len(), 2);
    assert_eq!(
        (alder.points[0].capacity.0, alder.points[0].power.0),
        (4.4, 4.4 / 2.2)
    );
    assert_eq!(
        catalog.source(alder.points[0].source).unwrap().title,
        "A bench, invented"
    );
    let birch = catalog.unit("birch").unwrap();
    assert_eq!(
        (birch.points[0].mode, birch.points[0].speed),
        (Mode::Cooling, Speed::Rated)
    );
    assert_eq!(birch.model.price, None);
}

#[test]
fn byte_order_mark_windows_lines_quotes_and_blank_lines_change_nothing() {
    let plain = imported(SOURCES, UNITS, POINTS);
    let dressed = |text: &str| {
        let lines: Vec<String> = text
            .lines()
            .map(|line| line.replace("alder", "\"alder\""))
            .collect();
        format!("\u{feff}{}\r\n\r\n , ,\r\n", lines.join("\r\n\r\n")).replace(" , ,", "")
    };
    let other = imported(&dressed(SOURCES), &dressed(UNITS), dressed(POINTS));
    for key in plain.keys().unwrap() {
        assert_eq!(plain.unit(&key).unwrap(), other.unit(&key).unwrap());
    }
}

// Source of the factors: NIST SP 811: 1 ton of refrigeration = 3.516 853 kW, 1 Btu/h = 0.293 071 07 W,
// 1 ft3/min = 0.471 947 4 L/s; 5 °F = -15 °C; 95 °F = 35 °C.
#[test]
fn inch_pound_columns_are_converted_and_the_original_is_kept() {
    let points = "unit,mode,speed,outdoor_db_f,indoor_db_f,capacity_btu_h,eer_btu_wh,airflow_cfm,fan_basis\n\
        alder,cooling,rated,95,80,24000,12,800,net\n";
    let units = "unit,form,source,operates_to_f\nalder,wall,bench,5\n";
    let catalog = imported(SOURCES, units, points);
    let (unit, as_written) = catalog.unit_as_written("alder").unwrap();
    let point = unit.points[0];
    assert_eq!(
        (point.outdoor.0, unit.model.operates_to.unwrap().0),
        (35.0, -15.0)
    );
    assert!((point.capacity.0 - 7.033_706).abs() < 1e-6);
    assert!(
        (point.power.0 - 2.0).abs() < 1e-9,
        "24 000 Btu/h at 12 Btu/Wh are 2 kW: {}",
        point.power.0
    );
    assert!((point.airflow.unwrap().0 - 377.557_95).abs() < 1e-4);
    assert_eq!(point.fan_basis, Some(FanBasis::Net));
    assert_eq!(
        as_written.points[0].as_deref(),
        Some(
            "outdoor_db 95 °F; indoor_db 80 °F; capacity 24000 Btu/h; efficiency 12 Btu/Wh; airflow 800 cfm"
        )
    );
    assert_eq!(as_written.model.as_deref(), Some("operates_to 5 °F"));
    let tons = "unit,mode,speed,outdoor_db_c,capacity_ton,power_w\nalder,cooling,rated,35,2,2000\n";
    let (unit, as_written) = imported(SOURCES, UNITS, tons)
        .unit_as_written("alder")
        .unwrap();
    assert!((unit.points[0].capacity.0 - 7.033_706).abs() < 1e-6);
    assert_eq!(
        (unit.points[0].power.0, as_written.points[0].as_deref()),
        (2.0, Some("capacity 2 ton"))
    );
}

#[test]
fn importing_the_same_again_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("catalog.db");
    let files = Files::new(SOURCES, UNITS, POINTS);
    let mut catalog = Catalog::create(&path).unwrap();
    let first = files.import(&mut catalog).unwrap();
    assert_eq!(
        (first.sources.new, first.units.new, first.points),
        (1, 2, 3)
    );
    drop(catalog);
    let before = std::fs::read(&path).unwrap();
    let mut catalog = Catalog::open(&path).unwrap();
    let second = files.import(&mut catalog).unwrap();
    assert!(second.is_nothing_new());
    assert_eq!(second.units.unchanged, 2);
    drop(catalog);
    assert_eq!(std::fs::read(&path).unwrap(), before);
}

#[test]
fn a_changed_unit_is_replaced_whole_and_the_others_stay() {
    let mut catalog = imported(SOURCES, UNITS, POINTS);
    let points =
        "unit,mode,speed,outdoor_db_c,capacity_kw,power_kw\nalder,heating,maximum,-15,4.6,2\n";
    let units = "unit,form,source\nalder,floor,bench\n";
    let summary = Files::new(SOURCES, units, points)
        .import(&mut catalog)
        .unwrap();
    assert_eq!((summary.units.replaced, summary.units.total()), (1, 1));
    let alder = catalog.unit("alder").unwrap();
    assert_eq!((alder.points.len(), alder.points[0].capacity.0), (1, 4.6));
    assert_eq!(catalog.unit("birch").unwrap().points.len(), 1);
    // Points that are gone from the file are gone from the entry.
    let none = "unit,mode,speed,outdoor_db_c,capacity_kw,cop\n";
    let summary = Files::new(SOURCES, units, none)
        .import(&mut catalog)
        .unwrap();
    assert_eq!(
        (summary.units.replaced, summary.units_without_points_count),
        (1, 1)
    );
    assert!(catalog.unit("alder").unwrap().points.is_empty());
}

#[test]
fn the_order_of_points_in_the_file_does_not_matter() {
    let shuffled = "unit,mode,speed,outdoor_db_c,capacity_kw,cop\n\
        alder,heating,maximum,8.3,6,4\nbirch,cooling,rated,35,3,3\nalder,heating,maximum,-15,4.4,2.2\n";
    let mut catalog = imported(SOURCES, UNITS, POINTS);
    let summary = Files::new(SOURCES, UNITS, shuffled)
        .import(&mut catalog)
        .unwrap();
    assert!(summary.is_nothing_new(), "{summary:?}");
    assert_eq!(summary.points, 3);
}

#[test]
fn an_export_imported_again_changes_nothing() {
    for mut catalog in [
        Catalog::builtin().unwrap(),
        imported(SOURCES, UNITS, POINTS.replace("db_c", "db_f")),
    ] {
        let (mut sources, mut units, mut points) = (Vec::new(), Vec::new(), Vec::new());
        catalog.export_sources(&mut sources).unwrap();
        catalog.export_units(&mut units, &mut points).unwrap();
        let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
        let files = Files::new(&text(&sources), &text(&units), &points);
        let summary = files.import(&mut catalog).unwrap();
        assert!(summary.is_nothing_new(), "{summary:?}");
        let mut fresh = Catalog::in_memory().unwrap();
        files.import(&mut fresh).unwrap();
        for key in catalog.keys().unwrap() {
            let (left, right) = (
                fresh.unit_as_written(&key).unwrap(),
                catalog.unit_as_written(&key).unwrap(),
            );
            assert_eq!(left.1, right.1);
            assert_eq!(left.0.points.len(), right.0.points.len());
        }
    }
}

#[test]
fn every_problem_is_listed_with_line_column_find_and_expectation() {
    let points = "unit,mode,speed,outdoor_db_c,capacity_kw,cop,power_kw,shr\n\
        alder,heating,maximum,-15,four,2.2,,\n\
        alder,heating,maximum,cold,4,2.2,,\n\n\
        alder,heating,maximum,-8,-3,2.2,,\n\
        alder,heating,maximum,-7,0,2.2,,\n\
        alder,heating,maximum,-6,NaN,2.2,,\n\
        alder,heating,maximum,-5,inf,2.2,,\n\
        alder,heating,maximum,-4,4,,,\n\
        alder,heating,maximum,-3,4,2,2,\n\
        aldr,heating,maximum,-2,4,2,,\n\
        alder,heat,maxmum,-1,4,2,,\n\
        alder,cooling,rated,35,4,2,,1.2\n\
        alder,cooling,rated,95,4,2,,\n\
        alder,cooling,rated,35,\"4,5\",2,,\n\
        alder,cooling,rated,35\n";
    assert_eq!(
        refused(SOURCES, UNITS, points),
        [
            "points.csv:2: capacity_kw: found \"four\", expected a number",
            "points.csv:3: outdoor_db_c: found \"cold\", expected a number",
            "points.csv:5: capacity_kw: found \"-3\", expected a number above zero",
            "points.csv:6: capacity_kw: found \"0\", expected a number above zero",
            "points.csv:7: capacity_kw: found \"NaN\", expected a finite number",
            "points.csv:8: capacity_kw: found \"inf\", expected a finite number",
            "points.csv:9: cop: found nothing, expected a COP (`cop`, `eer_btu_wh`) or a power (`power_kw`, `power_w`)",
            "points.csv:10: power_kw: found both a COP and a power, expected one of the two",
            "points.csv:11: unit: found \"aldr\", expected a unit of units.csv or of the catalog",
            "  hint: did you mean `alder`?",
            "points.csv:12: mode: found \"heat\", expected heating or cooling",
            "  hint: did you mean `heating`?",
            "points.csv:12: speed: found \"maxmum\", expected minimum, rated or maximum",
            "  hint: did you mean `maximum`?",
            "points.csv:13: shr: found \"1.2\", expected a number above 0 and at most 1",
            "points.csv:14: outdoor_db_c: found \"95\", expected a temperature from -70 to 60 °C",
            "points.csv:15: capacity_kw: found \"4,5\", expected a number",
            "  hint: a decimal sign is a point",
            "points.csv:16: found 4 cells, expected 8 cells, as the header has",
            "  hint: a text with a comma in it needs quotation marks around it",
        ]
    );
}

#[test]
fn problems_of_sources_and_units_are_listed_together() {
    let sources = "source,title,kind,year\nbench,,invented,\nbench,Again,made up,MMXX\n";
    let units = "unit,form,source,certified,degradation_heating,price\n\
        alder,wal,bench,perhaps,1,-5\nalder,wall,bensh,,,\n";
    assert_eq!(
        refused(sources, units, POINTS),
        [
            "sources.csv:2: title: found nothing, expected a title",
            "sources.csv:3: source: found \"bench\" again, after line 2, expected each once",
            "sources.csv:3: kind: found \"made up\", expected standard_test, laboratory, declared, quote, generic or invented",
            "sources.csv:3: year: found \"MMXX\", expected a year",
            "units.csv:2: form: found \"wal\", expected ducted, wall, floor, cassette or mixed",
            "  hint: did you mean `wall`?",
            "units.csv:2: certified: found \"perhaps\", expected yes or no",
            "units.csv:2: degradation_heating: found \"1\", expected a number from 0 to below 1",
            "units.csv:2: price: found \"-5\", expected a number, zero or above",
            "units.csv:3: unit: found \"alder\" again, after line 2, expected each once",
            "units.csv:3: source: found \"bensh\", expected a source of sources.csv or of the catalog",
            "  hint: did you mean `bench`?",
        ]
    );
}

#[test]
fn a_point_that_stands_twice_is_named_with_both_lines() {
    let twice = format!("{POINTS}birch,cooling,maximum,35,4,3\nbirch,cooling,rated,35,3.1,3\n");
    assert_eq!(
        refused(SOURCES, UNITS, twice),
        [
            "points.csv:6: found the point of line 4 again, expected one point at a mode, speed, outdoor temperature and indoor condition"
        ]
    );
}

#[test]
fn a_header_is_checked_column_by_column() {
    let header = |header: &str| refused(SOURCES, UNITS, header);
    assert_eq!(
        header("unit,mode,speed,outdoor_db_c,capacity_kw,capacity_btu_h,cop,cop,capacty,fuel\n"),
        [
            "points.csv:1: found columns `capacity_kw` and `capacity_btu_h`, expected one column for `capacity`",
            "points.csv:1: found column `cop` twice, expected each column once",
            "points.csv:1:65: found column \"capacty\", expected a known column",
            "  hint: did you mean `capacity_w`?",
            "points.csv:1:73: found column \"fuel\", expected a known column",
            "  hint: the columns are unit, mode, speed, outdoor_db_c, outdoor_db_f, indoor_db_c, indoor_db_f, indoor_wb_c, \
             indoor_wb_f, capacity_kw, capacity_w, capacity_btu_h, capacity_ton, cop, eer_btu_wh, power_kw, power_w, shr, \
             airflow_l_s, airflow_cfm, airflow_m3_h, fan_basis, frost_basis, source, as_written",
        ]
    );
    assert_eq!(
        header("unit,mode,speed,cop\n"),
        [
            "points.csv:1: found no column for `outdoor_db`, expected a column `outdoor_db_c` or `outdoor_db_f`",
            "points.csv:1: found no column for `capacity`, expected a column `capacity_kw` or `capacity_w` or \
             `capacity_btu_h` or `capacity_ton`",
        ]
    );
    assert!(header("unit;mode;speed\n")[0].contains("expected columns separated by commas"));
    assert_eq!(
        header(""),
        [
            "points.csv: found an empty file, expected a header line with unit, mode, speed, outdoor_db, capacity"
        ]
    );
}

#[test]
fn files_that_are_no_text_or_no_table_are_refused() {
    let binary: Vec<u8> = (0..=255_u8).cycle().take(4096).collect();
    assert!(
        refused(SOURCES, UNITS, binary)[0]
            .starts_with("points.csv:1: found bytes that are no text")
    );
    let latin = [POINTS.as_bytes(), b"\xe9rable,heating,maximum,1,1,1\n"].concat();
    assert!(
        refused(SOURCES, UNITS, latin)[0].starts_with("points.csv:5: found bytes that are no text")
    );
    let open_quote = format!("{POINTS}\"alder,{}\n", "9".repeat(2 << 20));
    let problems = refused(SOURCES, UNITS, open_quote);
    assert!(
        problems[0].starts_with("points.csv:5: found a row of more than a million characters"),
        "{problems:?}"
    );
}

#[test]
fn paths_that_lead_nowhere_are_named() {
    let folder = tempfile::tempdir().unwrap();
    let missing = folder.path().join("points.csv");
    let stranger = folder.path().join("notes.txt");
    std::fs::write(&stranger, "buy milk\n").unwrap();
    let paths: Vec<PathBuf> = vec![missing, stranger, folder.path().to_path_buf()];
    let text = CatalogFiles::find(&paths).unwrap_err().to_string();
    assert!(
        text.contains("points.csv: found no such file, expected a file that can be read"),
        "{text}"
    );
    assert!(
        text.contains("notes.txt: found a file of another kind"),
        "{text}"
    );
    assert!(
        text.contains(
            "found a folder without any of them, expected sources.csv, units.csv, points.csv"
        ),
        "{text}"
    );
}

#[test]
fn a_file_is_known_by_its_header_where_its_name_says_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bench results.csv");
    std::fs::write(&path, POINTS).unwrap();
    let files = CatalogFiles::find(&[path]).unwrap();
    assert!(files.points.is_some() && files.units.is_none() && files.sources.is_none());
}

#[test]
fn a_full_disk_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("catalog.db");
    let mut catalog = Catalog::create(&path).unwrap();
    Files::new(SOURCES, UNITS, POINTS)
        .import(&mut catalog)
        .unwrap();
    catalog.limit_pages_for_tests(40);
    let many: String = (0..20_000)
        .map(|n| format!("alder,cooling,rated,{},3,3\n", f64::from(n) / 1000.0))
        .collect();
    let points = format!("unit,mode,speed,outdoor_db_c,capacity_kw,cop\n{many}");
    let error = Files::new(SOURCES, UNITS, points)
        .import(&mut catalog)
        .unwrap_err();
    assert!(
        matches!(
            error,
            ImportError::Catalog(crate::catalog::CatalogError::Full(_))
        ),
        "{error}"
    );
    assert_eq!(catalog.counts().unwrap().points, 3);
    assert_eq!(
        Catalog::open(&path)
            .unwrap()
            .unit("alder")
            .unwrap()
            .points
            .len(),
        2
    );
}

#[test]
fn two_imports_at_once_both_arrive() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("catalog.db");
    drop(Catalog::create(&path).unwrap());
    std::thread::scope(|scope| {
        for name in ["alder", "birch"] {
            let path = &path;
            scope.spawn(move || {
                for round in 0..20 {
                    let units = format!("unit,form,source\n{name} {round},wall,bench\n");
                    let points = format!(
                        "unit,mode,speed,outdoor_db_c,capacity_kw,cop\n{name} {round},heating,maximum,-15,4,2\n"
                    );
                    let mut catalog = Catalog::open(path).unwrap();
                    Files::new(SOURCES, &units, points).import(&mut catalog).unwrap();
                }
            });
        }
    });
    let counts = Catalog::open(&path).unwrap().counts().unwrap();
    assert_eq!((counts.units, counts.points, counts.sources), (40, 40, 1));
}

#[test]
fn units_are_judged_in_the_order_of_their_keys_on_any_number_of_cores() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("catalog.db");
    let mut catalog = Catalog::create(&path).unwrap();
    let (mut units, mut points) = (
        String::from("unit,form,source\n"),
        String::from("unit,mode,speed,outdoor_db_c,capacity_kw,cop\n"),
    );
    for number in 0..6_000 {
        let key = (number * 7919) % 6_000;
        units.push_str(&format!("u{key:05},wall,bench\n"));
        for point in 0..number % 3 {
            points.push_str(&format!(
                "u{key:05},heating,maximum,{point},{},2\n",
                key + 1
            ));
        }
    }
    Files::new(SOURCES, &units, points)
        .import(&mut catalog)
        .unwrap();
    let judge = |cores| {
        catalog
            .judge_on(cores, |unit| {
                (
                    unit.model.key.clone(),
                    unit.points
                        .iter()
                        .map(|point| point.capacity.0)
                        .sum::<f64>(),
                )
            })
            .unwrap()
    };
    let alone = judge(1);
    assert_eq!(alone.len(), 6_000);
    assert!(alone.is_sorted_by(|left, right| left.0 < right.0));
    assert_eq!(judge(2), alone);
    assert_eq!(judge(5), alone);
    for (key, sum) in alone.iter().step_by(500) {
        let unit = catalog.unit(key).unwrap();
        assert_eq!(
            unit.points
                .iter()
                .map(|point| point.capacity.0)
                .sum::<f64>(),
            *sum
        );
    }
}
