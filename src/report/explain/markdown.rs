//! An explanation as Markdown (CommonMark with tables).

use std::fmt::Write as _;

use super::charts::{TextSize, text_picture};
use super::{ExplainView, cell_text, inputs_line, result_line, unpublished_words, worked};
use crate::report::cautions::CAUTIONS;
use crate::report::clean_text;
use crate::report::terminal::Glyphs;
use crate::study::explain::{Part, Step, Table};

/// The explanation as Markdown.
#[must_use]
pub fn explain_markdown(view: &ExplainView<'_>) -> String {
    let mut text = format!(
        "# {}\n\n{}\n",
        escaped(&view.title()),
        escaped(&view.setting())
    );
    for chapter in &view.explanation.chapters {
        let _ = writeln!(
            text,
            "\n## {}: {}",
            capitalised(chapter.topic.name()),
            escaped(chapter.topic.words())
        );
        let mut number = 0;
        for part in &chapter.parts {
            text.push('\n');
            match part {
                Part::Words(words) => {
                    let _ = writeln!(text, "{}", escaped(words));
                }
                Part::Table(table) => text += &table_markdown(table),
                Part::Picture(picture) => {
                    let _ = writeln!(
                        text,
                        "```text\n{}```",
                        text_picture(picture, TextSize::wide(80), Glyphs::Unicode)
                    );
                }
                Part::Step(step) => {
                    number += 1;
                    text += &step_markdown(step, number, view);
                }
            }
        }
    }
    text += "\n## Sources\n\n";
    for authority in view.explanation.authorities() {
        let _ = writeln!(
            text,
            "- **{}**: {}",
            authority.key(),
            escaped(authority.words())
        );
    }
    for source in view.sources {
        let _ = writeln!(text, "- Unit: {}", escaped(source));
    }
    for caveat in &view.explanation.judged.caveats {
        let _ = writeln!(text, "- Caveat: {}.", escaped(&caveat.text(view.units)));
    }
    text.push('\n');
    for caution in CAUTIONS {
        let _ = writeln!(text, "> {}", escaped(caution));
    }
    text
}

fn step_markdown(step: &Step, number: usize, view: &ExplainView<'_>) -> String {
    let mut text = format!(
        "**{number}. {}** [{}]\n\n",
        escaped(&step.title),
        step.authority.key()
    );
    let mut lines = Vec::new();
    if step.equation.is_empty() {
        if let Some(result) = result_line(step, view.units) {
            lines.push(format!("{} = {result}", step.symbol));
        }
    } else {
        lines.push(format!("{} = {}", step.symbol, step.equation));
        lines.push(format!("  with {}", inputs_line(step)));
        lines.push(format!("  = {}", worked(step)));
        lines.extend(result_line(step, view.units).map(|result| format!("  = {result}")));
    }
    if !lines.is_empty() {
        let _ = writeln!(text, "```text\n{}\n```", lines.join("\n"));
    }
    if !step.note.is_empty() {
        let _ = writeln!(text, "{}", escaped(&step.note));
    }
    text
}

fn table_markdown(table: &Table) -> String {
    let row = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    let (table, unpublished) = (&table.published(), unpublished_words(table));
    let mut text = format!("{}\n\n", escaped(&table.title));
    text += &row(table.head.iter().map(|name| escaped(name)).collect());
    text += &row(table.head.iter().map(|_| "---".to_owned()).collect());
    for cells in &table.rows {
        text += &row(cells.iter().map(|cell| escaped(&cell_text(cell))).collect());
    }
    if let Some(words) = unpublished {
        let _ = writeln!(text, "\n{}", escaped(&words));
    }
    text
}

fn capitalised(word: &str) -> String {
    let mut characters = word.chars();
    characters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(characters).collect()
    })
}

/// Text that Markdown shows as it is, and that is no HTML either.
fn escaped(text: &str) -> String {
    let mut kept = String::new();
    for character in clean_text(text, 2_000).chars() {
        match character {
            '\\' | '`' | '*' | '_' | '[' | ']' | '#' | '|' | '~' | '!' => {
                kept.push('\\');
                kept.push(character);
            }
            '<' => kept += "&lt;",
            '>' => kept += "&gt;",
            '&' => kept += "&amp;",
            _ => kept.push(character),
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hostile_name_is_text_in_markdown() {
        assert_eq!(
            escaped("<script>|`a`\n# b \u{202e}[x](javascript:y)"),
            "&lt;script&gt;\\|\\`a\\` \\# b \\[x\\](javascript:y)"
        );
    }
}
