//! What other climates change for accepted units, as a table and as data beside a short list.

use std::collections::BTreeMap;

use serde::Serialize;

use super::shortlist_table::unknown;
use super::table::{Column, PlainTable, paragraph};
use crate::quantity::{Celsius, UnitSystem, fixed};
use crate::study::{Judged, YearThere};

/// The years of accepted units in other climates than the one they are judged with.
#[derive(Clone, Debug, Default)]
pub struct OtherClimates {
    /// Key and coldest state of the climate that judged.
    pub own: (String, Option<Celsius>),
    /// Key and coldest state of each other one, in the order asked for.
    pub others: Vec<(String, Option<Celsius>)>,
    /// By the unit's key, its year in each of the others.
    pub years: BTreeMap<String, Vec<Option<YearThere>>>,
}

/// A unit's year in another climate, by its settled names.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct OtherClimateAnswer {
    pub climate: String,
    pub coldest_state_c: Option<f64>,
    pub heating_hours: Option<f64>,
    pub hours_below_balance: Option<f64>,
    pub unproven_hours: Option<f64>,
    pub backup_kwh: Option<f64>,
    pub seasonal_cop: Option<f64>,
    pub annual_electricity_kwh: Option<f64>,
}

impl OtherClimates {
    /// A unit's years elsewhere as data; empty for a unit that is not accepted.
    #[must_use]
    pub fn answers(&self, unit: &str) -> Vec<OtherClimateAnswer> {
        let years = self.years.get(unit).map_or(&[][..], Vec::as_slice);
        self.others
            .iter()
            .zip(years)
            .map(|((key, coldest), year)| OtherClimateAnswer {
                climate: key.clone(),
                coldest_state_c: coldest.map(|coldest| coldest.0),
                heating_hours: year.map(|year| year.heating.heating_hours.0),
                hours_below_balance: year.map(|year| year.heating.hours_below_balance.0),
                unproven_hours: year.map(|year| year.heating.unproven_hours.0),
                backup_kwh: year.map(|year| year.heating.backup.0),
                seasonal_cop: year.and_then(|year| year.heating.seasonal_cop()),
                annual_electricity_kwh: year
                    .and_then(|year| year.annual_electricity)
                    .map(|energy| energy.0),
            })
            .collect()
    }

    /// The section of a short list: each unit's year in the judging climate, and below it in the others.
    #[must_use]
    pub fn table(&self, shown: &[Judged], units: UnitSystem, width: u16) -> String {
        if self.others.is_empty() || shown.is_empty() {
            return String::new();
        }
        let mut text = format!("\nIN OTHER CLIMATES, judged with {}\n", self.own.0);
        let coldest: Vec<String> = std::iter::once(&self.own)
            .chain(&self.others)
            .filter_map(|(key, coldest)| Some(format!("{key} {}", units.temperature((*coldest)?))))
            .collect();
        let sentence = format!("Coldest state: {}.", coldest.join(", "));
        text += &paragraph(&sentence, width, "", "");
        let columns = [
            ("unit", Column::Words),
            ("climate", Column::Words),
            ("heating h", Column::Numbers),
            ("h below balance", Column::Numbers),
            ("unproven h", Column::Numbers),
            ("backup kWh", Column::Numbers),
            ("winter COP", Column::Numbers),
            ("kWh a year", Column::Numbers),
        ];
        let mut table = PlainTable::new(width, &columns);
        for judged in shown {
            let years = self
                .years
                .get(&judged.model.key)
                .map_or(&[][..], Vec::as_slice);
            let own = YearThere::of(judged);
            table.row(row(&judged.model.key, &self.own.0, own));
            for ((key, _), year) in self.others.iter().zip(years) {
                table.row(row("", key, *year));
            }
        }
        text += &table.text();
        text
    }
}

fn row(unit: &str, climate: &str, year: Option<YearThere>) -> [String; 8] {
    let figure =
        |of: &dyn Fn(YearThere) -> Option<String>| year.and_then(of).unwrap_or_else(unknown);
    let whole = |value: f64| Some(fixed(value, 0));
    [
        unit.to_owned(),
        climate.to_owned(),
        figure(&|year| whole(year.heating.heating_hours.0)),
        figure(&|year| whole(year.heating.hours_below_balance.0)),
        figure(&|year| whole(year.heating.unproven_hours.0)),
        figure(&|year| whole(year.heating.backup.0)),
        figure(&|year| year.heating.seasonal_cop().map(|cop| fixed(cop, 2))),
        figure(&|year| year.annual_electricity.and_then(|energy| whole(energy.0))),
    ]
}
