//! Where a furnace takes over from a heat pump: table, chart, data and sheet.

mod chart;
mod data;
mod table;

pub use chart::{switchover_plot, switchover_svg};
pub use data::{SwitchoverAnswer, switchover_sheet};
pub use table::switchover_table;

use crate::economics::{Measure, SwitchOver};
use crate::house::{Energy, House};
use crate::quantity::{UnitSystem, fixed};
use crate::study::UnitSwitchOver;

/// How switch-over temperatures are to be shown.
#[derive(Clone, Copy, Debug)]
pub struct SwitchoverView<'a> {
    /// The house.
    pub house: &'a House,
    /// The climate's key.
    pub climate: &'a str,
    /// Units shown to people.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// The measure of the chart; `None`: the first that is known.
    pub charted: Option<Measure>,
    /// Units of which nothing is published for heating, by key.
    pub left_out: &'a [String],
    /// Titles of the sources behind the units.
    pub sources: &'a [String],
}

impl SwitchoverView<'_> {
    fn currency(&self) -> &str {
        let energy = self.house.energy.as_ref();
        energy
            .and_then(|energy| energy.currency.as_deref())
            .unwrap_or("money")
    }

    /// The measure of a unit's chart: the one asked for, else the first that is known.
    fn charted_of(&self, unit: &UnitSwitchOver) -> Option<Measure> {
        let known = |measure: &Measure| {
            let by = unit.by(*measure);
            by.is_some_and(|by| by.factors.is_some())
        };
        match self.charted {
            Some(measure) => Some(measure).filter(known),
            None => Measure::ALL.into_iter().find(known),
        }
    }

    /// The unit of a measure per kWh of heat.
    fn per_heat(&self, measure: Measure) -> String {
        match measure {
            Measure::Cost => format!("{}/kWh", self.currency()),
            Measure::Emissions => "g CO2e/kWh".to_owned(),
            Measure::SourceEnergy => "kWh/kWh".to_owned(),
        }
    }
}

/// `-8.4`, or that the furnace never or always runs.
pub(super) fn furnace_below(switch_over: Option<SwitchOver>, units: UnitSystem) -> String {
    match switch_over {
        None => "not given".to_owned(),
        Some(SwitchOver::Always) => "never".to_owned(),
        Some(SwitchOver::Never) => "always".to_owned(),
        Some(SwitchOver::At(temperature)) => units.bare_temperature(temperature),
    }
}

/// What stands beneath the table.
fn foot(view: &SwitchoverView<'_>) -> Vec<String> {
    let mut foot = vec![
        "Heating energy only, at what one more kWh costs. The heat pump runs at the house's own load; below the switch-over, \
         and where it cannot run, the furnace heats alone; where it falls short, the furnace adds the rest. `never`: the \
         furnace never takes over in this climate; `always`: the heat pump is never ahead. `heat pump first`: the heat pump \
         wherever it can run, whatever that costs."
            .to_owned(),
    ];
    let none = Energy::default();
    let energy = view.house.energy.as_ref().unwrap_or(&none);
    if let Some(charge) = &energy.fuel_monthly_charge {
        foot.push(format!(
            "The fuel account's charge of {} {} a year comes on top wherever there is a furnace.",
            fixed(charge.value * 12.0, 0),
            view.currency()
        ));
    }
    let missing = missing(energy);
    if !missing.is_empty() {
        foot.push(format!(
            "Not given under [energy], and nothing is assumed in its place: {}.",
            missing.join(", ")
        ));
    }
    if !view.left_out.is_empty() {
        foot.push(format!(
            "Left out, as nothing is published for heating: {}.",
            view.left_out.join(", ")
        ));
    }
    foot.extend(super::factor_words::factor_words(energy));
    foot.extend(
        view.sources
            .iter()
            .map(|source| format!("Source: {source}")),
    );
    foot.extend(super::cautions::CAUTIONS.map(str::to_owned));
    foot
}

/// Names in a house file of what a comparison needs and is not given.
fn missing(energy: &Energy) -> Vec<&'static str> {
    let names = [
        ("electricity_price", "fuel_price"),
        ("electricity_emissions_g", "fuel_emissions_g"),
        ("electricity_source_factor", "fuel_source_factor"),
    ];
    let mut missing = Vec::new();
    if energy.fuel_efficiency.is_none() {
        missing.push("fuel_efficiency");
    }
    for (measure, (electricity, fuel)) in Measure::ALL.into_iter().zip(names) {
        if measure.electricity(energy).is_none() {
            missing.push(electricity);
        }
        if measure.fuel(energy).is_none() {
            missing.push(fuel);
        }
    }
    missing
}
