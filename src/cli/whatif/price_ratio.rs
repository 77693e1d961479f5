//! `whatif --price-ratio`: at which price of electricity over fuel the answer between heat pump and furnace flips.

use super::Given;
use crate::cli::output::Format;
use crate::cli::unit_sources::sources_of;
use crate::cli::{App, CliError, Outcome};
use crate::report::price_ratio_sweep::{
    PriceRatioAnswer, PriceRatioView, price_ratio_csv, price_ratio_table,
};
use crate::study::{Brief, PriceRatioSweep};

#[derive(clap::Args)]
#[group(skip)]
pub(super) struct Sweep {
    /// Prices of a kWh of electricity over a kWh of fuel, such as 1,2,3,4,5: where the answer between one unit and a furnace
    /// flips
    #[arg(
        long,
        value_name = "LIST",
        value_delimiter = ',',
        value_parser = crate::cli::switchover::ratio,
        group = "sweep"
    )]
    price_ratio: Vec<f64>,
}

impl Sweep {
    pub(super) fn is_wanted(&self) -> bool {
        !self.price_ratio.is_empty()
    }

    pub(super) fn run(self, given: &Given, app: &mut App) -> Result<Outcome, CliError> {
        let energy = given.house.energy.as_ref();
        if energy.and_then(|energy| energy.fuel_efficiency.as_ref()).is_none() {
            return Err(CliError::input(format!(
                "the house file `{}` lacks `fuel_efficiency` under [energy], so that there is no furnace to compare with",
                given.file
            )));
        }
        let climate = given.climate_for("year")?;
        let unit = given.unit_or_best(app)?;
        let brief = Brief::new(
            given.house.clone(),
            Some(climate),
            given.criteria.clone(),
            app.units,
        );
        let judged = brief.judge(&unit);
        let sweep = PriceRatioSweep::of(&given.house, climate, &unit, &judged, &self.price_ratio)
            .ok_or_else(|| {
                CliError::input(format!(
                    "the year of `{}` in this house is not known, so that no ratio can be found",
                    unit.model.key
                ))
                .hint("`overwinter explain` shows what is not published")
            })?;
        let sources = sources_of(&given.catalog, [&unit])?;
        let view = PriceRatioView {
            house: &given.house,
            unit: &unit.model.key,
            chosen: given.unit.is_none(),
            climate: &climate.key,
            units: app.units,
            width: app.look.width,
        sources: &sources,
        };
        match given.format {
            Format::Table => app.print(&price_ratio_table(&view, &sweep))?,
            Format::Json => app.print_json(&PriceRatioAnswer::of(&view, &sweep))?,
            Format::Csv => app.print(&price_ratio_csv(&sweep))?,
        }
        Ok(Outcome::Done)
    }
}
