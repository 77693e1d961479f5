//! Units side by side: as a table, as data, as CSV.

use serde_json::{Value as Json, json};

use super::csv_text::csv_text;
use super::explain::written;
use super::foot::{caveats, sources_and_cautions};
use super::table::{Column, PlainTable, paragraph};
use crate::quantity::{Celsius, KilogramsPerHour, Kilowatts, UnitSystem, fixed};
use crate::study::Judged;
use crate::study::comparison::{ComparisonRow, Figure};
use crate::study::explain::{Measure, Value};

/// A comparison to be shown.
#[derive(Clone, Copy, Debug)]
pub struct CompareView<'a> {
    /// The house's name.
    pub house: &'a str,
    /// The climate's key; `None` without one.
    pub climate: Option<&'a str>,
    /// The units' keys, in order.
    pub keys: &'a [String],
    /// The units.
    pub judged: &'a [Judged],
    /// The rows.
    pub rows: &'a [ComparisonRow],
    /// Units of the table.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// Titles of the sources behind the units shown.
    pub sources: &'a [String],
}

/// What marks the best of a row: a sign, not a colour, before the number so that numbers stay in line.
const BEST: &str = "*";

/// The comparison as a table. Where the units do not fit beside each other, it is continued below.
#[must_use]
pub fn compare_table(view: &CompareView<'_>) -> String {
    let mut text = paragraph(view.house, view.width, "", "");
    text += &paragraph(
        &format!(
            "Climate: {}",
            view.climate.unwrap_or("none, so no season is judged")
        ),
        view.width,
        "",
        "",
    );
    let room = usize::from(view.width.saturating_sub(26));
    let beside = (room / 16).max(1);
    let places: Vec<usize> = (0..view.keys.len()).collect();
    for group in places.chunks(beside) {
        text.push('\n');
        let mut head = vec![("", Column::Words)];
        head.extend(
            group
                .iter()
                .map(|&place| (view.keys[place].as_str(), Column::Numbers)),
        );
        let mut table = PlainTable::new(view.width, &head);
        for row in view.rows {
            let mut cells = vec![label(row, view.units)];
            cells.extend(group.iter().map(|&place| {
                let mark = if row.is_best(place) { BEST } else { "" };
                format!("{mark}{}", shown(row, &row.figures[place], view.units))
            }));
            table.row(cells);
        }
        text += &table.text();
    }
    text.push('\n');
    let legend = format!(
        "{BEST} best of the row; in what a season's load makes of a unit (COP, electricity, cycling, humidity), of the units \
         that carry the design load and at least 99 % of the season's."
    );
    text += &paragraph(&legend, view.width, "", "  ");
    for caveat in caveats(view.judged, view.units) {
        text += &paragraph(&caveat, view.width, "", "  ");
    }
    text + &sources_and_cautions(view.sources, view.width)
}

/// The row's name with the unit of its figures.
fn label(row: &ComparisonRow, units: UnitSystem) -> String {
    let measure = row.figures.iter().find_map(|figure| match figure {
        Figure::Number(value) | Figure::Below(value) => Some(value.measure),
        Figure::Word(_) | Figure::Missing => None,
    });
    let unit = match measure {
        Some(Measure::Celsius) => units.temperature_unit(),
        Some(Measure::Kilowatts) => units.power_unit(),
        Some(Measure::Litres) => units.water_per_year_unit(),
        Some(Measure::LitresPerDay) => units.water_per_day_unit(),
        Some(Measure::Plain) if is_share(row) => "%",
        Some(measure) => measure.unit(),
        None => "",
    };
    if unit.is_empty() {
        row.label.to_owned()
    } else {
        format!("{}, {unit}", row.label)
    }
}

/// Whether the row's numbers are shares, shown as percentages.
fn is_share(row: &ComparisonRow) -> bool {
    row.name == "margin"
        || row.name == "peak_rh"
        || row.name == "share_carried"
        || row.name.ends_with("_share")
}

fn shown(row: &ComparisonRow, figure: &Figure, units: UnitSystem) -> String {
    let number = |value: Value| match value.measure {
        Measure::Celsius => units.bare_temperature(Celsius(value.number)),
        Measure::Kilowatts => units.bare_power(Kilowatts(value.number)),
        Measure::KilowattHours | Measure::Hours => fixed(value.number, 0),
        Measure::Litres => units.bare_water_per_year(value.number),
        Measure::LitresPerDay => units.bare_water_per_day(KilogramsPerHour(value.number / 24.0)),
        Measure::Plain if row.name == "margin" => format!("{:+.0}", value.number * 100.0),
        Measure::Plain if is_share(row) => fixed(value.number * 100.0, 0),
        Measure::Plain if row.name == "seasonal_cop" => fixed(value.number, 2),
        _ => written(value),
    };
    match figure {
        Figure::Number(value) => number(*value),
        Figure::Below(value) => format!("below {}", number(*value)),
        Figure::Word(word) => word.clone(),
        Figure::Missing => "not published".to_owned(),
    }
}

/// The comparison as a JSON document, full precision; a missing figure is `null`.
#[must_use]
pub fn compare_data(view: &CompareView<'_>) -> Json {
    let rows: Vec<Json> = view
        .rows
        .iter()
        .map(|row| {
            let best: Vec<&String> = view
                .keys
                .iter()
                .enumerate()
                .filter(|&(place, _)| row.is_best(place))
                .map(|(_, key)| key)
                .collect();
            json!({
                "name": row.name,
                "label": row.label,
                "values": row.figures.iter().map(figure_data).collect::<Vec<_>>(),
                "best": best,
            })
        })
        .collect();
    json!({
        "house": view.house,
        "climate": view.climate,
        "units": view.keys,
        "rows": rows,
        "sources": view.sources,
    })
}

fn figure_data(figure: &Figure) -> Json {
    match figure {
        Figure::Number(value) => json!(value.number),
        Figure::Below(value) => json!({ "below": value.number }),
        Figure::Word(word) => json!(word),
        Figure::Missing => Json::Null,
    }
}

/// The comparison as CSV: one row a figure, one column a unit; a missing figure is blank.
#[must_use]
pub fn compare_csv(view: &CompareView<'_>) -> String {
    let mut header = vec!["figure".to_owned()];
    header.extend(view.keys.iter().cloned());
    header.push("best".to_owned());
    let rows: Vec<Vec<String>> = view
        .rows
        .iter()
        .map(|row| {
            let mut cells = vec![row.name.to_owned()];
            cells.extend(row.figures.iter().map(|figure| match figure {
                Figure::Number(value) => value.number.to_string(),
                Figure::Below(value) => format!("below {}", value.number),
                Figure::Word(word) => word.clone(),
                Figure::Missing => String::new(),
            }));
            let best: Vec<&str> = view
                .keys
                .iter()
                .enumerate()
                .filter(|&(place, _)| row.is_best(place))
                .map(|(_, key)| key.as_str())
                .collect();
            cells.push(best.join("; "));
            cells
        })
        .collect();
    csv_text(&header, &rows)
}
