//! `overwinter catalog show`: one unit with every point and every source.

use serde_json::{Map, Value, json};

use crate::catalog::{AsWritten, Catalog};
use crate::cli::output::Format;
use crate::cli::{App, CliError, Outcome};
use crate::equipment::{FieldValue, Point, Source, SourceId, UNIT_FIELDS, Unit};
use crate::quantity::{Celsius, Kilowatts, LitresPerSecond, UnitSystem, fixed};
use crate::report::table::{Column, PlainTable, paragraph};

/// One unit with every point and every source
#[derive(clap::Args)]
pub struct Arguments {
    /// The unit's key
    #[arg(value_name = "UNIT")]
    unit: String,
    /// Form of the answer; csv: the points
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

/// Prints the unit.
///
/// # Errors
/// Where the unit is not in the catalog, or that cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    let (unit, as_written) = catalog.unit_as_written(&arguments.unit)?;
    let sources = sources_of(&catalog, &unit)?;
    match arguments.format {
        Format::Json => app.print_json(&as_json(&unit, &as_written, &sources))?,
        Format::Csv => {
            let (mut units, mut points) = (Vec::new(), Vec::new());
            catalog.export_unit(&arguments.unit, &mut units, &mut points)?;
            app.print(&String::from_utf8_lossy(&points))?;
        }
        Format::Table => {
            let text = as_text(&unit, &as_written, &sources, app.look.width, app.units);
            app.print(&text)?;
        }
    }
    Ok(Outcome::Done)
}

/// The sources of a unit, its own first.
fn sources_of(catalog: &Catalog, unit: &Unit) -> Result<Vec<(SourceId, Source)>, CliError> {
    let mut ids = vec![unit.model.source];
    for point in &unit.points {
        if !ids.contains(&point.source) {
            ids.push(point.source);
        }
    }
    ids.into_iter()
        .map(|id| Ok((id, catalog.source(id)?)))
        .collect()
}

fn as_json(unit: &Unit, as_written: &AsWritten, sources: &[(SourceId, Source)]) -> Value {
    let key_of = |id: SourceId| {
        sources
            .iter()
            .find(|(other, _)| *other == id)
            .map(|(_, source)| source.key.clone())
    };
    let mut all = Map::new();
    all.insert("unit".to_owned(), json!(unit.model.key));
    for field in UNIT_FIELDS {
        all.insert(
            field.name.to_owned(),
            match (field.get)(&unit.model) {
                None => Value::Null,
                Some(FieldValue::Number(number)) => json!(number),
                Some(FieldValue::Text(text)) => json!(text),
                Some(FieldValue::Flag(flag)) => json!(flag),
            },
        );
    }
    all.insert("source".to_owned(), json!(key_of(unit.model.source)));
    all.insert("as_written".to_owned(), json!(as_written.model));
    let points: Vec<Value> = unit
        .points
        .iter()
        .zip(&as_written.points)
        .map(|(point, as_written)| {
            json!({
                "mode": point.mode.name(),
                "speed": point.speed.name(),
                "outdoor_db_c": point.outdoor.0,
                "indoor_db_c": point.indoor_dry_bulb.map(|t| t.0),
                "indoor_wb_c": point.indoor_wet_bulb.map(|t| t.0),
                "capacity_kw": point.capacity.0,
                "power_kw": point.power.0,
                "cop": point.cop(),
                "shr": point.sensible_heat_ratio,
                "airflow_l_s": point.airflow.map(|v| v.0),
                "fan_basis": point.fan_basis.map(|basis| basis.name()),
                "frost_basis": point.frost_basis.map(|basis| basis.name()),
                "source": key_of(point.source),
                "as_written": as_written,
            })
        })
        .collect();
    all.insert("points".to_owned(), Value::Array(points));
    let sources: Vec<Value> = sources
        .iter()
        .map(|(_, source)| super::sources::as_json(source))
        .collect();
    all.insert("sources".to_owned(), Value::Array(sources));
    Value::Object(all)
}

fn as_text(
    unit: &Unit,
    as_written: &AsWritten,
    sources: &[(SourceId, Source)],
    width: u16,
    units: UnitSystem,
) -> String {
    let mut text = paragraph(&unit.model.key, width, "", "");
    let mut published = Vec::new();
    let mut missing = Vec::new();
    for field in UNIT_FIELDS {
        match (field.get)(&unit.model) {
            None => missing.push(field.name),
            Some(FieldValue::Number(number)) => {
                published.push(number_words(field.name, number, units))
            }
            Some(FieldValue::Text(word)) => published.push(format!("{} {word}", field.name)),
            Some(FieldValue::Flag(flag)) => {
                published.push(format!(
                    "{} {}",
                    field.name,
                    if flag { "yes" } else { "no" }
                ));
            }
        }
    }
    text += &paragraph(&published.join(", "), width, "  ", "  ");
    if !missing.is_empty() {
        text += &paragraph(
            &format!("not published: {}", missing.join(", ")),
            width,
            "  ",
            "  ",
        );
    }
    if let Some(as_written) = &as_written.model {
        text += &paragraph(&format!("as written: {as_written}"), width, "  ", "  ");
    }
    text.push('\n');
    text += &point_table(unit, sources, width, units);
    let converted: Vec<String> = unit
        .points
        .iter()
        .zip(&as_written.points)
        .filter_map(|(point, written)| {
            let place = crate::equipment::physics::describe(point);
            written
                .as_ref()
                .map(|written| format!("{place}: {written}"))
        })
        .collect();
    if !converted.is_empty() {
        text += "\nas written:\n";
        for line in converted {
            text += &paragraph(&line, width, "  ", "    ");
        }
    }
    text.push('\n');
    for (_, source) in sources {
        text += &super::sources::as_text(source, width);
    }
    text
}

/// A declared number in the units of the answer: a temperature or an airflow with its unit, any other as its column says, to
/// four decimals at most.
fn number_words(column: &str, number: f64, units: UnitSystem) -> String {
    if let Some(name) = column.strip_suffix("_c") {
        return format!("{name} {}", units.temperature(Celsius(number)));
    }
    if let Some(name) = column.strip_suffix("_l_s") {
        return format!("{name} {}", units.airflow(LitresPerSecond(number)));
    }
    let text = fixed(number, 4);
    format!(
        "{column} {}",
        text.trim_end_matches('0').trim_end_matches('.')
    )
}

fn point_table(
    unit: &Unit,
    sources: &[(SourceId, Source)],
    width: u16,
    units: UnitSystem,
) -> String {
    let several_sources = sources.len() > 1;
    let mut head = vec![
        ("mode", Column::Words),
        ("speed", Column::Words),
        ("outdoors", Column::Numbers),
        ("room", Column::Numbers),
        ("capacity", Column::Numbers),
        ("power", Column::Numbers),
        ("COP", Column::Numbers),
        ("SHR", Column::Numbers),
    ];
    if several_sources {
        head.push(("source", Column::Words));
    }
    let mut table = PlainTable::new(width, &head);
    for point in &unit.points {
        let mut row = cells(point, units).to_vec();
        if several_sources {
            let source = sources.iter().find(|(id, _)| *id == point.source);
            row.push(
                source
                    .map(|(_, source)| source.key.clone())
                    .unwrap_or_default(),
            );
        }
        table.row(row);
    }
    table.text()
}

fn cells(point: &Point, units: UnitSystem) -> [String; 8] {
    let room = match (point.indoor_dry_bulb, point.indoor_wet_bulb) {
        (None, None) => "–".to_owned(),
        (Some(dry), None) => units.temperature(dry),
        (None, Some(wet)) => format!("– / {}", units.temperature(wet)),
        (Some(dry), Some(wet)) => format!(
            "{} / {}",
            units.bare_temperature(dry),
            units.temperature(wet)
        ),
    };
    [
        point.mode.name().to_owned(),
        point.speed.name().to_owned(),
        units.temperature(point.outdoor),
        room,
        units.power(point.capacity),
        electric(point.power),
        format!("{:.2}", point.cop()),
        point
            .sensible_heat_ratio
            .map_or("–".to_owned(), |ratio| format!("{ratio:.2}")),
    ]
}

/// Electric power is in kW whatever the units of heat.
fn electric(power: Kilowatts) -> String {
    format!("{:.2} kW", power.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    // -15 °F is -26.11 °C; 114.4 cfm are 54 L/s (NIST SP 811).
    #[test]
    fn declared_numbers_are_shown_in_the_units_asked_for() {
        let ip = |column, number| number_words(column, number, UnitSystem::Ip);
        assert_eq!(ip("operates_to_c", -235.0 / 9.0), "operates_to -15.0 °F");
        assert_eq!(ip("airflow_l_s", 54.0), "airflow 114 cfm");
        assert_eq!(
            number_words("operates_to_c", -235.0 / 9.0, UnitSystem::Si),
            "operates_to -26.1 °C"
        );
        assert_eq!(ip("scop", 4.10), "scop 4.1");
        assert_eq!(ip("price", 12_000.0), "price 12000");
    }
}
