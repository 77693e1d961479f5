//! The forms an answer can take, and how it may look.

/// The form of an answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
pub enum Format {
    /// A table for people
    #[default]
    Table,
    /// One JSON document, full precision
    Json,
    /// Comma-separated values
    Csv,
}

/// How wide and how colourful a table may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Columns of text that fit a line.
    pub width: u16,
    /// Whether colour and emphasis may be used.
    pub colour: bool,
}

impl Look {
    /// The look of a terminal, or of a pipe: 80 columns, plain.
    ///
    /// `COLUMNS` sets the width where it is a number; `NO_COLOR`, if set and not empty, forbids colour.
    #[must_use]
    pub fn of_terminal(is_terminal: bool) -> Self {
        let stated = std::env::var("COLUMNS")
            .ok()
            .and_then(|text| text.parse().ok());
        let measured = if is_terminal {
            comfy_table::Table::new().width()
        } else {
            None
        };
        let no_colour = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        Self {
            width: stated.or(measured).unwrap_or(80).max(60),
            colour: is_terminal && !no_colour,
        }
    }
}
