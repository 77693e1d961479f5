//! An explanation for a terminal: numbered steps, tables and charts, no wider than the line.

use std::fmt::Write as _;

use super::charts::{TextSize, text_picture};
use super::{ExplainView, cell_text, result_line, unpublished_words, worked, written};
use crate::report::cautions::CAUTIONS;
use crate::report::clean_text;
use crate::report::table::{Column, PlainTable, paragraph};
use crate::report::terminal::cells::cells;
use crate::study::explain::{Cell, Part, Step, Table};

/// The explanation as text.
#[must_use]
pub fn explain_text(view: &ExplainView<'_>) -> String {
    let mut text = paragraph(&view.title(), view.width, "", "");
    text += &paragraph(&view.setting(), view.width, "", "");
    for chapter in &view.explanation.chapters {
        let head = format!(
            "{}: {}",
            chapter.topic.name().to_uppercase(),
            chapter.topic.words()
        );
        let _ = write!(text, "\n{}", paragraph(&head, view.width, "", ""));
        let mut number = 0;
        for part in &chapter.parts {
            text.push('\n');
            match part {
                Part::Words(words) => text += &paragraph(words, view.width, "", ""),
                Part::Table(table) => text += &table_text(table, view.width),
                Part::Picture(picture) => {
                    text += &text_picture(
                        picture,
                        TextSize::wide(usize::from(view.width.min(100))),
                        view.glyphs,
                    );
                }
                Part::Step(step) => {
                    number += 1;
                    text += &step_text(step, number, view);
                }
            }
        }
    }
    text += &foot(view);
    text
}

fn step_text(step: &Step, number: usize, view: &ExplainView<'_>) -> String {
    let indent = "     ";
    let mut text = flow(
        &format!("{} [{}]", step.title, step.authority.key()),
        view.width,
        &format!("{number:>3}. "),
        indent,
    );
    let deeper = format!("{indent}    ");
    if !step.equation.is_empty() {
        let equation = format!("{} = {}", step.symbol, step.equation);
        text += &flow(&equation, view.width, indent, &deeper);
        text += &inputs_text(step, view.width, indent);
        text += &flow(&format!("= {}", worked(step)), view.width, indent, &deeper);
    }
    if let Some(result) = result_line(step, view.units) {
        let line = if step.equation.is_empty() {
            format!("{} = {result}", step.symbol)
        } else {
            format!("= {result}")
        };
        text += &flow(&line, view.width, indent, &deeper);
    }
    if !step.note.is_empty() {
        text += &flow(&format!("({})", step.note), view.width, indent, indent);
    }
    text
}

/// A paragraph wrapped between words only, never at a hyphen.
fn flow(text: &str, width: u16, first: &str, rest: &str) -> String {
    let options = textwrap::Options::new(usize::from(width))
        .initial_indent(first)
        .subsequent_indent(rest)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .word_separator(textwrap::WordSeparator::AsciiSpace);
    let mut wrapped = textwrap::fill(&clean_text(text, 2_000), options);
    wrapped.push('\n');
    wrapped
}

/// The numbers put in, a number never parted from its unit or its symbol.
fn inputs_text(step: &Step, width: u16, indent: &str) -> String {
    let mut lines = vec![format!("{indent}with")];
    let count = step.inputs.len();
    for (place, input) in step.inputs.iter().enumerate() {
        let comma = if place + 1 < count { "," } else { "" };
        let item = format!("{} = {}{comma}", input.symbol, written(input.value));
        match lines.last_mut() {
            Some(line) if cells(line) + 1 + cells(&item) <= usize::from(width) => {
                line.push(' ');
                *line += &item;
            }
            _ => lines.push(format!("{indent}     {item}")),
        }
    }
    lines.join("\n") + "\n"
}

fn table_text(table: &Table, width: u16) -> String {
    let (table, unpublished) = (&table.published(), unpublished_words(table));
    let is_words = |column: usize| {
        table
            .rows
            .iter()
            .all(|row| !matches!(row.get(column), Some(Cell::Number(_))))
    };
    let columns: Vec<(&str, Column)> = table
        .head
        .iter()
        .enumerate()
        .map(|(index, &name)| {
            let lean = if is_words(index) {
                Column::Words
            } else {
                Column::Numbers
            };
            (name, lean)
        })
        .collect();
    let mut shown = PlainTable::new(width, &columns);
    for row in &table.rows {
        shown.row(row.iter().map(cell_text));
    }
    let mut text = paragraph(&table.title, width, "", "") + &shown.text();
    if let Some(words) = unpublished {
        text += &paragraph(&words, width, "", "");
    }
    text
}

fn foot(view: &ExplainView<'_>) -> String {
    let mut text = "\nSOURCES\n".to_owned();
    for authority in view.explanation.authorities() {
        text += &paragraph(
            &format!("[{}] {}", authority.key(), authority.words()),
            view.width,
            "  ",
            "    ",
        );
    }
    for source in view.sources {
        text += &paragraph(&format!("Unit: {source}"), view.width, "  ", "    ");
    }
    for caveat in &view.explanation.judged.caveats {
        text += &paragraph(
            &format!("Caveat: {}.", caveat.text(view.units)),
            view.width,
            "  ",
            "    ",
        );
    }
    text.push('\n');
    for caution in CAUTIONS {
        text += &paragraph(caution, view.width, "", "  ");
    }
    text
}
