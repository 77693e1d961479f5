//! Makes a climate of dated records.

use super::{Climate, DesignTemperatures, MonthlyState, Record, group};
use crate::quantity::Metres;

/// What a weather file says of its place, beside the weather.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Station {
    /// The catalog's name for the climate.
    pub key: String,
    /// What a reader calls it.
    pub name: String,
    /// Where the record comes from.
    pub source: String,
    /// Height above sea level.
    pub elevation: Option<Metres>,
    /// Design temperatures that came with the record.
    pub design: DesignTemperatures,
}

impl Climate {
    /// Groups dated records into the states of the year and of each month, and keeps the records.
    #[must_use]
    pub fn from_records(station: Station, records: Vec<Record>, notes: Vec<String>) -> Self {
        let weather = |record: &Record| (record.hours, record.outdoor, record.humidity_ratio);
        let states = group(records.iter().map(weather));
        let monthly = (1..=12)
            .flat_map(|month| {
                let in_month = records.iter().filter(move |record| record.month == month);
                group(in_month.map(weather))
                    .into_iter()
                    .map(move |state| MonthlyState { month, state })
            })
            .collect();
        Self {
            key: station.key,
            name: station.name,
            source: station.source,
            elevation: station.elevation,
            states,
            monthly,
            hourly: records,
            design: station.design,
            notes,
        }
    }
}
