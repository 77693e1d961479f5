//! The sensible design load swept for one unit: ratio, cycling and humidity, as table, JSON and CSV.

use serde::Serialize;

use super::answer::{Note, notes};
use super::csv_text::{cells_of, csv_text};
use super::foot::sources_and_cautions;
use super::shortlist_table::unknown;
use super::table::{Column, PlainTable, paragraph};
use crate::cooling::{HumiditySeason, Known};
use crate::house::House;
use crate::quantity::{Hours, UnitSystem, fixed};
use crate::study::SensibleSweepRow;

/// What the sweep is of.
#[derive(Clone, Copy, Debug)]
pub struct SensibleSweepView<'a> {
    /// The house.
    pub house: &'a House,
    /// The unit's key.
    pub unit: &'a str,
    /// Whether the unit was chosen as the best accepted one.
    pub chosen: bool,
    /// The climate's key.
    pub climate: &'a str,
    /// Units shown to people.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// Titles of the sources behind the units shown.
    pub sources: &'a [String],
}

/// What holds of every such sweep.
const NOTES: [&str; 2] = [
    "The zero-load temperature is kept: only the slope of the sensible load line changes (our rule). Less sun also shortens \
     the season, which is not counted.",
    "Moisture gains stay as they are: less sun takes away heat, not water.",
];

/// The document.
#[derive(Debug, Serialize)]
pub struct SensibleSweepAnswer {
    house: String,
    unit: String,
    climate: String,
    rows: Vec<RowAnswer>,
    caveats: Vec<Note>,
    notes: [&'static str; 2],
}

#[derive(Debug, Serialize)]
struct RowAnswer {
    sensible_at_design_kw: f64,
    verdict: &'static str,
    house_shr_at_design: Option<f64>,
    minimum_sensible_kw: Option<f64>,
    minimum_to_load: Option<f64>,
    cooling_hours: Option<f64>,
    cycling_hours: Option<f64>,
    cycling_share: Option<f64>,
    humid_hours: Option<f64>,
    humid_share: Option<f64>,
    peak_rh: Option<f64>,
    dehumidification_l_per_year: Option<f64>,
    electricity_kwh: Option<f64>,
    shortfall_kwh: Option<f64>,
}

fn known(row: &SensibleSweepRow) -> Option<Known> {
    row.judged.cooling?.season?.known
}

fn humidity(row: &SensibleSweepRow) -> Option<HumiditySeason> {
    known(row)?.humidity
}

impl SensibleSweepAnswer {
    /// The document.
    #[must_use]
    pub fn of(view: &SensibleSweepView<'_>, rows: &[SensibleSweepRow]) -> Self {
        Self {
            house: view.house.name.clone(),
            unit: view.unit.to_owned(),
            climate: view.climate.to_owned(),
            rows: rows.iter().map(RowAnswer::of).collect(),
            caveats: rows
                .first()
                .map_or_else(Vec::new, |row| notes(&row.judged.caveats, view.units)),
            notes: NOTES,
        }
    }
}

impl RowAnswer {
    fn of(row: &SensibleSweepRow) -> Self {
        let figures = row.judged.cooling;
        let season = figures.and_then(|figures| figures.season);
        let humid = humidity(row);
        Self {
            sensible_at_design_kw: row.sensible.0,
            verdict: row.judged.verdict.name(),
            house_shr_at_design: row.house_sensible_heat_ratio,
            minimum_sensible_kw: figures
                .and_then(|figures| figures.minimum_sensible)
                .map(|minimum| minimum.0),
            minimum_to_load: row.minimum_to_load(),
            cooling_hours: season.map(|season| season.cooling_hours.0),
            cycling_hours: row.cycling_hours().map(|hours| hours.0),
            cycling_share: row.cycling_hours().and_then(|hours| row.share(hours)),
            humid_hours: humid.map(|humid| humid.humid_hours.0),
            humid_share: humid.and_then(|humid| row.share(humid.humid_hours)),
            peak_rh: humid.and_then(|humid| humid.peak_relative_humidity),
            dehumidification_l_per_year: humid.map(|humid| humid.supplemental.0),
            electricity_kwh: known(row).map(|known| known.electricity.0),
            shortfall_kwh: known(row).map(|known| known.shortfall.0),
        }
    }
}

/// The rows as CSV.
#[must_use]
pub fn sensible_sweep_csv(_view: &SensibleSweepView<'_>, rows: &[SensibleSweepRow]) -> String {
    let rows: Vec<RowAnswer> = rows.iter().map(RowAnswer::of).collect();
    let (header, cells) = cells_of(&rows);
    csv_text(&header, &cells)
}

/// The sweep for people.
#[must_use]
pub fn sensible_sweep_table(view: &SensibleSweepView<'_>, rows: &[SensibleSweepRow]) -> String {
    let units = view.units;
    let mut text = paragraph(
        &format!("{}: {}", view.house.name, view.unit),
        view.width,
        "",
        "",
    );
    let mut what = String::new();
    if view.chosen {
        what += "The best accepted unit of this house as it is. ";
    }
    if let Some(cooling) = &view.house.cooling {
        what += &format!(
            "The sensible load at {} swept; the house as it is gains {}. ",
            units.temperature(cooling.load.design_outdoor),
            units.power(cooling.load.design_sensible),
        );
    }
    what += &format!("Climate: {}.", view.climate);
    text += &paragraph(&what, view.width, "", "");
    text.push('\n');
    let heads = [
        format!("load {}", units.power_unit()),
        "house SHR".to_owned(),
        "minimum to load".to_owned(),
        "cycling hours".to_owned(),
        "humid hours".to_owned(),
        "RH % peak".to_owned(),
        units.water_per_year_unit().to_owned() + " to remove",
        "kWh a year".to_owned(),
        "verdict".to_owned(),
    ];
    let columns: Vec<(&str, Column)> = heads
        .iter()
        .map(|head| {
            let words = head == "verdict";
            let column = if words {
                Column::Words
            } else {
                Column::Numbers
            };
            (head.as_str(), column)
        })
        .collect();
    let mut table = PlainTable::new(view.width, &columns);
    for row in rows {
        table.row(cells(row, units));
    }
    text += &table.text();
    text += &shortfalls(view, rows);
    text += &gain(view, rows);
    text.push('\n');
    if let Some(row) = rows.first() {
        for caveat in &row.judged.caveats {
            let sentence = format!("Caveat: {}.", caveat.text(units));
            text += &paragraph(&sentence, view.width, "", "  ");
        }
    }
    for note in NOTES {
        text += &paragraph(note, view.width, "", "  ");
    }
    text + &sources_and_cautions(view.sources, view.width)
}

fn cells(row: &SensibleSweepRow, units: UnitSystem) -> Vec<String> {
    let ratio = |ratio: Option<f64>| ratio.map_or_else(unknown, |ratio| fixed(ratio, 2));
    let hours = |hours: Option<Hours>| {
        hours.map_or_else(unknown, |hours| {
            let share = row.share(hours).unwrap_or(0.0);
            format!("{} ({:.0} %)", fixed(hours.0, 0), share * 100.0)
        })
    };
    let humid = humidity(row);
    vec![
        units.bare_power(row.sensible),
        ratio(row.house_sensible_heat_ratio),
        ratio(row.minimum_to_load()),
        hours(row.cycling_hours()),
        hours(humid.map(|humid| humid.humid_hours)),
        humid
            .and_then(|humid| humid.peak_relative_humidity)
            .map_or_else(unknown, |peak| fixed(peak * 100.0, 0)),
        humid.map_or_else(unknown, |humid| {
            units.bare_water_per_year(humid.supplemental.0)
        }),
        known(row).map_or_else(unknown, |known| fixed(known.electricity.0, 0)),
        row.judged.verdict.name().to_owned(),
    ]
}

fn shortfalls(view: &SensibleSweepView<'_>, rows: &[SensibleSweepRow]) -> String {
    let short: Vec<String> = rows
        .iter()
        .filter_map(|row| {
            let missing = known(row)?.shortfall;
            (missing.0 >= 0.5).then(|| {
                format!(
                    "{} kWh at {}",
                    fixed(missing.0, 0),
                    view.units.power(row.sensible)
                )
            })
        })
        .collect();
    if short.is_empty() {
        return String::new();
    }
    let sentence = format!("Sensible load left unmet: {}.", short.join(", "));
    paragraph(&sentence, view.width, "", "")
}

/// What the smallest load comes to against the largest, in a sentence.
fn gain(view: &SensibleSweepView<'_>, rows: &[SensibleSweepRow]) -> String {
    let by_load =
        |a: &&SensibleSweepRow, b: &&SensibleSweepRow| a.sensible.0.total_cmp(&b.sensible.0);
    let (Some(low), Some(high)) = (rows.iter().min_by(by_load), rows.iter().max_by(by_load)) else {
        return String::new();
    };
    if low.sensible >= high.sensible {
        return String::new();
    }
    let units = view.units;
    let mut parts = Vec::new();
    if let (Some(low), Some(high)) = (
        low.house_sensible_heat_ratio,
        high.house_sensible_heat_ratio,
    ) {
        parts.push(format!(
            "the house's SHR goes from {} to {}",
            fixed(high, 2),
            fixed(low, 2)
        ));
    }
    if let (Some(low), Some(high)) = (low.cycling_hours(), high.cycling_hours()) {
        parts.push(format!(
            "cycling from {} to {} h",
            fixed(high.0, 0),
            fixed(low.0, 0)
        ));
    }
    if let (Some(low), Some(high)) = (humidity(low), humidity(high)) {
        parts.push(format!(
            "humid hours from {} to {}, and what has to be removed besides from {} to {} a year",
            fixed(high.humid_hours.0, 0),
            fixed(low.humid_hours.0, 0),
            units.water_per_year(high.supplemental.0),
            units.water_per_year(low.supplemental.0),
        ));
    }
    if parts.is_empty() {
        return String::new();
    }
    let sentence = format!(
        "With the sensible load lowered from {} to {}, {}.",
        units.power(high.sensible),
        units.power(low.sensible),
        parts.join(", ")
    );
    paragraph(&sentence, view.width, "", "")
}
