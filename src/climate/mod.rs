//! A place's weather, grouped into states: how many hours a year are this warm and this humid.

use crate::quantity::{Celsius, Hours, HumidityRatio, Metres};

mod design_place;
mod grouping;
mod records;
mod statistics;

pub use design_place::{DesignPlace, DesignStatus};
pub use grouping::group;
pub use records::Station;
pub use statistics::{
    bin_hours, cooling_degree_days, heating_degree_days, hours_above, hours_below, mean_outdoor,
};

/// Hours of like weather.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// How long it lasts in a year.
    pub hours: Hours,
    /// Mean outdoor dry bulb in it.
    pub outdoor: Celsius,
    /// Mean outdoor humidity ratio in it; `None`: the record has no humidity.
    pub humidity_ratio: Option<HumidityRatio>,
}

/// One record of a weather file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Record {
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, 1 to 31.
    pub day: u8,
    /// Hour of the day that the record ends in, 1 to 24, local standard time.
    pub hour: u8,
    /// How long it lasts.
    pub hours: Hours,
    /// Outdoor dry bulb.
    pub outdoor: Celsius,
    /// Outdoor humidity ratio; `None`: not recorded.
    pub humidity_ratio: Option<HumidityRatio>,
}

/// A state within one calendar month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyState {
    /// Month, 1 to 12.
    pub month: u8,
    /// The hours of like weather in that month.
    pub state: State,
}

/// Outdoor design temperatures printed in a weather file's header or a handbook.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DesignTemperatures {
    /// Dry bulb exceeded in 99.6 % of the year's hours.
    pub heating_99_6: Option<Celsius>,
    /// Dry bulb exceeded in 99 % of the year's hours.
    pub heating_99: Option<Celsius>,
    /// Dry bulb exceeded in 0.4 % of the year's hours.
    pub cooling_0_4: Option<Celsius>,
    /// Dry bulb exceeded in 1 % of the year's hours.
    pub cooling_1: Option<Celsius>,
    /// Dry bulb exceeded in 2 % of the year's hours.
    pub cooling_2: Option<Celsius>,
}

/// A typical or actual year somewhere.
#[derive(Clone, Debug, PartialEq)]
pub struct Climate {
    /// The catalog's name for it, such as `chicago-ohare`.
    pub key: String,
    /// What a reader calls it.
    pub name: String,
    /// Where the record comes from and under which terms.
    pub source: String,
    /// Height above sea level of the station.
    pub elevation: Option<Metres>,
    /// The year's states, coldest first.
    pub states: Vec<State>,
    /// The same by month, where the record has dates; empty otherwise.
    pub monthly: Vec<MonthlyState>,
    /// The hourly record itself, where it is kept; empty otherwise.
    pub hourly: Vec<Record>,
    /// Design temperatures that came with the record.
    pub design: DesignTemperatures,
    /// What a reader must know of the record: gaps, missing codes, a short year, years averaged.
    pub notes: Vec<String>,
}

impl Climate {
    /// All hours in the record.
    #[must_use]
    pub fn hours(&self) -> Hours {
        self.states.iter().map(|state| state.hours).sum()
    }

    /// Whether every state has a humidity ratio.
    #[must_use]
    pub fn has_humidity(&self) -> bool {
        self.states
            .iter()
            .all(|state| state.humidity_ratio.is_some())
    }
}
