//! `overwinter explain`: why a unit carries a house or does not, number by number.

use std::path::PathBuf;
use std::sync::Arc;

use super::pick_unit::unit_or_pick;
use super::unit_sources::sources_of;
use super::{App, CliError, Outcome};
use crate::report::explain::{
    ExplainView, explain_data, explain_html, explain_markdown, explain_text,
};
use crate::report::terminal::Glyphs;
use crate::study::explain::{Topic, explain, topics_of};

/// Why a unit carries a house or does not: a worked calculation, step by step
///
/// Every step shows its equation, the numbers put in, the result and its source, so that it can be redone by hand.
#[derive(clap::Args)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// The unit's key; at a terminal, leaving it out opens a list to pick from
    #[arg(value_name = "UNIT")]
    unit: Option<String>,
    /// What to explain; without it, everything that applies
    #[arg(long, value_enum)]
    topic: Vec<Topic>,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Form,
}

/// The form of an explanation.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
enum Form {
    /// Text for the terminal, with charts
    #[default]
    Text,
    /// One JSON document, full precision
    Json,
    /// Markdown
    Markdown,
    /// One self-contained page
    Html,
}

/// Explains one unit.
///
/// # Errors
/// Where a file cannot be read, the unit is not in the catalog, or the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    let (brief, climate) = app.brief(
        &catalog,
        &arguments.house,
        arguments.criteria.as_deref(),
        arguments.climate.as_deref(),
    )?;
    let brief = Arc::new(brief);
    let key = unit_or_pick(arguments.unit, &catalog, &brief)?;
    let unit = catalog.unit(&key)?;
    let topics = if arguments.topic.is_empty() {
        topics_of(&brief)
    } else {
        arguments.topic
    };
    let explanation = explain(&brief, &unit, &topics);
    let sources = sources_of(&catalog, [&unit])?;
    let view = ExplainView {
        explanation: &explanation,
        house: brief.house(),
        climate: climate.as_deref(),
        units: app.units,
        width: app.look.width,
        glyphs: Glyphs::Unicode,
        sources: &sources,
    };
    match arguments.format {
        Form::Text => app.print(&explain_text(&view))?,
        Form::Markdown => app.print(&explain_markdown(&view))?,
        Form::Html => app.print(&explain_html(&view))?,
        Form::Json => app.print_json(&explain_data(&view))?,
    }
    Ok(Outcome::Done)
}

impl clap::ValueEnum for Topic {
    fn value_variants<'a>() -> &'a [Self] {
        &Self::ALL
    }

    fn to_possible_value(&self) -> Option<clap::builder::PossibleValue> {
        Some(clap::builder::PossibleValue::new(self.name()).help(self.words()))
    }
}
