//! `overwinter catalog sources`: where the numbers come from.

use crate::cli::output::Format;
use crate::cli::{App, CliError, Outcome};
use crate::equipment::Source;
use crate::report::csv_text::csv_text;
use crate::report::table::paragraph;

/// Where the numbers come from, and under which terms
#[derive(clap::Args)]
pub struct Arguments {
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// Prints every source.
///
/// # Errors
/// Where the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let sources: Vec<Source> = app
        .catalog()?
        .sources()?
        .into_iter()
        .map(|(_, source)| source)
        .collect();
    match arguments.format {
        Format::Json => {
            let all: Vec<serde_json::Value> = sources.iter().map(as_json).collect();
            app.print_json(&all)?;
        }
        Format::Csv => {
            let header = HEADER.map(str::to_owned);
            let rows: Vec<Vec<String>> = sources
                .iter()
                .map(|source| as_cells(source).to_vec())
                .collect();
            app.print(&csv_text(&header, &rows))?;
        }
        Format::Table => {
            let width = app.look.width;
            let texts: Vec<String> = sources
                .iter()
                .map(|source| as_text(source, width))
                .collect();
            app.print(&texts.join("\n"))?;
        }
    }
    Ok(Outcome::Done)
}

const HEADER: [&str; 8] = [
    "source",
    "title",
    "publisher",
    "year",
    "reference",
    "licence",
    "kind",
    "note",
];

fn as_cells(source: &Source) -> [String; 8] {
    let or_blank = |text: &Option<String>| text.clone().unwrap_or_default();
    [
        source.key.clone(),
        source.title.clone(),
        or_blank(&source.publisher),
        source.year.map(|year| year.to_string()).unwrap_or_default(),
        or_blank(&source.reference),
        or_blank(&source.licence),
        source.kind.name().to_owned(),
        or_blank(&source.note),
    ]
}

pub(super) fn as_json(source: &Source) -> serde_json::Value {
    serde_json::json!({
        "source": source.key,
        "title": source.title,
        "publisher": source.publisher,
        "year": source.year,
        "reference": source.reference,
        "licence": source.licence,
        "kind": source.kind.name(),
        "note": source.note,
    })
}

/// A source as a short paragraph with its note.
pub(super) fn as_text(source: &Source, width: u16) -> String {
    let mut words = format!("{}: {}", source.key, source.title);
    let year = source.year.map(|year| year.to_string());
    for part in [&source.publisher, &year, &source.reference]
        .into_iter()
        .flatten()
    {
        words += &format!(", {part}");
    }
    words += &format!(". {}", source.kind.name().replace('_', " "));
    if let Some(licence) = &source.licence {
        words += &format!(", {licence}");
    }
    let mut text = paragraph(&words, width, "", "  ");
    if let Some(note) = &source.note {
        text += &paragraph(note, width, "  ", "  ");
    }
    text
}
