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

#[cfg(test)]
mod tests {
    use super::super::testing::{
        assert_accepted, at_design, findings, heated_house, only_question, only_reason,
    };
    use super::super::{Criteria, Requirements};
    use super::*;
    use crate::equipment::testing::unit;
    use crate::equipment::{Speed, Unit};
    use crate::house::House;

    fn house() -> House {
        let mut house = heated_house();
        house.heating.must_run_to = Some(Celsius(-25.0));
        house
    }

    fn published_to(coldest: f64) -> Unit {
        unit("u").heats(Speed::Maximum, &[(8.0, 12.0, 3.0), (coldest, 12.0, 2.0)])
    }

    #[test]
    fn a_limit_at_or_below_the_wanted_temperature_passes_whatever_is_published() {
        assert_accepted(&at_design(&house(), &published_to(-20.0).runs_to(-25.0)));
        assert_accepted(&at_design(&house(), &published_to(-20.0).runs_to(-30.0)));
    }

    #[test]
    fn a_limit_a_little_warmer_fails_even_where_a_colder_point_is_published() {
        let found = at_design(&house(), &published_to(-30.0).runs_to(-24.0));
        let reason = (
            "stops_too_warm",
            "stops at -24.0 °C; this house needs it to run to -25.0 °C".to_owned(),
            "a unit declared to run 1.0 K colder, or another source of heat for those nights"
                .to_owned(),
        );
        assert_eq!(only_reason(&found), reason);
        assert_eq!(
            (found.reasons[0].value(), found.reasons[0].limit()),
            (Some(-24.0), Some(-25.0))
        );
        let in_fahrenheit = found.reasons[0].sentence(UnitSystem::Ip);
        assert_eq!(
            in_fahrenheit,
            "stops at -11.2 °F; this house needs it to run to -13.0 °F"
        );
    }

    #[test]
    fn without_a_limit_a_point_that_cold_is_proof() {
        assert_accepted(&at_design(&house(), &published_to(-25.0)));
        let at_minimum =
            published_to(-20.0).heats(Speed::Minimum, &[(8.0, 3.0, 3.0), (-26.0, 2.0, 2.0)]);
        assert_accepted(&at_design(&house(), &at_minimum));
    }

    #[test]
    fn without_a_limit_and_such_a_point_the_limit_is_asked_for() {
        let found = at_design(&house(), &published_to(-20.0));
        let question =
            "the outdoor temperature down to which heating runs; the house needs -25.0 °C";
        assert_eq!(only_question(&found), ("operating_limit", question));
    }

    #[test]
    fn nothing_is_asked_where_the_house_names_no_temperature_or_the_check_is_off() {
        assert_accepted(&at_design(&heated_house(), &published_to(-20.0)));
        let requirements = Requirements {
            run_beyond_design: false,
            ..Requirements::default()
        };
        let criteria = Criteria {
            requirements,
            ..Criteria::default()
        };
        assert_accepted(&findings(
            &house(),
            None,
            &criteria,
            &published_to(-20.0).runs_to(-20.0),
        ));
    }
}
