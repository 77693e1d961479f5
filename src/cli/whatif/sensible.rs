//! `whatif --sensible`: one unit at several sensible design loads: what less solar gain does to run time and humidity.

use super::Given;
use crate::cli::output::Format;
use crate::cli::unit_sources::sources_of;
use crate::cli::{App, CliError, Outcome};
use crate::quantity::Kilowatts;
use crate::report::sensible_sweep::{
    SensibleSweepAnswer, SensibleSweepView, sensible_sweep_csv, sensible_sweep_table,
};
use crate::study::sensible_sweep;

#[derive(clap::Args)]
#[group(skip)]
pub(super) struct Sweep {
    /// Sensible cooling design loads, such as 2,3,4,5 or "2 kW,1 ton": what less solar gain does to one unit
    #[arg(
        long,
        value_name = "LIST",
        value_delimiter = ',',
        value_parser = super::load,
        group = "sweep"
    )]
    sensible: Vec<Kilowatts>,
}

impl Sweep {
    pub(super) fn is_wanted(&self) -> bool {
        !self.sensible.is_empty()
    }

    pub(super) fn run(self, given: &Given, app: &mut App) -> Result<Outcome, CliError> {
        if given.house.cooling.is_none() {
            return Err(CliError::input(format!(
                "the house file `{}` has no [cooling] section, so that there is no sensible load to change",
                given.file
            )));
        }
        let climate = given.climate_for("summer")?;
        let unit = given.unit_or_best(app)?;
        let rows = sensible_sweep(
            &given.house,
            Some(climate),
            &given.criteria,
            app.units,
            &unit,
            &self.sensible,
        );
        let sources = sources_of(&given.catalog, [&unit])?;
        let view = SensibleSweepView {
            house: &given.house,
            unit: &unit.model.key,
            chosen: given.unit.is_none(),
            climate: &climate.key,
            units: app.units,
            width: app.look.width,
        sources: &sources,
        };
        match given.format {
            Format::Table => app.print(&sensible_sweep_table(&view, &rows))?,
            Format::Json => app.print_json(&SensibleSweepAnswer::of(&view, &rows))?,
            Format::Csv => app.print(&sensible_sweep_csv(&view, &rows))?,
        }
        Ok(Outcome::Done)
    }
}
