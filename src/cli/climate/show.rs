//! `overwinter climate show`: one climate, its bins as a table and as bars.

use crate::cli::output::Format;
use crate::cli::{App, CliError, Outcome};
use crate::report::climate_csv::climate_csv;
use crate::report::climate_table::{ClimateAnswer, climate_table};

/// Show a climate: source, design temperatures, and its hours by temperature as a table with bars
///
/// Degree days are sums over daily means: they are shown where the hours are kept in their order.
#[derive(clap::Args)]
pub struct Arguments {
    /// The climate's name in the catalog
    #[arg(value_name = "KEY")]
    key: String,
    /// Form of the answer; csv is a file that `climate import` reads
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

pub(super) fn run(arguments: &Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let climate = app.catalog()?.climate(&arguments.key)?;
    match arguments.format {
        Format::Table => app.print(&climate_table(&climate, app.units, app.look.width))?,
        Format::Json => app.print_json(&ClimateAnswer::of(&climate))?,
        Format::Csv => app.print(&climate_csv(&climate))?,
    }
    Ok(Outcome::Done)
}
