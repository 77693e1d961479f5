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
