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
    /// Whether a sensible heat ratio was taken for want of a published one.
    assumed_ratio: bool,
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
        let assumed = if self.assumed_ratio {
            ", with its sensible heat ratio taken as 0.75 for want of a published one"
        } else {
            ""
        };
        format!(
            "removes {} of the {} sensible heat gained at {}: {} short{assumed}",
            units.power(self.capacity),
            units.power(self.load),
            units.temperature(self.design),
            units.shortfall(self.load - self.capacity),
        )
    }

    fn remedy(&self, units: UnitSystem) -> String {
        format!(
            "the sensible design load would have to fall by {}, by shading or better glass, or a larger unit{}",
            units.shortfall(self.load - self.capacity),
            if self.assumed_ratio {
                "; ask for the sensible heat ratio first"
            } else {
                ""
            },
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
                assumed_ratio: case
                    .cooling
                    .is_some_and(|curves| curves.assumed_sensible_heat_ratio),
            });
        }
    } else if case
        .cooling
        .is_some_and(|curves| curves.at(design).is_some())
    {
        findings.unknown(AskCode::SensibleHeatRatio, inconsistent_ratio(case));
    } else if case.cooling.is_none() {
        findings.unknown(AskCode::CapacityAtDesign, nothing_published(case));
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

/// The question to the supplier of a unit of which nothing is published for cooling.
pub(super) fn nothing_published(case: &Case<'_>) -> String {
    let design = case.house.cooling.map_or_else(String::new, |cooling| {
        format!(
            " up to {}",
            case.units.temperature(cooling.load.design_outdoor)
        )
    });
    format!(
        "cooling capacity, input, sensible heat ratio and airflow at maximum and minimum speed{design}; nothing is published for cooling"
    )
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

#[cfg(test)]
mod tests {
    use super::super::testing::{
        assert_accepted, at_design, cooled_house, findings, only_question, only_reason,
    };
    use super::super::{Criteria, Requirements};
    use super::*;
    use crate::cooling::{CoolingCurves, CoolingFigures, Room};
    use crate::equipment::testing::unit;
    use crate::equipment::{Speed, Unit};
    use crate::house::House;

    /// Warm enough for the winter; 7 kW of cooling, of which about three quarters are sensible.
    fn heats_well() -> Unit {
        unit("u").heats(Speed::Maximum, &[(8.0, 12.0, 3.0), (-18.0, 12.0, 2.0)])
    }

    fn cools(hottest: f64, ratio: f64) -> Unit {
        heats_well().cools(
            Speed::Maximum,
            &[(25.0, 7.0, 4.0, ratio), (hottest, 7.0, 3.0, ratio)],
        )
    }

    /// The house whose sensible load is this share of the unit's sensible capacity.
    fn house_loaded_to(share: f64, unit: &Unit) -> (House, Kilowatts) {
        let mut house = cooled_house();
        let cooling = house.cooling.as_mut().unwrap();
        let curves = CoolingCurves::of(unit);
        let figures =
            CoolingFigures::at_design(cooling, curves.as_ref(), &Room::of(&cooled_house()), None);
        let capacity = figures.sensible_capacity_at_design.unwrap();
        cooling.load.design_sensible = capacity * share;
        (house, capacity)
    }

    #[test]
    fn a_unit_that_only_just_carries_the_sensible_load_passes() {
        let unit = cools(35.0, 0.75);
        let (house, capacity) = house_loaded_to(1.0, &unit);
        // The room (24 °C, 50 %) is drier than the rating condition, so that more of the 7 kW is sensible than 75 %.
        assert!(capacity > Kilowatts(0.75 * 7.0) && capacity < Kilowatts(7.0));
        assert_accepted(&at_design(&house, &unit));
    }

    #[test]
    fn a_unit_that_only_just_fails_says_by_how_much() {
        let unit = cools(35.0, 0.75);
        let (house, capacity) = house_loaded_to(1.1, &unit);
        let found = at_design(&house, &unit);
        let (has, needs, lacks) = (capacity.0, capacity.0 * 1.1, capacity.0 * 0.1);
        let reason = (
            "short_in_cooling",
            format!(
                "removes {has:.2} kW of the {needs:.2} kW sensible heat gained at 32.0 °C: {lacks:.2} kW short"
            ),
            format!(
                "the sensible design load would have to fall by {lacks:.2} kW, by shading or better glass, or a larger unit"
            ),
        );
        assert_eq!(only_reason(&found), reason);
        assert_eq!(
            (found.reasons[0].value(), found.reasons[0].limit()),
            (Some(has), Some(needs))
        );
        let (house, _) = house_loaded_to(1.0_f64.next_up(), &unit);
        assert_eq!(only_reason(&at_design(&house, &unit)).0, "short_in_cooling");
    }

    #[test]
    fn a_capacity_that_nobody_published_is_asked_for() {
        let hotter = "maximum cooling capacity, input and sensible heat ratio at 32.0 °C";
        let nothing = "cooling capacity, input, sensible heat ratio and airflow at maximum and minimum speed up to 32.0 °C; nothing is published for cooling";
        for (unit, question) in [(cools(30.0, 0.75), hotter), (heats_well(), nothing)] {
            assert_eq!(
                only_question(&at_design(&cooled_house(), &unit)),
                ("capacity_at_design", question)
            );
        }
    }

    #[test]
    fn a_ratio_that_no_coil_can_have_is_asked_about() {
        let found = at_design(&cooled_house(), &cools(35.0, 0.45));
        let (code, text) = only_question(&found);
        assert_eq!(code, "sensible_heat_ratio");
        assert!(
            text.starts_with("airflow and sensible heat ratio of the maximum cooling point at 25.0 °C, which do not fit together: no coil surface"),
            "{text}"
        );
    }

    #[test]
    fn the_check_can_be_switched_off() {
        let requirements = Requirements {
            cooling_design: false,
            ..Requirements::default()
        };
        let criteria = Criteria {
            requirements,
            ..Criteria::default()
        };
        assert_accepted(&findings(&cooled_house(), None, &criteria, &heats_well()));
    }
}
