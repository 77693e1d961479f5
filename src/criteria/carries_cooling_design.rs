//! The unit carries the sensible load at the cooling design temperature.
//!
//! ## Source
//! Sensible capacity at the indoor set point and 50 % relative humidity, by the bypass-factor method.

use super::{AskCode, Case, Findings, Reason};
use crate::quantity::{Celsius, Kilowatts, UnitSystem};

/// Sensible capacity at the cooling design temperature is below the load.
#[derive(Debug)]
struct ShortInCooling {
    design: Celsius,
    capacity: Kilowatts,
    load: Kilowatts,
}

impl Reason for ShortInCooling {
    fn code(&self) -> &'static str {
        "short_in_cooling"
    }

    fn value(&self) -> Option<f64> {
        Some(self.capacity.0)
    }

    fn limit(&self) -> Option<f64> {
        Some(self.load.0)
    }

    fn unit(&self) -> &'static str {
        "kW"
    }

    fn sentence(&self, units: UnitSystem) -> String {
        format!(
            "removes {} of the {} sensible heat gained at {}: {} short",
            units.power(self.capacity),
            units.power(self.load),
            units.temperature(self.design),
            units.power(self.load - self.capacity),
        )
    }

    fn remedy(&self, units: UnitSystem) -> String {
        format!(
            "the sensible design load would have to fall by {}, by shading or better glass, or a larger unit",
            units.power(self.load - self.capacity)
        )
    }
}

/// Judges the cooling design load.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    let (Some(cooling), Some(figures)) = (case.house.cooling, case.cooling_figures) else {
        return;
    };
    if !case.criteria.requirements.cooling_design {
        return;
    }
    let design = cooling.load.design_outdoor;
    if let Some(capacity) = figures.sensible_capacity_at_design {
        let load = cooling.load.design_sensible;
        if capacity < load {
            findings.fails(ShortInCooling {
                design,
                capacity,
                load,
            });
        }
    } else if case
        .cooling
        .is_some_and(|curves| curves.at(design).is_some())
    {
        findings.unknown(AskCode::SensibleHeatRatio, inconsistent_ratio(case));
    } else {
        findings.unknown(
            AskCode::CapacityAtDesign,
            format!(
                "maximum cooling capacity, input and sensible heat ratio at {}",
                case.units.temperature(design)
            ),
        );
    }
}

/// The question about a sensible heat ratio that no coil can have.
pub(super) fn inconsistent_ratio(case: &Case<'_>) -> String {
    let Some((point, problem)) = case.cooling.and_then(|curves| curves.inconsistent) else {
        return "sensible heat ratio and airflow of every cooling point".to_owned();
    };
    format!(
        "airflow and sensible heat ratio of the {} cooling point at {}, which do not fit together: {problem}",
        point.speed.name(),
        case.units.temperature(point.outdoor),
    )
}
