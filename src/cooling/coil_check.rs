//! Looks for cooling points that no coil could have given.

use super::curves::inconsistency;
use crate::equipment::physics::{Finding, FindingKind, describe};
use crate::equipment::{Mode, Unit};

/// The cooling points of a unit whose sensible heat ratio no coil can have at their capacity and airflow: humidity cannot
/// be computed from them.
///
/// # Source
/// Bypass-factor method, ASHRAE: the line from the entering to the leaving air must meet the saturation curve.
#[must_use]
pub fn check_coils(unit: &Unit) -> Vec<Finding> {
    let cooling = unit
        .points
        .iter()
        .filter(|point| point.mode == Mode::Cooling);
    cooling
        .filter_map(|point| {
            let reason = inconsistency(point)?;
            Some(Finding {
                kind: FindingKind::SensibleHeatRatioInconsistent,
                unit: unit.model.key.clone(),
                point: describe(point),
                sentence: format!(
                    "sensible heat ratio {:.2} cannot be: {reason}",
                    point.sensible_heat_ratio.unwrap_or_default()
                ),
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::{Form, Model, Point, SourceId, Speed};
    use crate::quantity::{Celsius, Kilowatts, LitresPerSecond};

    // At the default airflow of 54 L/s per kW only ratios from about 0.60 to 0.835 meet the saturation curve; more
    // air makes a higher ratio possible.
    #[test]
    fn a_ratio_too_high_for_its_airflow_is_found_and_more_air_mends_it() {
        let mut point = Point {
            mode: Mode::Cooling,
            speed: Speed::Rated,
            outdoor: Celsius(35.0),
            indoor_dry_bulb: Some(Celsius(26.7)),
            indoor_wet_bulb: Some(Celsius(19.4)),
            capacity: Kilowatts(5.0),
            power: Kilowatts(1.5),
            sensible_heat_ratio: Some(0.75),
            airflow: None,
            fan_basis: None,
            frost_basis: None,
            source: SourceId(1),
        };
        let findings = |point: Point| {
            let model = Model::new("larch", Form::Wall, SourceId(1));
            check_coils(&Unit {
                model,
                points: vec![point],
            })
        };
        assert_eq!(findings(point), []);
        point.sensible_heat_ratio = Some(0.95);
        let found = findings(point);
        assert_eq!(found[0].kind.code(), "shr_inconsistent");
        assert_eq!(
            found[0].point,
            "cooling, rated, 35 °C, 19.4 °C wet bulb indoors"
        );
        point.airflow = Some(LitresPerSecond(500.0));
        assert_eq!(findings(point), []);
        point.sensible_heat_ratio = None;
        assert_eq!(findings(point), []);
    }
}
