//! `overwinter house check`: reads a house file back in words.

use std::path::PathBuf;

use crate::cli::{App, CliError, Outcome};
use crate::house::ClimateReference;
use crate::report::cautions::CAUTIONS;
use crate::report::clean_text;
use crate::report::house_words::house_words;
use crate::report::table::paragraph;

/// Read a house file and say in words what it says, or list everything wrong in it
#[derive(clap::Args)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    file: PathBuf,
}

pub(super) fn run(arguments: &Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let house = app.read_house(&arguments.file)?;
    match &house.climate {
        None => {}
        Some(ClimateReference::Catalog(key)) => {
            let file = arguments.file.display();
            app.catalog()?.climate(key).map_err(|error| {
                let found = CliError::from(error);
                found.in_place(&format!("{file}: site.climate"))
            })?;
        }
        Some(ClimateReference::File(_)) => {
            app.climate_file_of(&house, &arguments.file)?;
        }
    }
    let mut text = format!("{}\n\n", clean_text(&house.name, 200));
    for words in house_words(&house, app.units) {
        text += &paragraph(&words, app.look.width, "", "  ");
    }
    text.push('\n');
    text += &paragraph(CAUTIONS[0], app.look.width, "", "");
    app.print(&text)?;
    Ok(Outcome::Done)
}
