//! `overwinter humidity`: a unit's summer by outdoor temperature, and what a colder room does to its humidity.

use std::path::PathBuf;
use std::sync::Arc;

use super::output::Format;
use super::pick_unit::unit_or_pick;
use super::unit_sources::sources_of;
use super::{App, CliError, Outcome};
use crate::cooling::CoolingCurves;
use crate::criteria::Criteria;
use crate::quantity::{Celsius, Dimension, Kelvins, parse_quantity};
use crate::report::humidity_answer::{HumidityAnswer, HumidityView, humidity_csv};
use crate::report::humidity_table::humidity_table;
use crate::study::{Brief, Summer, cooling_caveats};

/// How much colder the room is kept in the comparison, unless temperatures are named.
const COLDER: Kelvins = Kelvins(2.0);

/// What a unit makes of a house's summer: heat, moisture, run time and indoor humidity by outdoor temperature
#[derive(clap::Args)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// The unit, by its key in the catalog; at a terminal, leaving it out opens a list to pick from
    #[arg(value_name = "UNIT")]
    unit: Option<String>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    /// Indoor temperatures to compare, such as 22,24 or "72 °F,76 °F"; default: 2 K below the set point, and the set point
    #[arg(long, value_name = "LIST", value_delimiter = ',', allow_hyphen_values = true, value_parser = indoor_temperature)]
    at: Vec<Celsius>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

fn indoor_temperature(text: &str) -> Result<Celsius, String> {
    let value = parse_quantity(text, Dimension::Temperature).map_err(|error| error.to_string())?;
    if (5.0..=40.0).contains(&value) {
        Ok(Celsius(value))
    } else {
        Err(format!(
            "found {text}, expected an indoor temperature from 5 to 40 °C; a number without a unit is in °C"
        ))
    }
}

/// Computes and prints the summer.
///
/// # Errors
/// Where a file or the catalog cannot be read, or the house or climate lacks what humidity needs.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let house = app.read_house(&arguments.house)?;
    let file = arguments.house.display();
    let lacks = |section: &str| {
        CliError::input(format!(
            "the house file `{file}` has no [{section}] section, and without it a summer's humidity cannot be computed"
        ))
        .hint("the commented starting file shows what belongs into it")
    };
    if house.cooling.is_none() {
        return Err(lacks("cooling"));
    }
    if house.moisture.is_none() {
        return Err(lacks("moisture"));
    }
    let catalog = app.catalog()?;
    let climate = app
        .climate_of(
            &catalog,
            &house,
            &arguments.house,
            arguments.climate.as_deref(),
        )?
        .ok_or_else(|| {
            CliError::input(format!("the house file `{file}` names no climate"))
                .hint("name one with --climate KEY, or `climate` or `climate_file` under [site]")
        })?;
    if !climate.has_humidity() {
        return Err(CliError::input(format!(
            "the climate `{}` has no outdoor humidity, and without it indoor humidity cannot be computed",
            climate.key
        ))
        .hint("use a climate with a humidity in every record"));
    }
    let brief = Brief::new(
        house.clone(),
        Some(&climate),
        Criteria::default(),
        app.units,
    );
    let key = unit_or_pick(arguments.unit, &catalog, &Arc::new(brief))?;
    let unit = catalog.unit(&key)?;
    let curves = CoolingCurves::of(&unit);
    let summer = |indoor: Celsius| {
        Summer::of(&house, curves.as_ref(), &climate.states, indoor).ok_or_else(|| lacks("cooling"))
    };
    let set_point = house.indoor.cooling;
    let own = summer(set_point)?;
    let temperatures = if arguments.at.is_empty() {
        vec![set_point - COLDER, set_point]
    } else {
        arguments.at.clone()
    };
    let compared = temperatures
        .into_iter()
        .map(|indoor| {
            if indoor == set_point {
                Ok(own.clone())
            } else {
                summer(indoor)
            }
        })
        .collect::<Result<Vec<_>, _>>()?;
    let caveats = cooling_caveats(curves.as_ref(), Some(&own.season));
    let sources = sources_of(&catalog, [&unit])?;
    let view = HumidityView {
        house: &house,
        unit: &unit.model.key,
        climate: &climate.key,
        summer: &own,
        compared: &compared,
        caveats: &caveats,
        units: app.units,
        width: app.look.width,
        sources: &sources,
    };
    match arguments.format {
        Format::Table => app.print(&humidity_table(&view))?,
        Format::Json => app.print_json(&HumidityAnswer::of(&view))?,
        Format::Csv => app.print(&humidity_csv(&view))?,
    }
    Ok(Outcome::Done)
}
