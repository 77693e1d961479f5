//! `overwinter climate design`: looks up outdoor design temperatures.

use crate::cli::{App, CliError, Outcome};
use crate::climate::DesignPlace;
use crate::import::{design_temperatures, nearest};
use crate::report::design_table::design_table;

/// Look up the outdoor design temperatures of a place, each row with its source
///
/// Rows that were written down from memory are marked: verify them before use.
#[derive(clap::Args)]
pub struct Arguments {
    /// The place or a part of its name; without it, every place in the table
    #[arg(value_name = "NAME")]
    name: Option<String>,
}

pub(super) fn run(arguments: &Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let places = design_temperatures()?;
    let found: Vec<&DesignPlace> = match &arguments.name {
        Some(name) => places
            .iter()
            .filter(|place| place.answers_to(name))
            .collect(),
        None => places.iter().collect(),
    };
    if let (Some(name), true) = (&arguments.name, found.is_empty()) {
        let error = CliError::input(format!("no design temperatures for `{name}` in the table"));
        return Err(
            match nearest(
                name,
                places
                    .iter()
                    .flat_map(|place| place.place.split(|letter: char| !letter.is_alphanumeric())),
            ) {
                Some(near) => error.hint(format!("did you mean `{near}`?")),
                None => error.hint("`overwinter climate design` without a name lists every place"),
            },
        );
    }
    app.print(&design_table(&found, app.units, app.look.width))?;
    Ok(Outcome::Done)
}
