//! A catalog, climates and a house for one test, all invented, in a folder of its own.

use std::path::PathBuf;

use assert_cmd::Command;
use overwinter::catalog::{Catalog, WrittenPoint};
use overwinter::climate::{Climate, Record, Station};
use overwinter::equipment::{Form, Mode, Model, Point, Source, SourceId, SourceKind, Speed};
use overwinter::psychrometrics::{STANDARD_PRESSURE, humidity_ratio_at_relative};
use overwinter::quantity::{Celsius, Hours, Kilowatts};
use tempfile::TempDir;

/// A folder with a catalog and a house in it.
pub struct Demo {
    folder: TempDir,
}

/// The invented house; it names the climate `lakeside`.
pub const HOUSE: &str = r#"
name = "Test house (invented)"
[indoor]
heating = "22 °C"
cooling = "24 °C"
humidity_limit = 0.60
[heating]
design_outdoor = "-15 °C"
design_load = "8 kW"
zero_load_outdoor = "15 °C"
[cooling]
design_outdoor = "32 °C"
design_sensible = "5 kW"
zero_load_outdoor = "19 °C"
fan = "continuous"
[moisture]
people_and_activities = "10 kg/d"
infiltration = "12 L/s"
ventilation = "35 L/s"
latent_recovery = 0.5
[site]
altitude = "0 m"
climate = "lakeside"
"#;

impl Demo {
    /// Units of 6, 8, 10 and 12 kW that turn down to 30 %, one of 10 kW that hardly does, and two climates: `lakeside`
    /// and, 4 K colder all year, `severe`.
    pub fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut catalog = Catalog::create(&folder.path().join("catalog.db")).unwrap();
        let mut writing = catalog.write().unwrap();
        let (source, _) = writing
            .put_source(&Source {
                key: "invented".into(),
                title: "Invented for a test".into(),
                publisher: None,
                year: None,
                reference: None,
                licence: None,
                kind: SourceKind::Invented,
                note: None,
            })
            .unwrap();
        let units = [
            ("alder-6", 6.0, 0.3, Some((4000.0, "CAD"))),
            ("birch-8", 8.0, 0.3, Some((5000.0, "CAD"))),
            ("cedar-10", 10.0, 0.3, Some((7000.0, "USD"))),
            ("dogwood-10-narrow", 10.0, 0.9, None),
            ("elm-12", 12.0, 0.3, None),
        ];
        for (key, nominal, turndown, price) in units {
            let (unit, _) = writing.put_model(&model(key, price, source), None).unwrap();
            let mut points: Vec<WrittenPoint> = points(nominal, turndown, source)
                .into_iter()
                .map(|point| WrittenPoint {
                    point,
                    as_written: None,
                })
                .collect();
            writing.put_points(unit, &mut points).unwrap();
        }
        writing.put_climate(&climate("lakeside", 12.0)).unwrap();
        writing.put_climate(&climate("severe", 8.0)).unwrap();
        writing.commit().unwrap();
        let demo = Self { folder };
        demo.write("house.toml", HOUSE);
        demo
    }

    /// Writes a file into the folder and returns its path.
    pub fn write(&self, name: &str, text: &str) -> PathBuf {
        let path = self.folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path
    }

    /// Where a file of the folder is.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// A command on this catalog, run in the folder, 80 columns wide.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::cargo_bin("overwinter").unwrap();
        command
            .current_dir(self.folder.path())
            .env_remove("NO_COLOR")
            .env("OVERWINTER_CATALOG", "catalog.db")
            .env("COLUMNS", "80")
            .args(arguments);
        command
    }

    /// What a command that ends well prints.
    pub fn prints(&self, arguments: &[&str]) -> String {
        let output = self
            .command(arguments)
            .assert()
            .success()
            .get_output()
            .clone();
        String::from_utf8(output.stdout).unwrap()
    }

    /// The JSON that a command that ends well prints.
    pub fn json(&self, arguments: &[&str]) -> serde_json::Value {
        serde_json::from_str(&self.prints(arguments)).unwrap()
    }

    /// What a command refused as an input error says.
    pub fn refuses(&self, arguments: &[&str]) -> String {
        let output = self
            .command(arguments)
            .assert()
            .code(2)
            .stdout("")
            .get_output()
            .clone();
        String::from_utf8(output.stderr).unwrap()
    }
}

fn model(key: &str, price: Option<(f64, &str)>, source: SourceId) -> Model {
    Model {
        operates_to: Some(Celsius(-25.0)),
        standby_w: Some(10.0),
        price: price.map(|(price, _)| price),
        currency: price.map(|(_, currency)| currency.into()),
        ..Model::new(key, Form::Ducted, source)
    }
}

/// Capacity at -25 °C and 10 °C, or at 20 °C and 38 °C, as shares of the nominal one, with COP.
fn points(nominal: f64, turndown: f64, source: SourceId) -> Vec<Point> {
    let mut points = Vec::new();
    for (speed, part) in [(Speed::Minimum, turndown), (Speed::Maximum, 1.0)] {
        let places = [
            (Mode::Heating, -25.0, 0.8, 1.6),
            (Mode::Heating, 10.0, 1.2, 3.8),
            (Mode::Cooling, 20.0, 1.0, 6.0),
            (Mode::Cooling, 38.0, 0.9, 3.0),
        ];
        for (mode, outdoor, share, cop) in places {
            let capacity = nominal * share * part;
            points.push(Point {
                mode,
                speed,
                outdoor: Celsius(outdoor),
                indoor_dry_bulb: None,
                indoor_wet_bulb: None,
                capacity: Kilowatts(capacity),
                power: Kilowatts(capacity / cop),
                sensible_heat_ratio: (mode == Mode::Cooling).then_some(0.75),
                airflow: None,
                fan_basis: None,
                frost_basis: None,
                source,
            });
        }
    }
    points
}

/// A year of hours that swing 15 K by season and 5 K by day about a mean, at 75 % relative humidity.
fn climate(key: &str, mean: f64) -> Climate {
    let months = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let mut records = Vec::new();
    let mut day_of_year = 0.0;
    for (month, days) in (1_u8..).zip(months) {
        for day in 1..=days {
            for hour in 1..=24_u8 {
                let season = (std::f64::consts::TAU * (day_of_year - 15.0) / 365.0).cos();
                let time = (std::f64::consts::TAU * (f64::from(hour) - 4.0) / 24.0).cos();
                let outdoor = Celsius(mean - 15.0 * season - 5.0 * time);
                records.push(Record {
                    month,
                    day,
                    hour,
                    hours: Hours(1.0),
                    outdoor,
                    humidity_ratio: Some(humidity_ratio_at_relative(
                        outdoor,
                        0.75,
                        STANDARD_PRESSURE,
                    )),
                });
            }
            day_of_year += 1.0;
        }
    }
    let station = Station {
        key: key.into(),
        name: format!("{key} (invented)"),
        source: "invented for a test".into(),
        ..Station::default()
    };
    Climate::from_records(station, records, Vec::new())
}
