//! Reads criteria from their TOML file.

use toml::de::DeValue;

use super::nearest;
use super::problem::Problems;
use super::toml_reader::{Placed, Section, TomlReader, expectation};
use crate::criteria::{Bound, BoundValue, Criteria, Criterion, CriterionValue, Requirements};
use crate::equipment::{FieldKind, Speed};
use crate::quantity::{Celsius, Dimension};

/// Reads criteria.
///
/// - `file`  what the user calls the file, for messages
/// - `text`  its content
///
/// # Errors
/// Every problem found, in the order of the lines.
pub fn read_criteria(file: &str, text: &str) -> Result<Criteria, Problems> {
    let mut reader = TomlReader::new(file, text);
    let document = reader.parse();
    let root = TomlReader::root(&document);
    reader.only_known(&root, &["requirements", "criterion"], |_| false);
    let requirements = match reader.optional_section(&root, "requirements") {
        Some(section) => requirements(&mut reader, &section),
        None => Requirements::default(),
    };
    let sections = reader.sections(&root, "criterion");
    let criteria = sections
        .iter()
        .filter_map(|section| criterion(&mut reader, section))
        .collect();
    reader.finish(Some(Criteria {
        requirements,
        criteria,
    }))
}

fn requirements(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Requirements {
    reader.only_known(
        section,
        &[
            "full_load_without_backup",
            "run_beyond_design",
            "cooling_design",
            "max_cooling_cycling_share",
            "max_humid_share",
        ],
        |_| false,
    );
    let default = Requirements::default();
    let mut flag = |key, otherwise| reader.optional_flag(section, key).unwrap_or(otherwise);
    let full_load_without_backup =
        flag("full_load_without_backup", default.full_load_without_backup);
    let run_beyond_design = flag("run_beyond_design", default.run_beyond_design);
    let cooling_design = flag("cooling_design", default.cooling_design);
    let mut share = |key, otherwise| {
        let Some(placed) = reader.optional_quantity(section, key, Dimension::Fraction) else {
            return otherwise;
        };
        let hint = Some("70 % is written 0.70 or \"70 %\"".to_owned());
        reader.demand_with_hint(
            &placed,
            (0.0..=1.0).contains(&placed.value),
            "a share from 0 to 1",
            hint,
        );
        placed.value
    };
    Requirements {
        full_load_without_backup,
        run_beyond_design,
        cooling_design,
        max_cooling_cycling_share: share(
            "max_cooling_cycling_share",
            default.max_cooling_cycling_share,
        ),
        max_humid_share: share("max_humid_share", default.max_humid_share),
    }
}

const BOUNDS: [&str; 4] = ["at_least", "at_most", "equals", "one_of"];

fn criterion(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Option<Criterion> {
    reader.only_known(
        section,
        &[
            "name", "value", "speed", "at", "at_least", "at_most", "equals", "one_of",
        ],
        |_| false,
    );
    let name = reader.optional_text(section, "name", "the criterion's name, in quotes");
    let speed = speed(reader, section);
    let at = reader.optional_quantity(section, "at", Dimension::Temperature);
    if let Some(at) = &at {
        reader.demand(
            at,
            (-90.0..=60.0).contains(&at.value),
            "an outdoor temperature from -90 to 60 °C",
        );
    }
    let value = value(reader, section)?;
    if value.is_of_curve() && !section.has("at") {
        reader.missing(
            section,
            "at",
            &format!("the outdoor temperature at which {} is read", value.name()),
        );
    }
    if !value.is_of_curve() {
        for key in ["at", "speed"] {
            if let Some(placed) = reader.value(section, key) {
                let expected = format!(
                    "no `{key}`: {} is one figure for the whole unit",
                    value.name()
                );
                reader.demand(&placed, false, &expected);
            }
        }
    }
    let bound = bound(reader, section, value)?;
    let at = at
        .filter(|_| value.is_of_curve())
        .map(|placed| Celsius(placed.value));
    let speed = speed?;
    let name = name.map_or_else(
        || Criterion::default_name(value, speed, at, &bound),
        |placed| placed.value,
    );
    Some(Criterion {
        name,
        value,
        speed,
        at,
        bound,
    })
}

/// The speed, maximum where none is given; `None` where it cannot be read.
fn speed(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Option<Speed> {
    if !section.has("speed") {
        return Some(Speed::Maximum);
    }
    let expected = "\"minimum\", \"rated\" or \"maximum\"";
    let word = reader.optional_text(section, "speed", expected)?;
    let speed = Speed::from_name(&word.value);
    reader.demand(&word, speed.is_some(), expected);
    speed
}

fn value(reader: &mut TomlReader<'_>, section: &Section<'_>) -> Option<CriterionValue> {
    let expected = "the name of a value, such as \"heating.cop\" or \"hspf\"";
    let word = reader.text(section, "value", expected)?;
    let value = CriterionValue::from_name(&word.value);
    if value.is_none() {
        let hint = match nearest(&word.value, CriterionValue::names()) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None => format!(
                "known values: {}",
                CriterionValue::names().collect::<Vec<_>>().join(", ")
            ),
        };
        reader.demand_with_hint(&word, false, expected, Some(hint));
    }
    value
}

/// The one bound of a criterion.
fn bound(
    reader: &mut TomlReader<'_>,
    section: &Section<'_>,
    value: CriterionValue,
) -> Option<Bound> {
    let given: Vec<&str> = BOUNDS.into_iter().filter(|key| section.has(key)).collect();
    let [key] = given[..] else {
        let found = if given.is_empty() {
            "no bound".to_owned()
        } else {
            given.join(" and ")
        };
        let expected = "exactly one of at_least, at_most, equals, one_of";
        reader.note(&section.place(), found, expected, None);
        return None;
    };
    let placed = reader.value(section, key)?;
    if matches!(key, "at_least" | "at_most") && value.kind() != FieldKind::Number {
        let expected = format!("`equals` or `one_of`: {} is not a number", value.name());
        reader.demand(&placed, false, &expected);
        return None;
    }
    match key {
        "at_least" => Some(Bound::AtLeast(number(reader, &placed, value)?)),
        "at_most" => Some(Bound::AtMost(number(reader, &placed, value)?)),
        "equals" => Some(Bound::Equals(single(reader, &placed, value)?)),
        _ => one_of(reader, &placed, value),
    }
}

fn one_of(
    reader: &mut TomlReader<'_>,
    placed: &Placed<&DeValue<'_>>,
    value: CriterionValue,
) -> Option<Bound> {
    let DeValue::Array(items) = placed.value else {
        reader.demand(placed, false, "a list in square brackets");
        return None;
    };
    let items: Vec<Placed<&DeValue<'_>>> = items
        .iter()
        .map(|item| Placed {
            value: item.get_ref(),
            span: item.span(),
            key: placed.key.clone(),
        })
        .collect();
    reader.demand(placed, !items.is_empty(), "a list with at least one value");
    let values: Vec<Option<BoundValue>> = items
        .iter()
        .map(|item| single(reader, item, value))
        .collect();
    let values: Vec<BoundValue> = values.into_iter().collect::<Option<_>>()?;
    (!values.is_empty()).then_some(Bound::OneOf(values))
}

/// A single value of the kind that the criterion judges.
fn single(
    reader: &mut TomlReader<'_>,
    placed: &Placed<&DeValue<'_>>,
    value: CriterionValue,
) -> Option<BoundValue> {
    match (value.kind(), placed.value) {
        (FieldKind::Number, _) => number(reader, placed, value).map(BoundValue::Number),
        (FieldKind::Text, DeValue::String(text)) if !text.trim().is_empty() => {
            Some(BoundValue::Text(text.trim().to_owned()))
        }
        (FieldKind::Flag, DeValue::Boolean(flag)) => Some(BoundValue::Flag(*flag)),
        (FieldKind::Flag, DeValue::String(text)) if text == "yes" => Some(BoundValue::Flag(true)),
        (FieldKind::Flag, DeValue::String(text)) if text == "no" => Some(BoundValue::Flag(false)),
        (FieldKind::Text, _) => {
            reader.demand(placed, false, "a word in quotes");
            None
        }
        (FieldKind::Flag, _) => {
            reader.demand(placed, false, "true or false");
            None
        }
    }
}

/// A number in the value's unit, or a text with a unit that leads there.
fn number(
    reader: &mut TomlReader<'_>,
    placed: &Placed<&DeValue<'_>>,
    value: CriterionValue,
) -> Option<f64> {
    let dimension = match (value, value.unit()) {
        (_, "kW") => Dimension::Power,
        (_, "°C") => Dimension::Temperature,
        (_, "L/s") => Dimension::AirFlow,
        (CriterionValue::CoolingShr, _) => Dimension::Fraction,
        _ => Dimension::Number,
    };
    if dimension == Dimension::Number
        && let DeValue::String(_) = placed.value
    {
        // Such a column has one unit, and its name says which: a unit in the text would be read by nobody.
        let unit = if value.unit().is_empty() {
            String::new()
        } else {
            format!(" in {}, without quotes", value.unit())
        };
        reader.demand(placed, false, &format!("{}{unit}", expectation(dimension)));
        return None;
    }
    reader
        .read_quantity(placed, dimension)
        .map(|read| read.value)
}
