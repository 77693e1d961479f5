//! `overwinter catalog list`: every unit in one line.

use crate::cli::output::Format;
use crate::cli::{App, CliError, Outcome};
use crate::equipment::{Mode, Speed, Unit};
use crate::quantity::{Celsius, Kilowatts, UnitSystem, counted};
use crate::report::csv_text::csv_text;
use crate::report::table::{Column, PlainTable, paragraph};

/// Every unit in one line
#[derive(clap::Args)]
pub struct Arguments {
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    /// Only units whose key contains this text, in capitals or not
    #[arg(value_name = "TEXT")]
    text: Option<String>,
}

/// One unit in one line.
#[derive(serde::Serialize)]
struct Line {
    unit: String,
    form: &'static str,
    source: String,
    points: usize,
    /// Outdoor temperature of the coldest heating point.
    coldest_point_c: Option<f64>,
    /// Capacity at the coldest heating point of the fastest speed there.
    coldest_capacity_kw: Option<f64>,
    operates_to_c: Option<f64>,
    /// Smallest capacity published for heating.
    smallest_heating_kw: Option<f64>,
}

/// Prints the list.
///
/// # Errors
/// Where the catalog cannot be used.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    let catalog = app.catalog()?;
    let sources = catalog.sources()?;
    let wanted = arguments.text.map(|text| text.to_lowercase());
    let lines: Vec<Line> = catalog
        .judge_all(|unit| {
            let key = unit.model.key.to_lowercase();
            wanted
                .as_ref()
                .is_none_or(|text| key.contains(text))
                .then(|| line(unit, &sources))
        })?
        .into_iter()
        .flatten()
        .collect();
    match arguments.format {
        Format::Json => app.print_json(&lines)?,
        Format::Csv => app.print(&as_csv(&lines))?,
        Format::Table => {
            let text = as_table(&lines, app.look.width, app.units);
            app.print(&text)?;
        }
    }
    Ok(Outcome::Done)
}

fn line(unit: &Unit, sources: &[(crate::equipment::SourceId, crate::equipment::Source)]) -> Line {
    let heating = || {
        unit.points
            .iter()
            .filter(|point| point.mode == Mode::Heating)
    };
    let fastest: Option<Speed> = heating().map(|point| point.speed).max();
    let coldest = heating()
        .filter(|point| Some(point.speed) == fastest)
        .min_by(|left, right| left.outdoor.0.total_cmp(&right.outdoor.0));
    let source = sources.iter().find(|(id, _)| *id == unit.model.source);
    Line {
        unit: unit.model.key.clone(),
        form: unit.model.form.name(),
        source: source
            .map(|(_, source)| source.key.clone())
            .unwrap_or_default(),
        points: unit.points.len(),
        coldest_point_c: coldest.map(|point| point.outdoor.0),
        coldest_capacity_kw: coldest.map(|point| point.capacity.0),
        operates_to_c: unit.model.operates_to.map(|t| t.0),
        smallest_heating_kw: heating()
            .map(|point| point.capacity.0)
            .min_by(f64::total_cmp),
    }
}

fn as_csv(lines: &[Line]) -> String {
    let header = [
        "unit",
        "form",
        "source",
        "points",
        "coldest_point_c",
        "coldest_capacity_kw",
        "operates_to_c",
        "smallest_heating_kw",
    ];
    let number = |number: Option<f64>| number.map(|number| number.to_string()).unwrap_or_default();
    let rows: Vec<Vec<String>> = lines
        .iter()
        .map(|line| {
            vec![
                line.unit.clone(),
                line.form.to_owned(),
                line.source.clone(),
                line.points.to_string(),
                number(line.coldest_point_c),
                number(line.coldest_capacity_kw),
                number(line.operates_to_c),
                number(line.smallest_heating_kw),
            ]
        })
        .collect();
    csv_text(&header.map(str::to_owned), &rows)
}

fn as_table(lines: &[Line], width: u16, units: UnitSystem) -> String {
    let mut table = PlainTable::new(
        width,
        &[
            ("unit", Column::Words),
            ("form", Column::Words),
            ("coldest point", Column::Numbers),
            ("capacity there", Column::Numbers),
            ("smallest", Column::Numbers),
            ("runs to", Column::Numbers),
        ],
    );
    let temperature =
        |t: Option<f64>| t.map_or("–".to_owned(), |t| units.temperature(Celsius(t)));
    let power = |p: Option<f64>| p.map_or("–".to_owned(), |p| units.power(Kilowatts(p)));
    for line in lines {
        table.row([
            line.unit.clone(),
            line.form.to_owned(),
            temperature(line.coldest_point_c),
            power(line.coldest_capacity_kw),
            power(line.smallest_heating_kw),
            temperature(line.operates_to_c),
        ]);
    }
    let count = counted(lines.len(), "unit", "units");
    let note = format!(
        "{count}. Heating: the coldest point of the fastest speed, and the smallest capacity published; –: not \
         published. `overwinter catalog show UNIT` shows every point and its source."
    );
    format!("{}\n{}", table.text(), paragraph(&note, width, "", ""))
}
