//! Writes the catalog as the three CSV files that an import reads; importing them again changes nothing.

use std::io::Write;

use super::{Catalog, CatalogError};
use crate::equipment::{FieldValue, Point, UNIT_FIELDS};

/// Why an export ended early.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The catalog cannot be read.
    #[error(transparent)]
    Catalog(#[from] CatalogError),
    /// A file cannot be written.
    #[error("cannot write the table: {0}")]
    Write(#[from] csv::Error),
    /// A file cannot be finished.
    #[error("cannot write the table: {0}")]
    Finish(#[from] std::io::Error),
}

impl Catalog {
    /// Writes `sources.csv`, in the order of keys.
    ///
    /// # Errors
    /// [`ExportError`] where the catalog cannot be read or the table not be written.
    pub fn export_sources(&self, to: impl Write) -> Result<(), ExportError> {
        let mut table = csv::Writer::from_writer(to);
        table.write_record([
            "source",
            "title",
            "publisher",
            "year",
            "reference",
            "licence",
            "kind",
            "note",
        ])?;
        for (_, source) in self.sources()? {
            let year = source.year.map(|year| year.to_string());
            let or_blank = |text: &Option<String>| text.clone().unwrap_or_default();
            table.write_record([
                source.key.clone(),
                source.title.clone(),
                or_blank(&source.publisher),
                or_blank(&year),
                or_blank(&source.reference),
                or_blank(&source.licence),
                source.kind.name().to_owned(),
                or_blank(&source.note),
            ])?;
        }
        Ok(table.flush()?)
    }

    /// Writes `units.csv` and `points.csv`, in the order of keys, numbers with every digit that they have.
    ///
    /// # Errors
    /// [`ExportError`] where the catalog cannot be read or a table not be written.
    pub fn export_units(&self, units: impl Write, points: impl Write) -> Result<(), ExportError> {
        self.export_keys(&self.keys()?, units, points)
    }

    /// Writes one unit as `units.csv` and `points.csv`.
    ///
    /// # Errors
    /// As [`Catalog::export_units`], and where there is no such unit.
    pub fn export_unit(
        &self,
        key: &str,
        units: impl Write,
        points: impl Write,
    ) -> Result<(), ExportError> {
        self.export_keys(&[key.to_owned()], units, points)
    }

    fn export_keys(
        &self,
        keys: &[String],
        units: impl Write,
        points: impl Write,
    ) -> Result<(), ExportError> {
        let mut units = csv::Writer::from_writer(units);
        let mut points = csv::Writer::from_writer(points);
        let fields = UNIT_FIELDS.iter().map(|field| field.name);
        units.write_record(
            ["unit"]
                .into_iter()
                .chain(fields)
                .chain(["source", "as_written"]),
        )?;
        points.write_record([
            "unit",
            "mode",
            "speed",
            "outdoor_db_c",
            "indoor_db_c",
            "indoor_wb_c",
            "capacity_kw",
            "power_kw",
            "shr",
            "airflow_l_s",
            "fan_basis",
            "frost_basis",
            "source",
            "as_written",
        ])?;
        let sources = self.sources()?;
        let source_key = |id| {
            sources
                .iter()
                .find(|(other, _)| *other == id)
                .map_or("", |(_, source)| source.key.as_str())
        };
        for key in keys {
            let (unit, as_written) = self.unit_as_written(key)?;
            let model = &unit.model;
            units.write_field(&model.key)?;
            for field in UNIT_FIELDS {
                units.write_field(match (field.get)(model) {
                    None => String::new(),
                    Some(FieldValue::Number(number)) => number.to_string(),
                    Some(FieldValue::Text(text)) => text.to_owned(),
                    Some(FieldValue::Flag(flag)) => if flag { "yes" } else { "no" }.to_owned(),
                })?;
            }
            units.write_field(source_key(model.source))?;
            units.write_field(as_written.model.as_deref().unwrap_or_default())?;
            units.write_record(None::<&[u8]>)?;
            for (point, as_written) in unit.points.iter().zip(&as_written.points) {
                points.write_field(&model.key)?;
                for cell in point_cells(point) {
                    points.write_field(cell)?;
                }
                let own = if point.source == model.source {
                    ""
                } else {
                    source_key(point.source)
                };
                points.write_field(own)?;
                points.write_field(as_written.as_deref().unwrap_or_default())?;
                points.write_record(None::<&[u8]>)?;
            }
        }
        units.flush()?;
        Ok(points.flush()?)
    }
}

/// From the mode to the frost basis.
fn point_cells(point: &Point) -> [String; 11] {
    let number = |number: Option<f64>| number.map(|number| number.to_string()).unwrap_or_default();
    [
        point.mode.name().to_owned(),
        point.speed.name().to_owned(),
        number(Some(point.outdoor.0)),
        number(point.indoor_dry_bulb.map(|t| t.0)),
        number(point.indoor_wet_bulb.map(|t| t.0)),
        number(Some(point.capacity.0)),
        number(Some(point.power.0)),
        number(point.sensible_heat_ratio),
        number(point.airflow.map(|v| v.0)),
        point
            .fan_basis
            .map(|basis| basis.name().to_owned())
            .unwrap_or_default(),
        point
            .frost_basis
            .map(|basis| basis.name().to_owned())
            .unwrap_or_default(),
    ]
}
