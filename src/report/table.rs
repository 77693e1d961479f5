//! The look of every table: a rule under the head, room between columns, numbers to the right, no boxes.

use comfy_table::{Cell, CellAlignment, ContentArrangement, LineStyle, Table, TableStyle};

use super::clean_text;

/// Longest text in a cell \[characters\]; what is longer is cut with a visible sign.
const LONGEST_CELL: usize = 120;
/// Longest text in a paragraph \[characters\].
const LONGEST_PARAGRAPH: usize = 2_000;

/// Which way a column leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// Words, to the left.
    Words,
    /// Numbers, to the right.
    Numbers,
}

/// A table being filled.
pub struct PlainTable {
    table: Table,
    columns: Vec<Column>,
}

impl PlainTable {
    /// A table with a head, at most `width` characters wide.
    #[must_use]
    pub fn new(width: u16, head: &[(&str, Column)]) -> Self {
        let style = TableStyle::new().header_separator(LineStyle::none().fill('─').junction('─'));
        let mut table = Table::new();
        table
            .load_style(style)
            .force_no_tty()
            .set_content_arrangement(ContentArrangement::Dynamic)
            .set_width(width);
        let columns: Vec<Column> = head.iter().map(|&(_, column)| column).collect();
        table.set_header(cells(
            head.iter().map(|&(text, _)| text.to_owned()),
            &columns,
        ));
        let last = columns.len().saturating_sub(1);
        for (index, column) in table.column_iter_mut().enumerate() {
            column.set_padding((0, if index == last { 0 } else { 2 }));
        }
        Self { table, columns }
    }

    /// Adds a row of texts; hostile characters are taken out.
    pub fn row(&mut self, texts: impl IntoIterator<Item = String>) {
        self.table.add_row(cells(texts.into_iter(), &self.columns));
    }

    /// The table as lines, without spaces at their ends.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = String::new();
        for line in self.table.lines() {
            text += line.trim_end();
            text.push('\n');
        }
        text
    }
}

fn cells(texts: impl Iterator<Item = String>, columns: &[Column]) -> Vec<Cell> {
    texts
        .zip(columns)
        .map(|(text, column)| {
            let alignment = match column {
                Column::Words => CellAlignment::Left,
                Column::Numbers => CellAlignment::Right,
            };
            Cell::new(clean_text(&text, LONGEST_CELL)).set_alignment(alignment)
        })
        .collect()
}

/// A paragraph wrapped to a width, its first line after `first`, the others indented by as much as `rest`.
#[must_use]
pub fn paragraph(text: &str, width: u16, first: &str, rest: &str) -> String {
    let options = textwrap::Options::new(usize::from(width))
        .initial_indent(first)
        .subsequent_indent(rest);
    let mut wrapped = textwrap::fill(&clean_text(text, LONGEST_PARAGRAPH), options);
    wrapped.push('\n');
    wrapped
}
