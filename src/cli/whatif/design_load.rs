//! `whatif --design-load`: the smallest unit for each heating design load: a flatter load line against a bigger unit.

use super::Given;
use crate::cli::output::Format;
use crate::cli::unit_sources::sources_of;
use crate::cli::{App, CliError, Outcome};
use crate::quantity::Kilowatts;
use crate::report::load_sweep::{LoadSweepAnswer, LoadSweepView, load_sweep_csv, load_sweep_table};
use crate::study::LoadSweep;

#[derive(clap::Args)]
#[group(skip)]
pub(super) struct Sweep {
    /// Heating design loads, such as 6,7,8 or "6 kW,24 kBtu/h": the smallest unit that carries each
    #[arg(
        long,
        value_name = "LIST",
        value_delimiter = ',',
        value_parser = super::load,
        group = "sweep",
        conflicts_with = "unit"
    )]
    design_load: Vec<Kilowatts>,
}

impl Sweep {
    pub(super) fn is_wanted(&self) -> bool {
        !self.design_load.is_empty()
    }

    pub(super) fn run(self, given: &Given, app: &mut App) -> Result<Outcome, CliError> {
        let loads = &self.design_load;
        let sweep = LoadSweep::new(
            &given.house,
            given.climate.as_ref(),
            &given.criteria,
            app.units,
            loads,
        );
        let keys_and_carries = given
            .catalog
            .judge_all(|unit| (unit.model.key.clone(), sweep.carries(unit)))?;
        let (keys, carries): (Vec<String>, Vec<_>) = keys_and_carries.into_iter().unzip();
        let smallest = sweep
            .smallest(&carries)
            .into_iter()
            .map(|found| found.try_map(|place| given.catalog.unit(&keys[place])))
            .collect::<Result<Vec<_>, _>>()?;
        let shown = smallest
            .iter()
            .flat_map(|found| [&found.carrier, &found.accepted])
            .flatten();
        let sources = sources_of(&given.catalog, shown)?;
        let rows = sweep.rows(&smallest);
        let view = LoadSweepView {
            house: &given.house,
            climate: given.climate_key(),
            units: app.units,
            width: app.look.width,
            sources: &sources,
        };
        match given.format {
            Format::Table => app.print(&load_sweep_table(&view, &rows))?,
            Format::Json => app.print_json(&LoadSweepAnswer::of(&view, &rows))?,
            Format::Csv => app.print(&load_sweep_csv(&view, &rows))?,
        }
        Ok(if rows.iter().all(|row| row.smallest.is_none()) {
            Outcome::NothingAccepted
        } else {
            Outcome::Done
        })
    }
}
