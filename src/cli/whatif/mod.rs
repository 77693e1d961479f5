//! `overwinter whatif`: one figure of the house or its energy swept over several values, all else as it is.
//!
//! One file is one sweep. A new one is its file, its `mod` line, and one line in the list below. Its `Sweep` takes part in
//! the group `sweep`, of which exactly one option must be given.

use std::path::PathBuf;

use super::output::Format;
use super::{App, CliError, Outcome};
use crate::catalog::Catalog;
use crate::climate::Climate;
use crate::criteria::Criteria;
use crate::equipment::Unit;
use crate::house::House;
use crate::quantity::{Dimension, Kilowatts, parse_quantity};
use crate::study::{Brief, RankBy, Shortlist};

/// What changes where one figure does: the house's design load, its solar gain, or the price of electricity over fuel
///
/// Exactly one sweep is named. Values are a list with commas; a load without a unit is in kW.
#[derive(clap::Args)]
#[command(group(clap::ArgGroup::new("sweep").required(true).multiple(false)))]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    #[command(flatten)]
    sweeps: Sweeps,
    /// The unit to look at, by its key; default: the best accepted one
    #[arg(long, value_name = "UNIT")]
    unit: Option<String>,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// Declares the sweeps: each has a module with `Sweep`, `Sweep::is_wanted` and `Sweep::run`.
macro_rules! sweeps {
    ($($module:ident),+ $(,)?) => {
        $(mod $module;)+

        #[derive(clap::Args)]
        #[group(skip)]
        struct Sweeps {
            $(#[command(flatten)] $module: $module::Sweep),+
        }

        impl Sweeps {
            fn run(self, given: &Given, app: &mut App) -> Result<Outcome, CliError> {
                $(if self.$module.is_wanted() {
                    return self.$module.run(given, app);
                })+
                Err(CliError::input("no sweep is named"))
            }
        }
    };
}

sweeps! {
    design_load,
    sensible,
    price_ratio,
}

/// What every sweep works with.
struct Given {
    house: House,
    /// The house file's name, for messages.
    file: String,
    criteria: Criteria,
    catalog: Catalog,
    climate: Option<Climate>,
    /// The unit that the user named.
    unit: Option<Unit>,
    format: Format,
}

/// Reads what every sweep needs and runs the one that is named.
///
/// # Errors
/// Where a file or the catalog cannot be read, or the house lacks what the sweep needs.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let house = app.read_house(&arguments.house)?;
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let catalog = app.catalog()?;
    let climate = app.climate_of(
        &catalog,
        &house,
        &arguments.house,
        arguments.climate.as_deref(),
    )?;
    let unit = arguments
        .unit
        .as_deref()
        .map(|key| catalog.unit(key))
        .transpose()?;
    let given = Given {
        house,
        file: arguments.house.display().to_string(),
        criteria,
        catalog,
        climate,
        unit,
        format: arguments.format,
    };
    arguments.sweeps.run(&given, app)
}

impl Given {
    /// The climate's key; `None` without one.
    fn climate_key(&self) -> Option<&str> {
        self.climate.as_ref().map(|climate| climate.key.as_str())
    }

    /// The climate, without which no `period` can be computed.
    ///
    /// # Errors
    /// Where neither the house nor the user names one.
    fn climate_for(&self, period: &str) -> Result<&Climate, CliError> {
        self.climate.as_ref().ok_or_else(|| {
            CliError::input(format!(
                "the house file `{}` names no climate, and without one no {period} can be computed",
                self.file
            ))
            .hint("name one with --climate KEY")
        })
    }

    /// The unit that the user named, else the best accepted one for the house as it is.
    ///
    /// # Errors
    /// Where none is named and none is accepted.
    fn unit_or_best(&self, app: &App) -> Result<Unit, CliError> {
        if let Some(unit) = &self.unit {
            return Ok(unit.clone());
        }
        let brief = Brief::new(
            self.house.clone(),
            self.climate.as_ref(),
            self.criteria.clone(),
            app.units,
        );
        let judged = self.catalog.judge_all(|unit| brief.judge(unit))?;
        let list = Shortlist::of(judged, |judged| RankBy::Electricity.figure(judged));
        let best = list.accepted.first().ok_or_else(|| {
            CliError::nothing_accepted().hint("or name the unit to look at with --unit KEY")
        })?;
        Ok(self.catalog.unit(&best.model.key)?)
    }
}

/// A load on the command line.
fn load(text: &str) -> Result<Kilowatts, String> {
    let value = parse_quantity(text, Dimension::Power).map_err(|error| error.to_string())?;
    if value > 0.0 {
        Ok(Kilowatts(value))
    } else {
        Err(format!("found {text}, expected a load above 0 kW"))
    }
}
