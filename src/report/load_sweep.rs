//! The heating design load swept: the smallest unit for each load, as table, JSON and CSV.

use serde::Serialize;

use super::csv_text::{cells_of, csv_text};
use super::foot::sources_and_cautions;
use super::shortlist_table::{balance_words, unknown};
use super::table::{Column, PlainTable, paragraph};
use crate::house::House;
use crate::quantity::{UnitSystem, fixed};
use crate::study::{GainPerKilowatt, Judged, LoadSweepRow, Verdict};

/// What the sweep is of.
#[derive(Clone, Copy, Debug)]
pub struct LoadSweepView<'a> {
    /// The house.
    pub house: &'a House,
    /// The climate's key; `None` without one.
    pub climate: Option<&'a str>,
    /// Units shown to people.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// Titles of the sources behind the units shown.
    pub sources: &'a [String],
}

/// The document.
#[derive(Debug, Serialize)]
pub struct LoadSweepAnswer {
    house: String,
    climate: Option<String>,
    rows: Vec<RowAnswer>,
    gain_per_kw: Option<GainAnswer>,
}

#[derive(Debug, Serialize)]
struct RowAnswer {
    design_load_kw: f64,
    unit: Option<String>,
    verdict: Option<&'static str>,
    codes: Vec<&'static str>,
    capacity_at_design_kw: Option<f64>,
    margin: Option<f64>,
    balance_point_c: Option<f64>,
    backup_kwh: Option<f64>,
    annual_electricity_kwh: Option<f64>,
    seasonal_cop: Option<f64>,
    annual_electricity_with_largest_unit_kwh: Option<f64>,
    accepted_unit: Option<String>,
    accepted_capacity_at_design_kw: Option<f64>,
    accepted_annual_electricity_kwh: Option<f64>,
}

#[derive(Debug, Serialize)]
struct GainAnswer {
    from_kw: f64,
    to_kw: f64,
    annual_electricity_same_unit_kwh: Option<f64>,
    capacity_kw: f64,
}

impl LoadSweepAnswer {
    /// The document.
    #[must_use]
    pub fn of(view: &LoadSweepView<'_>, rows: &[LoadSweepRow]) -> Self {
        Self {
            house: view.house.name.clone(),
            climate: view.climate.map(str::to_owned),
            rows: rows.iter().map(RowAnswer::of).collect(),
            gain_per_kw: GainPerKilowatt::of(rows).map(|gain| GainAnswer {
                from_kw: gain.from.0,
                to_kw: gain.to.0,
                annual_electricity_same_unit_kwh: gain.electricity_same_unit.map(|saved| saved.0),
                capacity_kw: gain.capacity,
            }),
        }
    }
}

impl RowAnswer {
    fn of(row: &LoadSweepRow) -> Self {
        let judged = row.smallest.as_ref();
        let accepted = row.smallest_accepted.as_ref();
        let season = judged.and_then(|judged| judged.heating.season);
        Self {
            design_load_kw: row.load.0,
            unit: judged.map(|judged| judged.model.key.clone()),
            verdict: judged.map(|judged| judged.verdict.name()),
            codes: judged.map_or_else(Vec::new, codes),
            capacity_at_design_kw: judged
                .and_then(|judged| judged.heating.capacity_at_design)
                .map(|capacity| capacity.0),
            margin: judged.and_then(|judged| judged.heating.margin()),
            balance_point_c: judged
                .and_then(|judged| judged.heating.balance_point.temperature())
                .map(|balance| balance.0),
            backup_kwh: season.map(|season| season.backup.0),
            annual_electricity_kwh: judged
                .and_then(Judged::annual_electricity)
                .map(|energy| energy.0),
            seasonal_cop: season.and_then(|season| season.seasonal_cop()),
            annual_electricity_with_largest_unit_kwh: row.with_largest_unit.map(|energy| energy.0),
            accepted_unit: accepted.map(|judged| judged.model.key.clone()),
            accepted_capacity_at_design_kw: accepted
                .and_then(|judged| judged.heating.capacity_at_design)
                .map(|capacity| capacity.0),
            accepted_annual_electricity_kwh: accepted
                .and_then(Judged::annual_electricity)
                .map(|energy| energy.0),
        }
    }
}

/// Codes of why a unit is not accepted.
fn codes(judged: &Judged) -> Vec<&'static str> {
    match &judged.verdict {
        Verdict::Accepted => Vec::new(),
        Verdict::Rejected(reasons) => reasons.iter().map(|reason| reason.code()).collect(),
        Verdict::Undecided(asks) => asks.iter().map(|ask| ask.code.name()).collect(),
    }
}

/// The rows as CSV; codes are joined with a semicolon.
#[must_use]
pub fn load_sweep_csv(_view: &LoadSweepView<'_>, rows: &[LoadSweepRow]) -> String {
    let rows: Vec<RowAnswer> = rows.iter().map(RowAnswer::of).collect();
    let (header, cells) = cells_of(&rows);
    csv_text(&header, &cells)
}

/// The sweep for people.
#[must_use]
pub fn load_sweep_table(view: &LoadSweepView<'_>, rows: &[LoadSweepRow]) -> String {
    let units = view.units;
    let line = &view.house.heating.load;
    let mut text = paragraph(&view.house.name, view.width, "", "");
    let what = format!(
        "The smallest unit that carries each heating design load at {}, nothing needed from {}. The house as it is needs {}. \
         Climate: {}.",
        units.temperature(line.design_outdoor),
        units.temperature(line.zero_load_outdoor),
        units.power(line.design_load),
        view.climate.unwrap_or("none, so no season is computed"),
    );
    text += &paragraph(&what, view.width, "", "");
    text.push('\n');
    let power = units.power_unit();
    let heads = [
        format!("load {power}"),
        "smallest unit".to_owned(),
        format!("gives {power}"),
        "margin".to_owned(),
        format!("balance {}", units.temperature_unit()),
        "backup kWh".to_owned(),
        "kWh a year".to_owned(),
        "winter COP".to_owned(),
        "all asked".to_owned(),
    ];
    let words = ["smallest unit", "all asked"];
    let columns: Vec<(&str, Column)> = heads
        .iter()
        .map(|head| {
            let column = if words.contains(&head.as_str()) {
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
    text += &why_not(view, rows);
    text += &accepted_in_full(view, rows);
    text += &gain(view, rows);
    text.push('\n');
    text + &sources_and_cautions(view.sources, view.width)
}

fn cells(row: &LoadSweepRow, units: UnitSystem) -> Vec<String> {
    let load = units.bare_power(row.load);
    let Some(judged) = &row.smallest else {
        let mut cells = vec![load, "none".to_owned()];
        cells.resize(9, String::new());
        return cells;
    };
    let heating = &judged.heating;
    let season = heating.season;
    vec![
        load,
        judged.model.key.clone(),
        heating
            .capacity_at_design
            .map_or_else(unknown, |capacity| units.bare_power(capacity)),
        heating
            .margin()
            .map_or_else(unknown, |margin| format!("{:+.0} %", margin * 100.0)),
        balance_words(heating.balance_point, units),
        season.map_or_else(unknown, |season| fixed(season.backup.0, 0)),
        judged
            .annual_electricity()
            .map_or_else(unknown, |energy| fixed(energy.0, 0)),
        season
            .and_then(|season| season.seasonal_cop())
            .map_or_else(unknown, |cop| fixed(cop, 2)),
        judged.verdict.name().to_owned(),
    ]
}

/// Why a unit that carries its load is not accepted with everything that is asked.
fn why_not(view: &LoadSweepView<'_>, rows: &[LoadSweepRow]) -> String {
    let mut text = String::new();
    for row in rows {
        let Some(judged) = row
            .smallest
            .as_ref()
            .filter(|judged| !codes(judged).is_empty())
        else {
            continue;
        };
        let sentence = format!(
            "{} at {}: carries the winter, {} for {}.",
            judged.model.key,
            view.units.power(row.load),
            judged.verdict.name(),
            codes(judged).join(", "),
        );
        text += &paragraph(&sentence, view.width, "  ", "    ");
    }
    text
}

/// For each load the smallest unit that does all that is asked, in a block of its own.
fn accepted_in_full(view: &LoadSweepView<'_>, rows: &[LoadSweepRow]) -> String {
    let units = view.units;
    let heads = [
        format!("load {}", units.power_unit()),
        "smallest unit accepted in full".to_owned(),
        format!("gives {}", units.power_unit()),
        "kWh a year".to_owned(),
    ];
    let columns = [
        (heads[0].as_str(), Column::Numbers),
        (heads[1].as_str(), Column::Words),
        (heads[2].as_str(), Column::Numbers),
        (heads[3].as_str(), Column::Numbers),
    ];
    let mut table = PlainTable::new(view.width, &columns);
    for row in rows {
        let load = units.bare_power(row.load);
        table.row(match &row.smallest_accepted {
            None => [load, "none".to_owned(), String::new(), String::new()],
            Some(judged) => [
                load,
                judged.model.key.clone(),
                judged
                    .heating
                    .capacity_at_design
                    .map_or_else(unknown, |capacity| units.bare_power(capacity)),
                judged
                    .annual_electricity()
                    .map_or_else(unknown, |energy| fixed(energy.0, 0)),
            ],
        });
    }
    format!("\n{}\n", table.text())
}

fn gain(view: &LoadSweepView<'_>, rows: &[LoadSweepRow]) -> String {
    let Some(gain) = GainPerKilowatt::of(rows) else {
        return String::new();
    };
    let (units, power) = (view.units, view.units.power_unit());
    // What is gained per kilowatt, in the reader's unit of power.
    let per = match units {
        UnitSystem::Si => 1.0,
        UnitSystem::Ip => {
            crate::quantity::parse_quantity("1 kBtu/h", crate::quantity::Dimension::Power)
                .unwrap_or(1.0)
        }
    };
    let mut sentence = format!(
        "Each {power} taken off the design load, from {} to {}, makes {} {power} of capacity needless",
        units.power(gain.from),
        units.power(gain.to),
        fixed(gain.capacity, 2),
    );
    if let Some(same) = gain.electricity_same_unit {
        sentence += &format!(
            "; the larger unit, kept, would take {} kWh a year less",
            fixed(same.0 * per, 0)
        );
    }
    paragraph(&(sentence + "."), view.width, "", "")
}
