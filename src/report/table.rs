//! The look of every table: a rule under the head, room between columns, numbers to the right, no boxes.

use comfy_table::{
    Cell, CellAlignment, ColumnConstraint, ContentArrangement, LineStyle, Table, TableStyle, Width,
};
use textwrap::core::display_width;

use super::clean_text;

/// Longest text in a cell \[characters\]; what is longer is cut with a visible sign.
const LONGEST_CELL: usize = 120;
/// Longest text in a paragraph \[characters\].
const LONGEST_PARAGRAPH: usize = 2_000;
/// Words up to this width stay on one line of their cell where there is room \[characters\].
const UNBROKEN_WORDS: usize = 14;
/// Space after a column \[characters\]; the table's own separator adds one more.
const GAP: u16 = 1;
const SEPARATOR: u16 = 1;

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
    /// The width below which each column would be broken within a number or a word.
    narrowest: Vec<usize>,
    width: u16,
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
            column.set_padding((0, if index == last { 0 } else { GAP }));
        }
        let narrowest = head
            .iter()
            .map(|&(text, _)| longest_word(&clean_text(text, LONGEST_CELL)))
            .collect();
        Self {
            table,
            columns,
            narrowest,
            width,
        }
    }

    /// Adds a row of texts; hostile characters are taken out.
    pub fn row(&mut self, texts: impl IntoIterator<Item = String>) {
        let texts: Vec<String> = texts
            .into_iter()
            .map(|text| clean_text(&text, LONGEST_CELL))
            .collect();
        for ((text, column), narrowest) in texts.iter().zip(&self.columns).zip(&mut self.narrowest)
        {
            let whole = display_width(text);
            *narrowest = (*narrowest).max(match column {
                Column::Numbers => whole,
                Column::Words if whole <= UNBROKEN_WORDS => whole,
                Column::Words => longest_word(text),
            });
        }
        self.table.add_row(cells(texts.into_iter(), &self.columns));
    }

    /// The table as lines, without spaces at their ends.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = String::new();
        let mut table = self.table.clone();
        let gaps = usize::from(GAP + SEPARATOR) * self.columns.len().saturating_sub(1);
        let unbroken = self.narrowest.iter().sum::<usize>() + gaps;
        if unbroken <= usize::from(self.width) {
            let last = self.columns.len().saturating_sub(1);
            for (index, column) in table.column_iter_mut().enumerate() {
                let width = u16::try_from(self.narrowest[index]).unwrap_or(u16::MAX);
                let gap = if index == last { 0 } else { GAP };
                column.set_constraint(ColumnConstraint::LowerBoundary(Width::Fixed(width + gap)));
            }
        }
        for line in table.lines() {
            text += line.trim_end();
            text.push('\n');
        }
        text
    }
}

fn longest_word(text: &str) -> usize {
    text.split(' ').map(display_width).max().unwrap_or(0)
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
        .subsequent_indent(rest)
        // Only at spaces: `L/s` and `chicago-ohare` stay whole.
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .word_separator(textwrap::WordSeparator::AsciiSpace);
    let mut wrapped = textwrap::fill(
        &with_units_held(&clean_text(text, LONGEST_PARAGRAPH)),
        options,
    );
    wrapped.push('\n');
    wrapped.replace('\u{a0}', " ")
}

/// Units that stay on the line of their number.
const UNITS: [&str; 15] = [
    "°C", "°F", "kW", "kWh", "Btu/h", "kBtu/h", "%", "K", "h", "L", "L/d", "L/s", "cfm", "pint/d",
    "pints",
];

/// The text with every space between a number and its unit made one that no line breaks at.
fn with_units_held(text: &str) -> String {
    let mut held = String::with_capacity(text.len());
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        held += word;
        let Some(next) = words.peek() else { break };
        let is_number = word.ends_with(|character: char| character.is_ascii_digit());
        let unit = next.trim_end_matches([',', ';', '.', ':', ')']);
        held.push(if is_number && UNITS.contains(&unit) {
            '\u{a0}'
        } else {
            ' '
        });
    }
    held
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_never_breaks_between_a_number_and_its_unit() {
        assert_eq!(
            paragraph("stops at -20.0 °C, short", 14, "", ""),
            "stops at\n-20.0 °C,\nshort\n"
        );
    }

    #[test]
    fn a_line_never_breaks_within_a_unit_or_a_key() {
        assert_eq!(
            paragraph("leaks 4 L/s near chicago-ohare", 20, "", ""),
            "leaks 4 L/s near\nchicago-ohare\n"
        );
        assert_eq!(
            paragraph("takes in 14 Btu/h", 14, "", ""),
            "takes in\n14 Btu/h\n"
        );
    }

    #[test]
    fn numbers_and_heads_are_not_broken_where_there_is_room() {
        let mut table = PlainTable::new(
            28,
            &[
                ("unit", Column::Words),
                ("latent kBtu/h", Column::Numbers),
                ("kWh a year", Column::Numbers),
            ],
        );
        table.row([
            "larch-with-a-long-name 9".into(),
            "12.5".into(),
            "1 000".into(),
        ]);
        let text = table.text();
        assert!(text.contains("kBtu/h") && text.contains("1 000"), "{text}");
        assert!(text.lines().all(|line| display_width(line) <= 28), "{text}");
    }
}
