//! `overwinter switchover`: where a furnace takes over from a heat pump.

use std::path::PathBuf;

use super::chosen_units::{chosen_units, none_accepted};
use super::new_file::{WorkbookArguments, check_new_file, write_new_file};
use super::output::Format;
use super::unit_sources::sources_of;
use super::{App, CliError, Outcome};
use crate::economics::Measure;
use crate::report::switchover::{
    SwitchoverAnswer, SwitchoverView, switchover_sheet, switchover_svg, switchover_table,
};
use crate::study::{Brief, UnitSwitchOver};

/// How many accepted units are shown where none is named.
const SHOWN: usize = 3;

/// Below which outdoor temperature a furnace takes over, by cost, emissions and source energy
///
/// At an outdoor temperature the heat pump is ahead where its COP at the
/// house's own load is above
///
///   furnace efficiency x (price of a kWh of electricity / price of a kWh of fuel)
///
/// and alike with emission and source-energy factors in place of prices.
/// `never`: the furnace never takes over in this climate; `always`: the heat
/// pump is never ahead. Beside each temperature stand the hours and the year
/// of heating with both, run that way. Where the COP crosses the value more
/// than once, the switch-over with the least in the year is taken.
#[derive(clap::Args)]
#[command(verbatim_doc_comment)]
pub struct Arguments {
    /// The house; its [energy] names prices, factors and the furnace's efficiency
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// Units by key; default: the three best accepted ones
    #[arg(value_name = "UNIT")]
    named: Vec<String>,
    /// Also at these prices of a kWh of electricity over a kWh of fuel, such as 1,2,3,4,5
    #[arg(long, value_name = "LIST", value_delimiter = ',', value_parser = ratio)]
    price_ratio: Vec<f64>,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    /// What the chart shows; default: the first that is known
    #[arg(long, value_enum)]
    chart: Option<Measure>,
    /// Write the first unit's chart as a drawing; an existing file is kept unless --force is given
    #[arg(long, value_name = "FILE.svg")]
    svg: Option<PathBuf>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    #[command(flatten)]
    workbook: WorkbookArguments,
}

impl clap::ValueEnum for Measure {
    fn value_variants<'a>() -> &'a [Self] {
        &Self::ALL
    }

    fn to_possible_value(&self) -> Option<clap::builder::PossibleValue> {
        Some(clap::builder::PossibleValue::new(match self {
            Self::Cost => "cost",
            Self::Emissions => "emissions",
            Self::SourceEnergy => "source-energy",
        }))
    }
}

/// A ratio on the command line.
pub(super) fn ratio(text: &str) -> Result<f64, String> {
    let ratio = text.trim().parse::<f64>().ok();
    ratio
        .filter(|ratio| ratio.is_finite() && *ratio > 0.0)
        .ok_or_else(|| "expected a ratio above 0, such as 3.5".to_owned())
}

/// Finds the switch-over temperatures.
///
/// # Errors
/// Where a file or the catalog cannot be read, a unit is not there, or the house lacks a climate or a furnace's efficiency.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    arguments.workbook.check()?;
    let force = arguments.workbook.force();
    if let Some(path) = &arguments.svg {
        check_new_file(path, force)?;
    }
    let house = app.read_house(&arguments.house)?;
    let file = arguments.house.display();
    let efficiency = house
        .energy
        .as_ref()
        .and_then(|energy| energy.fuel_efficiency.as_ref());
    if efficiency.is_none() {
        return Err(CliError::input(format!(
            "the house file `{file}` lacks `fuel_efficiency` under [energy], so that there is no furnace to compare with"
        ))
        .hint("no efficiency, price or factor is built in; give each with its source"));
    }
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let catalog = app.catalog()?;
    let wanted = arguments.climate.as_deref();
    let climate = app
        .climate_of(&catalog, &house, &arguments.house, wanted)?
        .ok_or_else(|| {
            CliError::input(format!(
                "the house file `{file}` names no climate, and without one no year can be computed"
            ))
            .hint("name one with --climate KEY")
        })?;
    let brief = Brief::new(house, Some(&climate), criteria, app.units);
    let chosen = chosen_units(&catalog, &brief, &arguments.named, SHOWN)?;
    let sources = sources_of(&catalog, chosen.iter().map(|(unit, _)| unit))?;
    let mut units = Vec::new();
    let mut left_out = Vec::new();
    for (unit, judged) in &chosen {
        let ratios = &arguments.price_ratio;
        match UnitSwitchOver::of(brief.house(), &climate.states, unit, judged, ratios) {
            Some(found) => units.push(found),
            None => left_out.push(unit.model.key.clone()),
        }
    }
    let view = SwitchoverView {
        house: brief.house(),
        climate: &climate.key,
        units: app.units,
        width: app.look.width,
        charted: arguments.chart,
        left_out: &left_out,
        sources: &sources,
    };
    if let Some(path) = &arguments.svg {
        let drawing = units
            .first()
            .and_then(|unit| switchover_svg(&view, unit))
            .ok_or_else(|| {
                CliError::input(format!(
                    "cannot draw `{}`: no unit, or the price or factor of the chart is not given",
                    path.display()
                ))
            })?;
        write_new_file(path, drawing.as_bytes(), force)?;
    }
    arguments
        .workbook
        .write(app, || switchover_sheet(&view, &units))?;
    match arguments.format {
        Format::Table if chosen.is_empty() => {}
        Format::Table => app.print(&switchover_table(&view, &units))?,
        Format::Json => app.print_json(&SwitchoverAnswer::of(&view, &units))?,
        Format::Csv => app.print(&switchover_sheet(&view, &units).csv())?,
    }
    if chosen.is_empty() {
        return Err(none_accepted());
    }
    Ok(Outcome::Done)
}
