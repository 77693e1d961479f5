//! A worked calculation for readers: as text, Markdown, a page, or data.

mod charts;
mod data;
mod html;
mod markdown;
mod number;
mod text;

pub use charts::{TextSize, text_picture};
pub use data::explain_data;
pub use html::explain_html;
pub use markdown::explain_markdown;
pub use number::{in_reader_units, worked, written};
pub use text::explain_text;

use crate::house::House;
use crate::quantity::UnitSystem;
use crate::report::clean_text;
use crate::study::Verdict;
use crate::study::explain::{Cell, Explanation, Step, Table};

/// Longest name of a unit or a house in a title \[characters\].
const LONGEST_NAME: usize = 120;

/// How an explanation is to be shown.
#[derive(Clone, Copy, Debug)]
pub struct ExplainView<'a> {
    /// The explanation.
    pub explanation: &'a Explanation,
    /// The house.
    pub house: &'a House,
    /// The climate's key; `None` without one.
    pub climate: Option<&'a str>,
    /// Units put beside the results.
    pub units: UnitSystem,
    /// Characters that fit a line of text.
    pub width: u16,
    /// Whether the terminal can show more than ASCII.
    pub glyphs: crate::report::terminal::Glyphs,
    /// The sources of the unit's numbers.
    pub sources: &'a [String],
}

impl ExplainView<'_> {
    fn title(&self) -> String {
        format!(
            "{} in {}",
            clean_text(&self.explanation.judged.model.key, LONGEST_NAME),
            clean_text(&self.house.name, LONGEST_NAME)
        )
    }

    fn verdict(&self) -> &'static str {
        verdict_word(&self.explanation.judged.verdict)
    }

    fn setting(&self) -> String {
        format!(
            "Verdict: {}. Climate: {}. Equations are worked in °C, kW, kg and seconds.",
            self.verdict(),
            self.climate.unwrap_or("none")
        )
    }
}

/// The verdict in one word.
#[must_use]
pub fn verdict_word(verdict: &Verdict) -> &'static str {
    match verdict {
        Verdict::Accepted => "accepted",
        Verdict::Rejected(_) => "rejected",
        Verdict::Undecided(_) => "undecided",
    }
}

/// The numbers put into a step, in one line.
fn inputs_line(step: &Step) -> String {
    let texts: Vec<String> = step
        .inputs
        .iter()
        .map(|input| format!("{} = {}", input.symbol, written(input.value)))
        .collect();
    texts.join(", ")
}

/// A step's result with its symbol, and in the reader's other units where they differ.
fn result_line(step: &Step, units: UnitSystem) -> Option<String> {
    let value = step.result?;
    let other = in_reader_units(value, units).map_or_else(String::new, |text| format!(" ({text})"));
    Some(format!("{}{other}", written(value)))
}

fn cell_text(cell: &Cell) -> String {
    match cell {
        Cell::Word(word) => word.clone(),
        Cell::Number(value) => number::in_table(*value),
        Cell::Missing => "?".to_owned(),
    }
}

/// What a table does not hold for want of publication, in a sentence; `None` where nothing is missing.
fn unpublished_words(table: &Table) -> Option<String> {
    let whole: Vec<&str> = table.unpublished().collect();
    let single = table
        .published()
        .rows
        .iter()
        .flatten()
        .any(|cell| *cell == Cell::Missing);
    let mut sentences = Vec::new();
    if !whole.is_empty() {
        sentences.push(format!("Not published: {}.", whole.join(", ")));
    }
    if single {
        sentences.push("? is not published, or not known.".to_owned());
    }
    (!sentences.is_empty()).then(|| sentences.join(" "))
}

#[cfg(test)]
mod tests;
