//! Rows of `sources.csv`.

use super::cells::{Cells, Place};
use super::header::{Column, Header, plain};
use crate::equipment::{Source, SourceKind};
use crate::import::quoted;

/// The columns of `sources.csv`.
pub const SOURCE_COLUMNS: &[Column] = &[
    plain("source"),
    plain("title"),
    plain("publisher"),
    plain("year"),
    plain("reference"),
    plain("licence"),
    plain("kind"),
    plain("note"),
];

/// The columns that `sources.csv` must have.
pub(super) const REQUIRED: &[&str] = &["source", "title", "kind"];

/// Where each column is.
pub(super) struct Places {
    key: Place,
    title: Place,
    publisher: Place,
    year: Place,
    reference: Place,
    licence: Place,
    kind: Place,
    note: Place,
}

impl Places {
    pub(super) fn of(header: &Header) -> Self {
        let at = |quantity| header.place(quantity);
        Self {
            key: at("source"),
            title: at("title"),
            publisher: at("publisher"),
            year: at("year"),
            reference: at("reference"),
            licence: at("licence"),
            kind: at("kind"),
            note: at("note"),
        }
    }

    /// The key of the row's entry, if it has one.
    pub(super) fn key<'a>(&self, cells: &mut Cells<'a>) -> Option<&'a str> {
        cells.needed_text(self.key, "the source's short name")
    }

    /// Reads a row; `None` where anything in it is wrong.
    pub(super) fn read(&self, key: &str, cells: &mut Cells<'_>) -> Option<Source> {
        if !cells.is_whole() {
            return None;
        }
        let owned = |text: Option<&str>| text.map(str::to_owned);
        let title = cells.needed_text(self.title, "a title");
        let kinds = SourceKind::ALL.iter().map(|kind| kind.name());
        let kind = cells.needed_word(self.kind, SourceKind::from_name, kinds);
        let year = cells.text(self.year);
        let read_year = year.and_then(|text| text.parse::<i32>().ok());
        if let (Some(text), None) = (year, read_year) {
            cells.report(self.year, &quoted(text), "a year", None);
        }
        let source = Source {
            key: key.to_owned(),
            title: title?.to_owned(),
            publisher: owned(cells.text(self.publisher)),
            year: read_year,
            reference: owned(cells.text(self.reference)),
            licence: owned(cells.text(self.licence)),
            kind: kind?,
            note: owned(cells.text(self.note)),
        };
        cells.is_sound().then_some(source)
    }
}
