//! A unit's summer as data: the JSON document and the CSV rows. Full precision; what is not known is null, or blank.

use serde::Serialize;

use super::answer::{Note, notes};
use super::csv_text::csv_text;
use crate::house::{Fan, House};
use crate::quantity::UnitSystem;
use crate::study::{Caveat, Summer, SummerRow, WithoutCallRow};

/// What the humidity reports tell of.
#[derive(Clone, Copy, Debug)]
pub struct HumidityView<'a> {
    /// The house.
    pub house: &'a House,
    /// The unit's key.
    pub unit: &'a str,
    /// The climate's key.
    pub climate: &'a str,
    /// The season at the house's own set point.
    pub summer: &'a Summer,
    /// Seasons at the indoor temperatures to compare.
    pub compared: &'a [Summer],
    /// What a reader must know beside it.
    pub caveats: &'a [Caveat],
    /// Units shown to people.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// Titles of the sources behind the units shown.
    pub sources: &'a [String],
}

/// What holds of every humidity answer, whatever the unit.
pub const HUMIDITY_NOTES: [&str; 3] = [
    "The sensible load line stays as the house gives it: a design load belongs to its set point, and keeping the room colder \
     would also raise the load. The comparison keeps the load and shows the moisture alone.",
    "Heat of supplemental dehumidification is not fed back into the sensible load (our rule).",
    "Each state is a steady balance of moisture gains and removal; what walls and furniture store from day to day is not \
     counted.",
];

/// The whole document.
#[derive(Debug, Serialize)]
pub struct HumidityAnswer {
    house: String,
    unit: String,
    climate: String,
    indoor_c: f64,
    humidity_limit: f64,
    fan: &'static str,
    with_call: Vec<RowAnswer>,
    without_call: Vec<FreeAnswer>,
    season: RowAnswer,
    dehumidification_l_per_year: Option<f64>,
    dehumidification_peak_l_per_day: Option<f64>,
    comparison: Vec<ComparedAnswer>,
    caveats: Vec<Note>,
    notes: [&'static str; 3],
}

/// Sums over states with a call, by their settled names.
#[derive(Debug, Serialize)]
struct RowAnswer {
    /// `None` for the whole season.
    outdoor_c: Option<f64>,
    cooling_hours: f64,
    unproven_hours: f64,
    sensible_load_kwh: Option<f64>,
    sensible_kwh: Option<f64>,
    shortfall_kwh: Option<f64>,
    latent_load_kwh: Option<f64>,
    latent_kwh: Option<f64>,
    shr_required: Option<f64>,
    shr_delivered: Option<f64>,
    run_time_fraction: Option<f64>,
    cycling_hours: Option<f64>,
    modulating_hours: Option<f64>,
    flat_out_hours: Option<f64>,
    electricity_kwh: Option<f64>,
    mean_rh: Option<f64>,
    peak_rh: Option<f64>,
    humid_hours: Option<f64>,
    moisture_removed_kg: Option<f64>,
    dehumidification_l: Option<f64>,
    dehumidification_mean_l_per_day: Option<f64>,
    dehumidification_peak_l_per_day: Option<f64>,
}

#[derive(Debug, Serialize)]
struct FreeAnswer {
    outdoor_c: f64,
    hours: f64,
    humid_hours: f64,
    dehumidification_l: f64,
    dehumidification_mean_l_per_day: f64,
    dehumidification_peak_l_per_day: f64,
}

#[derive(Debug, Serialize)]
struct ComparedAnswer {
    indoor_c: f64,
    cooling_hours: f64,
    mean_rh: Option<f64>,
    peak_rh: Option<f64>,
    humid_hours: Option<f64>,
    humid_hours_without_call: Option<f64>,
    cycling_hours: Option<f64>,
    electricity_kwh: Option<f64>,
    dehumidification_l_per_year: Option<f64>,
    dehumidification_peak_l_per_day: Option<f64>,
}

impl HumidityAnswer {
    /// The document.
    #[must_use]
    pub fn of(view: &HumidityView<'_>) -> Self {
        let summer = view.summer;
        let humidity = summer.season.known.and_then(|known| known.humidity);
        Self {
            house: view.house.name.clone(),
            unit: view.unit.to_owned(),
            climate: view.climate.to_owned(),
            indoor_c: summer.indoor.0,
            humidity_limit: view.house.indoor.humidity_limit,
            fan: fan_name(view.house),
            with_call: summer
                .rows
                .iter()
                .map(|row| RowAnswer::of(summer, row, Some(row.outdoor.0)))
                .collect(),
            without_call: summer.without_call.iter().map(FreeAnswer::of).collect(),
            season: RowAnswer::of(summer, &summer.all, None),
            dehumidification_l_per_year: humidity.map(|humidity| humidity.supplemental.0),
            dehumidification_peak_l_per_day: humidity
                .map(|humidity| humidity.supplemental_peak.litres_per_day()),
            comparison: view.compared.iter().map(ComparedAnswer::of).collect(),
            caveats: notes(view.caveats, view.units),
            notes: HUMIDITY_NOTES,
        }
    }
}

impl RowAnswer {
    fn of(summer: &Summer, row: &SummerRow, outdoor_c: Option<f64>) -> Self {
        let coil = |value: f64| summer.coil_is_known().then_some(value);
        let turns = |value: f64| summer.turndown_is_known().then_some(value);
        let humid = |value: f64| summer.humidity_is_known().then_some(value);
        Self {
            outdoor_c,
            cooling_hours: row.hours.0,
            unproven_hours: row.unproven_hours.0,
            sensible_load_kwh: coil(row.sensible_load().0),
            sensible_kwh: coil(row.sensible.0),
            shortfall_kwh: coil(row.shortfall.0),
            latent_load_kwh: humid(row.latent_load.0),
            latent_kwh: humid(row.latent.0),
            shr_required: row.required_sensible_heat_ratio().and_then(humid),
            shr_delivered: row.delivered_sensible_heat_ratio().and_then(humid),
            run_time_fraction: row.run_fraction().and_then(turns),
            cycling_hours: turns(row.cycling_hours.0),
            modulating_hours: turns(row.modulating_hours.0),
            flat_out_hours: turns(row.flat_hours.0),
            electricity_kwh: coil(row.electricity.0),
            mean_rh: row.mean_relative_humidity().and_then(humid),
            peak_rh: row.peak_relative_humidity.and_then(humid),
            humid_hours: humid(row.humid_hours.0),
            moisture_removed_kg: humid(row.removed.0),
            dehumidification_l: humid(row.supplemental.0),
            dehumidification_mean_l_per_day: row.mean(row.supplemental.0 * 24.0).and_then(humid),
            dehumidification_peak_l_per_day: humid(row.supplemental_peak.litres_per_day()),
        }
    }
}

impl FreeAnswer {
    fn of(row: &WithoutCallRow) -> Self {
        Self {
            outdoor_c: row.outdoor.0,
            hours: row.hours.0,
            humid_hours: row.humid_hours.0,
            dehumidification_l: row.supplemental.0,
            dehumidification_mean_l_per_day: row.supplemental.0 * 24.0 / row.hours.0,
            dehumidification_peak_l_per_day: row.supplemental_peak.litres_per_day(),
        }
    }
}

impl ComparedAnswer {
    fn of(summer: &Summer) -> Self {
        let known = summer.season.known;
        let humidity = known.and_then(|known| known.humidity);
        Self {
            indoor_c: summer.indoor.0,
            cooling_hours: summer.season.cooling_hours.0,
            mean_rh: humidity.and_then(|_| summer.all.mean_relative_humidity()),
            peak_rh: humidity.and_then(|humidity| humidity.peak_relative_humidity),
            humid_hours: humidity.map(|humidity| humidity.humid_hours.0),
            humid_hours_without_call: humidity.map(|humidity| humidity.humid_hours_without_call.0),
            cycling_hours: known
                .and_then(|known| known.cycling_hours)
                .map(|hours| hours.0),
            electricity_kwh: known.map(|known| known.electricity.0),
            dehumidification_l_per_year: humidity.map(|humidity| humidity.supplemental.0),
            dehumidification_peak_l_per_day: humidity
                .map(|humidity| humidity.supplemental_peak.litres_per_day()),
        }
    }
}

/// What the house's fan does between calls, as a house file says it.
pub(super) fn fan_name(house: &House) -> &'static str {
    match house.cooling.map(|cooling| cooling.fan) {
        Some(Fan::Auto) => "auto",
        Some(Fan::Continuous) | None => "continuous",
    }
}

/// The rows as CSV: every indoor temperature computed, with and without a call, so that they add up to its year.
#[must_use]
pub fn humidity_csv(view: &HumidityView<'_>) -> String {
    let own = view.summer;
    let others = view
        .compared
        .iter()
        .filter(|summer| summer.indoor != own.indoor);
    let mut header = Vec::new();
    let mut rows = Vec::new();
    for summer in std::iter::once(own).chain(others) {
        for row in &summer.rows {
            let answer = RowAnswer::of(summer, row, Some(row.outdoor.0));
            let (names, cells) = columns(summer.indoor.0, true, &answer);
            header = names;
            rows.push(cells);
        }
        for row in &summer.without_call {
            let answer = RowAnswer {
                cooling_hours: row.hours.0,
                humid_hours: Some(row.humid_hours.0),
                dehumidification_l: Some(row.supplemental.0),
                dehumidification_mean_l_per_day: Some(row.supplemental.0 * 24.0 / row.hours.0),
                dehumidification_peak_l_per_day: Some(row.supplemental_peak.litres_per_day()),
                ..RowAnswer::nothing(row.outdoor.0)
            };
            let (names, cells) = columns(summer.indoor.0, false, &answer);
            header = names;
            rows.push(cells);
        }
    }
    csv_text(&header, &rows)
}

impl RowAnswer {
    fn nothing(outdoor_c: f64) -> Self {
        Self {
            outdoor_c: Some(outdoor_c),
            cooling_hours: 0.0,
            unproven_hours: 0.0,
            sensible_load_kwh: None,
            sensible_kwh: None,
            shortfall_kwh: None,
            latent_load_kwh: None,
            latent_kwh: None,
            shr_required: None,
            shr_delivered: None,
            run_time_fraction: None,
            cycling_hours: None,
            modulating_hours: None,
            flat_out_hours: None,
            electricity_kwh: None,
            mean_rh: None,
            peak_rh: None,
            humid_hours: None,
            moisture_removed_kg: None,
            dehumidification_l: None,
            dehumidification_mean_l_per_day: None,
            dehumidification_peak_l_per_day: None,
        }
    }
}

/// Names and cells of one row; `cooling_hours` becomes `hours`, since a row without a call has them too.
fn columns(indoor_c: f64, call: bool, answer: &RowAnswer) -> (Vec<String>, Vec<String>) {
    let mut names = vec!["indoor_c".to_owned(), "call".to_owned()];
    let mut cells = vec![
        indoor_c.to_string(),
        if call { "yes" } else { "no" }.to_owned(),
    ];
    if let Ok(serde_json::Value::Object(entries)) = serde_json::to_value(answer) {
        for (name, value) in entries {
            names.push(if name == "cooling_hours" {
                "hours".to_owned()
            } else {
                name
            });
            cells.push(match value {
                serde_json::Value::Null => String::new(),
                other => other.to_string(),
            });
        }
    }
    (names, cells)
}
