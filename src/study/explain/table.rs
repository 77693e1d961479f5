//! Numbers side by side, beside the steps.

use super::Value;

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A word.
    Word(String),
    /// A number; its unit stands in the column's head.
    Number(Value),
    /// Not published, or not known.
    Missing,
}

impl<T: Into<Value>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Missing, |value| Self::Number(value.into()))
    }
}

impl Cell {
    /// A number.
    #[must_use]
    pub fn number(value: impl Into<Value>) -> Self {
        Self::Number(value.into())
    }

    /// A word.
    #[must_use]
    pub fn word(text: impl Into<String>) -> Self {
        Self::Word(text.into())
    }
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What it shows.
    pub title: String,
    /// Names of the columns, with their units.
    pub head: Vec<&'static str>,
    /// The rows, each as long as the head.
    pub rows: Vec<Vec<Cell>>,
}

impl Table {
    /// Whether nothing at all stands in a column.
    fn is_blank(&self, column: usize) -> bool {
        !self.rows.is_empty()
            && self
                .rows
                .iter()
                .all(|row| matches!(row.get(column), Some(Cell::Missing)))
    }

    /// Names of the columns in which nothing is published.
    pub fn unpublished(&self) -> impl Iterator<Item = &'static str> {
        let is_blank = |&(column, _): &(usize, &&'static str)| self.is_blank(column);
        self.head
            .iter()
            .enumerate()
            .filter(is_blank)
            .map(|(_, &name)| name)
    }

    /// The table without those columns.
    #[must_use]
    pub fn published(&self) -> Self {
        let kept: Vec<usize> = (0..self.head.len())
            .filter(|&column| !self.is_blank(column))
            .collect();
        Self {
            title: self.title.clone(),
            head: kept.iter().map(|&column| self.head[column]).collect(),
            rows: self
                .rows
                .iter()
                .map(|row| {
                    kept.iter()
                        .filter_map(|&column| row.get(column).cloned())
                        .collect()
                })
                .collect(),
        }
    }
}
