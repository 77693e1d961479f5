//! Rows of `points.csv`.

use super::cells::{Cells, Limits, Place};
use super::header::{
    BTU_PER_HOUR, BTU_PER_WATT_HOUR, CUBIC_FEET_PER_MINUTE, CUBIC_METRES_PER_HOUR, Column,
    FAHRENHEIT, Header, TONS, WATTS, other, plain, si,
};
use crate::catalog::WrittenPoint;
use crate::equipment::{FanBasis, FrostBasis, Mode, Point, SourceId, Speed};
use crate::quantity::{Celsius, Kilowatts, LitresPerSecond};

/// The columns of `points.csv`.
pub const POINT_COLUMNS: &[Column] = &[
    plain("unit"),
    plain("mode"),
    plain("speed"),
    si("outdoor_db_c", "outdoor_db"),
    other("outdoor_db_f", "outdoor_db", FAHRENHEIT),
    si("indoor_db_c", "indoor_db"),
    other("indoor_db_f", "indoor_db", FAHRENHEIT),
    si("indoor_wb_c", "indoor_wb"),
    other("indoor_wb_f", "indoor_wb", FAHRENHEIT),
    si("capacity_kw", "capacity"),
    other("capacity_w", "capacity", WATTS),
    other("capacity_btu_h", "capacity", BTU_PER_HOUR),
    other("capacity_ton", "capacity", TONS),
    si("cop", "efficiency"),
    other("eer_btu_wh", "efficiency", BTU_PER_WATT_HOUR),
    si("power_kw", "power"),
    other("power_w", "power", WATTS),
    plain("shr"),
    si("airflow_l_s", "airflow"),
    other("airflow_cfm", "airflow", CUBIC_FEET_PER_MINUTE),
    other("airflow_m3_h", "airflow", CUBIC_METRES_PER_HOUR),
    plain("fan_basis"),
    plain("frost_basis"),
    plain("source"),
    plain("as_written"),
];

/// The columns that `points.csv` must have.
pub(super) const REQUIRED: &[&str] = &["unit", "mode", "speed", "outdoor_db", "capacity"];

/// Temperatures outside these ranges are slips, such as °F in a column of °C; the choice is ours.
const OUTDOOR: Limits = Limits::Within(-70.0, 60.0);
const INDOOR: Limits = Limits::Within(-5.0, 50.0);

/// Where each column is.
pub(super) struct Places {
    unit: Place,
    mode: Place,
    speed: Place,
    outdoor: Place,
    indoor_dry_bulb: Place,
    indoor_wet_bulb: Place,
    capacity: Place,
    efficiency: Place,
    power: Place,
    sensible_heat_ratio: Place,
    airflow: Place,
    fan_basis: Place,
    frost_basis: Place,
    source: Place,
    as_written: Place,
}

impl Places {
    pub(super) fn of(header: &Header) -> Self {
        let at = |quantity| header.place(quantity);
        Self {
            unit: at("unit"),
            mode: at("mode"),
            speed: at("speed"),
            outdoor: at("outdoor_db"),
            indoor_dry_bulb: at("indoor_db"),
            indoor_wet_bulb: at("indoor_wb"),
            capacity: at("capacity"),
            efficiency: at("efficiency"),
            power: at("power"),
            sensible_heat_ratio: at("shr"),
            airflow: at("airflow"),
            fan_basis: at("fan_basis"),
            frost_basis: at("frost_basis"),
            source: at("source"),
            as_written: at("as_written"),
        }
    }

    /// The key of the unit that the row belongs to, if it names one.
    pub(super) fn unit<'a>(&self, cells: &mut Cells<'a>) -> Option<&'a str> {
        cells.needed_text(self.unit, "the unit's key")
    }

    /// The unit's column.
    pub(super) fn unit_place(&self) -> Place {
        self.unit
    }

    /// Reads a row; `None` where anything in it is wrong.
    ///
    /// - `unit_source`  the source of a point that names none
    /// - `source_id`  finds a source by its key, or reports that there is none
    pub(super) fn read(
        &self,
        cells: &mut Cells<'_>,
        unit_source: SourceId,
        source_id: &mut impl FnMut(&mut Cells<'_>, Place, &str) -> Option<SourceId>,
    ) -> Option<WrittenPoint> {
        if !cells.is_whole() {
            return None;
        }
        let mode = cells.needed_word(
            self.mode,
            Mode::from_name,
            Mode::ALL.iter().map(|m| m.name()),
        );
        let speed = cells.needed_word(
            self.speed,
            Speed::from_name,
            Speed::ALL.iter().map(|s| s.name()),
        );
        let outdoor = cells.needed_number(self.outdoor, OUTDOOR);
        let indoor_dry_bulb = cells.number(self.indoor_dry_bulb, INDOOR);
        let indoor_wet_bulb = cells.number(self.indoor_wet_bulb, INDOOR);
        if let (Some(dry), Some(wet)) = (indoor_dry_bulb, indoor_wet_bulb)
            && wet > dry
        {
            let found = format!("a wet bulb of {wet:.1} °C above the dry bulb of {dry:.1} °C");
            cells.report(
                self.indoor_wet_bulb,
                &found,
                "a wet bulb at or below the dry bulb",
                None,
            );
        }
        let capacity = cells.needed_number(self.capacity, Limits::AboveZero);
        let power = self.read_power(cells, capacity);
        let sensible_heat_ratio = cells.number(self.sensible_heat_ratio, Limits::Share);
        let airflow = cells.number(self.airflow, Limits::AboveZero);
        let fans = FanBasis::ALL.iter().map(|basis| basis.name());
        let fan_basis = cells.word(self.fan_basis, FanBasis::from_name, fans);
        let frosts = FrostBasis::ALL.iter().map(|basis| basis.name());
        let frost_basis = cells.word(self.frost_basis, FrostBasis::from_name, frosts);
        let source = match cells.text(self.source) {
            None => Some(unit_source),
            Some(key) => source_id(cells, self.source, key),
        };
        if !cells.is_sound() {
            return None;
        }
        let point = Point {
            mode: mode?,
            speed: speed?,
            outdoor: Celsius(outdoor?),
            indoor_dry_bulb: indoor_dry_bulb.map(Celsius),
            indoor_wet_bulb: indoor_wet_bulb.map(Celsius),
            capacity: Kilowatts(capacity?),
            power: Kilowatts(power?),
            sensible_heat_ratio,
            airflow: airflow.map(LitresPerSecond),
            fan_basis,
            frost_basis,
            source: source?,
        };
        Some(WrittenPoint {
            point,
            as_written: cells.take_as_written(self.as_written),
        })
    }

    /// Electric input from the one of COP and power that the row gives.
    fn read_power(&self, cells: &mut Cells<'_>, capacity: Option<f64>) -> Option<f64> {
        match (cells.text(self.efficiency), cells.text(self.power)) {
            (Some(_), None) => {
                let cop = cells.number(self.efficiency, Limits::AboveZero)?;
                Some(capacity? / cop)
            }
            (None, Some(_)) => cells.number(self.power, Limits::AboveZero),
            (None, None) => {
                let place = self.efficiency.or(self.power);
                cells.report(
                    place,
                    "nothing",
                    "a COP (`cop`, `eer_btu_wh`) or a power (`power_kw`, `power_w`)",
                    None,
                );
                None
            }
            (Some(_), Some(_)) => {
                cells.report(self.power, "both a COP and a power", "one of the two", None);
                None
            }
        }
    }
}
