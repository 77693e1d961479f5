//! Reads a TOML document key by key and notes every problem with its line and column, instead of stopping at the first.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::problem::{Problem, Problems, quoted};
use super::{nearest, text_place::TextPlace};
use crate::quantity::{Dimension, ParseQuantityError, parse_quantity};

/// A value and where it stands.
#[derive(Clone, Debug)]
pub(super) struct Placed<T> {
    /// The value.
    pub value: T,
    /// Where it stands in the text, in bytes.
    pub span: Range<usize>,
    /// Its full key, such as `heating.design_load`.
    pub key: String,
}

impl<T> Placed<T> {
    /// The same place with another value.
    pub fn with<U>(&self, value: U) -> Placed<U> {
        Placed {
            value,
            span: self.span.clone(),
            key: self.key.clone(),
        }
    }
}

/// A table of the document.
#[derive(Clone)]
pub(super) struct Section<'d> {
    /// Its full name; empty for the document itself.
    path: String,
    /// Where its header stands.
    span: Range<usize>,
    entries: &'d DeTable<'d>,
}

impl<'d> Section<'d> {
    /// Where its header stands.
    pub fn place(&self) -> Placed<()> {
        Placed {
            value: (),
            span: self.span.clone(),
            key: self.path.clone(),
        }
    }

    /// Whether the key is given at all, readable or not.
    pub fn has(&self, key: &str) -> bool {
        self.get(key).is_some()
    }

    fn get(&self, key: &str) -> Option<&'d Spanned<DeValue<'d>>> {
        self.entries.get(key)
    }

    fn full_key(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }
}

/// The reading of one document, with the problems found so far.
pub(super) struct TomlReader<'t> {
    file: &'t str,
    text: &'t str,
    places: TextPlace<'t>,
    problems: Problems,
    /// Whether some line is no TOML: what is missing may stand in it, and is not told of.
    is_broken: bool,
}

impl<'t> TomlReader<'t> {
    /// Begins to read a text that the user knows as `file`; a byte-order mark is left out.
    pub fn new(file: &'t str, text: &'t str) -> Self {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        Self {
            file,
            text,
            places: TextPlace::new(text),
            problems: Problems::default(),
            is_broken: false,
        }
    }

    /// The document's outermost table; text that is no TOML is noted, and what remains readable is returned.
    pub fn parse(&mut self) -> Spanned<DeTable<'t>> {
        let (table, errors) = DeTable::parse_recoverable(self.text);
        self.is_broken = !errors.is_empty();
        for error in errors {
            let span = error.span().unwrap_or(0..0);
            let line = self.places.line_text(span.start);
            let (line_number, column) = self.places.line_and_column(span.start);
            // The parser's own words, such as `invalid string, expected ", '`, say what was expected.
            let problem = Problem::new(self.file, quoted(line), "a line of TOML")
                .on_line(line_number)
                .at_column(column)
                .with_hint(error.message().lines().collect::<Vec<_>>().join("; "));
            self.problems.push(problem);
        }
        table
    }

    /// The document as a section.
    pub fn root<'d>(document: &'d Spanned<DeTable<'d>>) -> Section<'d> {
        Section {
            path: String::new(),
            span: 0..0,
            entries: document.get_ref(),
        }
    }

    /// Everything noted, or the value where there is nothing.
    pub fn finish<T>(self, value: Option<T>) -> Result<T, Problems> {
        match self.problems.or(value) {
            Ok(Some(value)) => Ok(value),
            Ok(None) => Err(Problem::new(self.file, "nothing", "a complete file").into()),
            Err(problems) => Err(problems),
        }
    }

    /// Notes a problem at a place.
    pub fn note<T>(
        &mut self,
        place: &Placed<T>,
        found: impl Into<String>,
        expected: impl Into<String>,
        hint: Option<String>,
    ) {
        let mut problem = Problem::new(self.file, found, expected);
        if !place.span.is_empty() {
            let (line, column) = self.places.line_and_column(place.span.start);
            problem = problem.on_line(line).at_column(column);
        }
        if !place.key.is_empty() {
            problem = problem.in_field(place.key.clone());
        }
        problem.hint = hint;
        self.problems.push(problem);
    }

    /// What stands at a place, as the file has it.
    pub fn written<T>(&self, place: &Placed<T>) -> String {
        let raw = self.text.get(place.span.clone()).unwrap_or_default();
        if raw.starts_with(['"', '\'']) {
            quoted(raw.trim_matches(['"', '\'']))
        } else {
            quoted(raw).trim_matches('"').to_owned()
        }
    }

    /// Notes that a value breaks a rule, unless it holds; returns whether it holds.
    pub fn demand<T>(&mut self, place: &Placed<T>, holds: bool, expected: &str) -> bool {
        self.demand_with_hint(place, holds, expected, None)
    }

    /// The same with a hint.
    pub fn demand_with_hint<T>(
        &mut self,
        place: &Placed<T>,
        holds: bool,
        expected: &str,
        hint: Option<String>,
    ) -> bool {
        if !holds {
            let found = self.written(place);
            if !(self.is_broken && found == "nothing") {
                self.note(place, found, expected, hint);
            }
        }
        holds
    }

    /// Notes every key that is not known, with the nearest one that is; `also` lets further keys pass.
    pub fn only_known(
        &mut self,
        section: &Section<'_>,
        known: &[&str],
        also: impl Fn(&str) -> bool,
    ) {
        for (key, _) in section.entries.iter() {
            let name = key.get_ref().as_ref();
            if known.contains(&name) || also(name) {
                continue;
            }
            let place = Placed {
                value: (),
                span: key.span(),
                key: section.full_key(name),
            };
            let what = if section.path.is_empty() {
                "a section or key".to_owned()
            } else {
                format!("a key of [{}]", section.path)
            };
            let hint = match nearest(name, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("known here: {}", known.join(", ")),
            };
            self.note(&place, "an unknown name", what, Some(hint));
        }
    }

    /// A section that must be there.
    pub fn section<'d>(&mut self, parent: &Section<'d>, key: &str) -> Option<Section<'d>> {
        let section = self.optional_section(parent, key);
        if section.is_none() && !parent.has(key) && !self.is_broken {
            let place = Placed {
                value: (),
                span: 0..0,
                key: String::new(),
            };
            self.note(
                &place,
                "no such section",
                format!("a section [{}]", parent.full_key(key)),
                None,
            );
        }
        section
    }

    /// A section that may be there.
    pub fn optional_section<'d>(&mut self, parent: &Section<'d>, key: &str) -> Option<Section<'d>> {
        let value = parent.get(key)?;
        let place = Placed {
            value: (),
            span: value.span(),
            key: parent.full_key(key),
        };
        match value.get_ref() {
            DeValue::Table(entries) => Some(Section {
                path: place.key,
                span: place.span,
                entries,
            }),
            _ => {
                self.demand(&place, false, &format!("a section [{key}]"));
                None
            }
        }
    }

    /// The tables of `[[key]]`; none where it is not given.
    pub fn sections<'d>(&mut self, parent: &Section<'d>, key: &str) -> Vec<Section<'d>> {
        let Some(value) = parent.get(key) else {
            return Vec::new();
        };
        let place = Placed {
            value: (),
            span: value.span(),
            key: parent.full_key(key),
        };
        let DeValue::Array(items) = value.get_ref() else {
            self.demand_with_hint(
                &place,
                false,
                &format!("tables [[{key}]]"),
                Some(format!("write [[{key}]], in double brackets")),
            );
            return Vec::new();
        };
        let mut sections = Vec::new();
        for item in items.iter() {
            let place = place.with(());
            let place = Placed {
                span: item.span(),
                ..place
            };
            if let DeValue::Table(entries) = item.get_ref() {
                sections.push(Section {
                    path: place.key,
                    span: place.span,
                    entries,
                });
            } else {
                self.demand(&place, false, &format!("a table [[{key}]]"));
            }
        }
        sections
    }

    /// Notes that a key must be there; for use where `section` lacks it.
    pub fn missing(&mut self, section: &Section<'_>, key: &str, expected: &str) {
        if self.is_broken {
            return;
        }
        let place = Placed {
            value: (),
            span: section.span.clone(),
            key: section.full_key(key),
        };
        self.note(&place, "nothing", expected, None);
    }

    /// The value of a key with its place, unread.
    pub fn value<'d>(&self, section: &Section<'d>, key: &str) -> Option<Placed<&'d DeValue<'d>>> {
        let value = section.get(key)?;
        Some(Placed {
            value: value.get_ref(),
            span: value.span(),
            key: section.full_key(key),
        })
    }

    /// A quantity that must be there.
    pub fn quantity(
        &mut self,
        section: &Section<'_>,
        key: &str,
        dimension: Dimension,
    ) -> Option<Placed<f64>> {
        if !section.has(key) {
            self.missing(section, key, &expectation(dimension));
        }
        self.optional_quantity(section, key, dimension)
    }

    /// A quantity that may be there, in the dimension's computed unit.
    pub fn optional_quantity(
        &mut self,
        section: &Section<'_>,
        key: &str,
        dimension: Dimension,
    ) -> Option<Placed<f64>> {
        let placed = self.value(section, key)?;
        self.read_quantity(&placed, dimension)
    }

    /// Reads a number, or a string with a unit.
    pub fn read_quantity(
        &mut self,
        placed: &Placed<&DeValue<'_>>,
        dimension: Dimension,
    ) -> Option<Placed<f64>> {
        let text = match placed.value {
            DeValue::String(text) => text.as_ref().to_owned(),
            // A plain number takes the same way as a written one, so that both mean the same unit.
            DeValue::Float(number) => number.as_str().to_owned(),
            DeValue::Integer(number) if number.radix() == 10 => number.as_str().to_owned(),
            _ => {
                self.demand(placed, false, &expectation(dimension));
                return None;
            }
        };
        match parse_quantity(&text, dimension) {
            Ok(value) => Some(placed.with(value)),
            Err(ParseQuantityError::NotFinite(_)) => {
                self.demand(placed, false, "a finite number");
                None
            }
            Err(_) => {
                self.demand(placed, false, &expectation(dimension));
                None
            }
        }
    }

    /// A text that must be there and not be blank.
    pub fn text(
        &mut self,
        section: &Section<'_>,
        key: &str,
        expected: &str,
    ) -> Option<Placed<String>> {
        if !section.has(key) {
            self.missing(section, key, expected);
        }
        self.optional_text(section, key, expected)
    }

    /// A text that may be there; where it is, it is not blank.
    pub fn optional_text(
        &mut self,
        section: &Section<'_>,
        key: &str,
        expected: &str,
    ) -> Option<Placed<String>> {
        let placed = self.value(section, key)?;
        if let DeValue::String(text) = placed.value {
            let text = text.trim().to_owned();
            if !text.is_empty() {
                return Some(placed.with(text));
            }
        }
        self.demand(&placed, false, expected);
        None
    }

    /// A yes or no that may be there.
    pub fn optional_flag(&mut self, section: &Section<'_>, key: &str) -> Option<bool> {
        let placed = self.value(section, key)?;
        if let DeValue::Boolean(flag) = placed.value {
            return Some(*flag);
        }
        self.demand(&placed, false, "true or false");
        None
    }
}

/// What a reader is told is expected of a quantity.
pub(super) fn expectation(dimension: Dimension) -> String {
    let (what, units) = match dimension {
        Dimension::Temperature => ("a temperature", true),
        Dimension::Power => ("a power", true),
        Dimension::AirFlow => ("an airflow", true),
        Dimension::WaterFlow => ("a flow of water", true),
        Dimension::Length => ("a length", true),
        Dimension::Fraction => ("a fraction", true),
        Dimension::Number => ("a number", false),
    };
    if units {
        format!("{what} ({})", dimension.expected())
    } else {
        what.to_owned()
    }
}
