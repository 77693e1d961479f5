//! Picks a unit by fuzzy search where a command needs one and somebody sits at the terminal.

use std::borrow::Cow;
use std::io::{IsTerminal, stderr, stdin};
use std::sync::Arc;

use skim::prelude::{Skim, SkimOptionsBuilder, unbounded};
use skim::tui::options::PreviewLayout;
use skim::{ItemPreview, PreviewContext, SkimItem};

use super::CliError;
use crate::catalog::Catalog;
use crate::equipment::Unit;
use crate::report::clean_text;
use crate::report::unit_preview::unit_preview;
use crate::study::Brief;

/// Longest line of the list \[characters\].
const LONGEST_LINE: usize = 100;

/// The unit that was named, or else one picked at the terminal; a key of the catalog only in the second case.
///
/// # Errors
/// Where none is named and nobody sits at the terminal, or the picking was left.
pub fn unit_or_pick(
    given: Option<String>,
    catalog: &Catalog,
    brief: &Arc<Brief>,
) -> Result<String, CliError> {
    match given {
        Some(key) => Ok(key),
        None if stdin().is_terminal() && stderr().is_terminal() => pick(catalog, brief),
        None => Err(CliError::input("the argument UNIT is missing").hint(
            "name a unit of the catalog; at a terminal, leaving it out opens a list to pick from",
        )),
    }
}

/// One line of the list.
struct UnitItem {
    line: String,
    unit: Unit,
    brief: Arc<Brief>,
}

impl SkimItem for UnitItem {
    fn text(&self) -> Cow<'_, str> {
        Cow::Borrowed(&self.line)
    }

    fn preview(&self, context: PreviewContext<'_>) -> ItemPreview {
        let width = u16::try_from(context.width.saturating_sub(1)).unwrap_or(u16::MAX);
        let rows = context.height.saturating_sub(14).clamp(6, 16);
        ItemPreview::Text(unit_preview(&self.brief, &self.unit, width.max(20), rows))
    }
}

/// A unit in one line: its key, then what it is.
fn line(unit: &Unit) -> String {
    let model = &unit.model;
    let mut words = clean_text(&model.key, LONGEST_LINE);
    let names = [&model.maker, &model.outdoor_model, &model.indoor_model];
    for name in names.into_iter().flatten() {
        words.push_str("  ");
        words += &clean_text(name, LONGEST_LINE);
    }
    words.push_str("  ");
    words += model.form.name();
    words.chars().take(3 * LONGEST_LINE).collect()
}

/// Opens the list and waits for a choice.
fn pick(catalog: &Catalog, brief: &Arc<Brief>) -> Result<String, CliError> {
    let mut items = catalog.judge_all(|unit| UnitItem {
        line: line(unit),
        unit: unit.clone(),
        brief: Arc::clone(brief),
    })?;
    if items.is_empty() {
        return Err(CliError::input("the catalog holds no unit to pick from"));
    }
    items.sort_by(|a, b| a.unit.model.key.cmp(&b.unit.model.key));
    let options = SkimOptionsBuilder::default()
        .height("100%")
        .prompt("unit> ")
        .header("Enter takes, Esc leaves")
        .reverse(true)
        .no_mouse(true)
        .preview(String::new())
        .preview_window(PreviewLayout::from("right:60%"))
        .build()
        .map_err(|error| unusable(&error))?;
    let (sender, receiver) = unbounded();
    let batch: Vec<Arc<dyn SkimItem>> = items
        .into_iter()
        .map(|item| Arc::new(item) as Arc<dyn SkimItem>)
        .collect();
    sender.send(batch).map_err(|error| unusable(&error))?;
    // The list is whole; without this the picker would wait for more of it.
    drop(sender);
    let output = Skim::run_with(options, Some(receiver)).map_err(|error| unusable(&error))?;
    let chosen = output
        .selected_items
        .first()
        .filter(|_| !output.is_abort)
        .and_then(|found| (*found.item).as_any().downcast_ref::<UnitItem>());
    match chosen {
        Some(item) => Ok(item.unit.model.key.clone()),
        None => Err(CliError::input("no unit was picked")),
    }
}

fn unusable(error: &dyn std::fmt::Display) -> CliError {
    CliError::input(format!("the list of units cannot be shown here: {error}"))
        .hint("name the unit on the command line")
}
