//! The unit still runs at a temperature colder than design, where the house names one.
//!
//! ## Why it matters
//! A design temperature is passed in some hours of most winters; a unit that locks out then leaves the house cold.

use super::{AskCode, Case, Findings, Reason};
use crate::quantity::{Celsius, UnitSystem};

/// The unit stops before the temperature at which the house needs it to run.
#[derive(Debug)]
struct StopsTooWarm {
    limit: Celsius,
    must_run_to: Celsius,
}

impl Reason for StopsTooWarm {
    fn code(&self) -> &'static str {
        "stops_too_warm"
    }

    fn value(&self) -> Option<f64> {
        Some(self.limit.0)
    }

    fn limit(&self) -> Option<f64> {
        Some(self.must_run_to.0)
    }

    fn unit(&self) -> &'static str {
        "°C"
    }

    fn sentence(&self, units: UnitSystem) -> String {
        format!(
            "stops at {}; this house needs it to run to {}",
            units.temperature(self.limit),
            units.temperature(self.must_run_to),
        )
    }

    fn remedy(&self, units: UnitSystem) -> String {
        format!(
            "a unit declared to run {} colder, or another source of heat for those nights",
            units.difference(self.limit - self.must_run_to),
        )
    }
}

/// Judges operation beyond design.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    let Some(must_run_to) = case.house.heating.must_run_to else {
        return;
    };
    if !case.criteria.requirements.run_beyond_design {
        return;
    }
    if let Some(limit) = case.unit.model.operates_to {
        if limit > must_run_to {
            findings.fails(StopsTooWarm { limit, must_run_to });
        }
        return;
    }
    let published = case
        .heating
        .is_some_and(|curves| curves.coldest_point <= must_run_to);
    if !published {
        findings.unknown(
            AskCode::OperatingLimit,
            format!(
                "the outdoor temperature down to which heating runs; the house needs {}",
                case.units.temperature(must_run_to)
            ),
        );
    }
}
