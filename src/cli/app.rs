//! What every command has at hand: global options, standard output, the catalog's place.

use std::io::{self, BufWriter, IsTerminal, Write};
use std::path::PathBuf;

use super::CliError;
use super::output::Look;
use crate::quantity::UnitSystem;

/// Options that every command takes.
#[derive(clap::Args)]
pub struct GlobalArguments {
    /// Catalog file; a first run creates it from the data built into the program
    #[arg(
        long,
        global = true,
        env = "OVERWINTER_CATALOG",
        value_name = "FILE.db",
        help_heading = "Global options"
    )]
    pub catalog: Option<PathBuf>,
    /// Units of what is printed for people
    #[arg(long, global = true, value_enum, default_value_t = UnitSystem::Si, help_heading = "Global options")]
    pub units: UnitSystem,
}

/// What a command works with.
pub struct App {
    /// Catalog path as given, if it was.
    pub catalog_path: Option<PathBuf>,
    /// Units of what is printed for people; JSON and data files keep the units of their names.
    pub units: UnitSystem,
    /// How wide and how colourful the answer may be.
    pub look: Look,
    out: BufWriter<io::Stdout>,
}

impl App {
    pub(super) fn new(global: GlobalArguments) -> Self {
        let stdout = io::stdout();
        let look = Look::of_terminal(stdout.is_terminal());
        Self {
            catalog_path: global.catalog,
            units: global.units,
            look,
            out: BufWriter::with_capacity(1 << 16, stdout),
        }
    }

    /// Today's date, by the clock and time zone of this machine.
    #[must_use]
    pub fn today(&self) -> jiff::civil::Date {
        jiff::ZonedDateTime::now().date()
    }

    /// Today as year, month and day.
    pub(super) fn today_parts(&self) -> (u16, u8, u8) {
        let today = self.today();
        (
            today.year().unsigned_abs(),
            today.month().unsigned_abs(),
            today.day().unsigned_abs(),
        )
    }

    /// Prints text as it is.
    ///
    /// # Errors
    /// Where standard output cannot be written to.
    pub fn print(&mut self, text: &str) -> Result<(), CliError> {
        Ok(self.out.write_all(text.as_bytes())?)
    }

    /// Prints a value as indented JSON with a newline at its end.
    ///
    /// # Errors
    /// Where standard output cannot be written to.
    pub fn print_json(&mut self, value: &impl serde::Serialize) -> Result<(), CliError> {
        serde_json::to_writer_pretty(&mut self.out, value).map_err(io::Error::from)?;
        self.print("\n")
    }

    /// Standard output, for whoever streams.
    pub fn out(&mut self) -> &mut impl Write {
        &mut self.out
    }

    pub(super) fn finish(&mut self) -> Result<(), CliError> {
        Ok(self.out.flush()?)
    }
}

impl clap::ValueEnum for UnitSystem {
    fn value_variants<'a>() -> &'a [Self] {
        &[Self::Si, Self::Ip]
    }

    fn to_possible_value(&self) -> Option<clap::builder::PossibleValue> {
        Some(match self {
            Self::Si => clap::builder::PossibleValue::new("si").help("°C, kW, L/s, L/d"),
            Self::Ip => clap::builder::PossibleValue::new("ip").help("°F, kBtu/h, cfm, pint/d"),
        })
    }
}
