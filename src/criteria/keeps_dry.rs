//! The room stays dry: it is not above its humidity limit in too large a share of the hours with a call.
//!
//! ## Why it matters
//! A unit too large for the summer load meets the thermostat before it has dried the air.
//!
//! ## Source
//! The limit on the share is our default, no source; the balance is gains = removal in every climate state.

use super::season_share::{ShareOutcome, curves_in_season, judge_share, percentages};
use super::turns_down::beyond_hottest;
use super::{AskCode, Case, Findings, Reason};
use crate::quantity::{Hours, KilogramsPerHour, UnitSystem};

/// The room is too humid in too large a share of the cooling hours.
#[derive(Debug)]
struct Humid {
    share: f64,
    largest: f64,
    hours: Hours,
    humidity_limit: f64,
    peak: Option<f64>,
    /// Sensible share of the design load, and of the unit's capacity at its maximum and at its minimum.
    ratios: Ratios,
    supplemental_peak: KilogramsPerHour,
    supplemental_l_per_year: f64,
}

/// Sensible heat ratios at the cooling design temperature.
#[derive(Clone, Copy, Debug, Default)]
struct Ratios {
    house: Option<f64>,
    at_maximum: Option<f64>,
    at_minimum: Option<f64>,
}

impl Reason for Humid {
    fn code(&self) -> &'static str {
        "humid"
    }

    fn value(&self) -> Option<f64> {
        Some(self.share)
    }

    fn limit(&self) -> Option<f64> {
        Some(self.largest)
    }

    fn unit(&self) -> &'static str {
        "share"
    }

    fn sentence(&self, _units: UnitSystem) -> String {
        let [share, largest] = percentages(self.share, self.largest);
        let mut text = format!(
            "leaves the room above {:.0} % relative humidity in {share} % of the cooling hours ({:.0} h a year; limit {largest} %)",
            self.humidity_limit * 100.0,
            self.hours.0,
        );
        if let Some(peak) = self.peak {
            text += &format!(", {:.0} % at the peak", peak * 100.0);
        }
        if let (Some(house), Some(at_maximum)) = (self.ratios.house, self.ratios.at_maximum) {
            text += &format!(
                "; the design load is {:.0} % sensible, the unit's output {:.0} %",
                house * 100.0,
                at_maximum * 100.0
            );
            if let Some(at_minimum) = self.ratios.at_minimum {
                text += &format!(
                    " at its maximum and {:.0} % at its minimum",
                    at_minimum * 100.0
                );
            }
        }
        text
    }

    fn remedy(&self, units: UnitSystem) -> String {
        format!(
            "a lower minimum, a lower sensible heat ratio, or supplemental dehumidification of up to {} ({} a year)",
            units.water_per_day(self.supplemental_peak),
            units.water_per_year(self.supplemental_l_per_year),
        )
    }
}

/// Judges humidity.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    let largest = case.criteria.requirements.max_humid_share;
    let Some(season) = case.cooling_figures.and_then(|figures| figures.season) else {
        return;
    };
    if largest >= 1.0 || !case.humidity_is_judged() {
        return;
    }
    let Some(curves) = curves_in_season(case, &season, findings) else {
        return;
    };
    let Some(humidity) = season.known.and_then(|known| known.humidity) else {
        return;
    };
    match judge_share(
        humidity.humid_hours,
        season.unproven_hours,
        season.cooling_hours,
        largest,
    ) {
        ShareOutcome::Holds => {}
        ShareOutcome::Unproven => {
            findings.unknown(AskCode::CapacityAtDesign, beyond_hottest(case, curves))
        }
        ShareOutcome::Fails { share } => findings.fails(Humid {
            share,
            largest,
            hours: humidity.humid_hours,
            humidity_limit: case.house.indoor.humidity_limit,
            peak: humidity.peak_relative_humidity,
            ratios: ratios(case),
            supplemental_peak: humidity.supplemental_peak,
            supplemental_l_per_year: humidity.supplemental.0,
        }),
    }
}

/// Sensible heat ratios of house and unit at the cooling design temperature, set point and 50 % relative humidity.
fn ratios(case: &Case<'_>) -> Ratios {
    let (Some(cooling), Some(curves)) = (case.house.cooling, case.cooling) else {
        return Ratios::default();
    };
    let room = case.room;
    let Some(speeds) = curves.at(cooling.load.design_outdoor) else {
        return Ratios::default();
    };
    let speeds = speeds.at(room.design_wet_bulb);
    let ratio = |performance: crate::cooling::CoilPerformance| {
        let coil = performance.coil()?;
        Some(
            coil.split(room.temperature, room.design, &room.air)
                .sensible_heat_ratio(),
        )
    };
    Ratios {
        house: case.house_sensible_heat_ratio_at_design(),
        at_maximum: ratio(speeds.maximum),
        at_minimum: ratio(speeds.minimum),
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::{
        assert_accepted, cooled_house, findings, lived_in_house, only_question, only_reason, state,
    };
    use super::super::{Criteria, Findings, Requirements};
    use super::*;
    use crate::equipment::testing::unit;
    use crate::equipment::{Speed, Unit};
    use crate::house::House;

    /// Humidity alone is judged: a unit may cycle as much as it likes.
    fn criteria() -> Criteria {
        let requirements = Requirements {
            cooling_design: false,
            max_cooling_cycling_share: 1.0,
            ..Requirements::default()
        };
        Criteria {
            requirements,
            ..Criteria::default()
        }
    }

    fn heats_well() -> Unit {
        unit("u").heats(Speed::Maximum, &[(8.0, 12.0, 3.0), (-18.0, 12.0, 2.0)])
    }

    fn single_speed() -> Unit {
        heats_well().cools(Speed::Maximum, &[(35.0, 7.0, 3.0, 0.75)])
    }

    /// So many hours at 22 °C and 15 g/kg, in which a cycling coil gives all its water back and the room, with its own
    /// moisture, is more humid than outdoors, and so many at 28 °C and 3 g/kg, in which it is dry.
    fn in_house(house: &House, unit: &Unit, humid: f64, dry: f64) -> Findings {
        let states = [state(humid, 22.0, 15.0), state(dry, 28.0, 3.0)];
        findings(house, Some(&states), &criteria(), unit)
    }

    fn judged(unit: &Unit, humid: f64, dry: f64) -> Findings {
        in_house(&lived_in_house(), unit, humid, dry)
    }

    #[test]
    fn humid_in_just_the_share_that_is_allowed_passes() {
        assert_accepted(&judged(&single_speed(), 40.0, 60.0));
    }

    // By hand: nothing is removed at 22 °C, so the room gains 0.5 kg/h and 86.7 kg/h of air exchange carry it off at
    // 15 + 0.5/86.7 = 20.8 g/kg, above saturation at 24 °C (18.9 g/kg): the peak is 100 %. At the limit of 60 %
    // (11.19 g/kg) the gain is 0.5 + 86.7 · 0.00381 = 0.83 kg/h, 19.9 L a day and 34 L over 41 h; the sensible share of the
    // load is not known, for there are no states near the design temperature.
    #[test]
    fn humid_in_a_little_more_fails_with_the_litres_that_would_mend_it() {
        let found = judged(&single_speed(), 41.0, 59.0);
        let reason = (
            "humid",
            "leaves the room above 60 % relative humidity in 41 % of the cooling hours (41 h a year; limit 40 %), 100 % at the peak".to_owned(),
            "a lower minimum, a lower sensible heat ratio, or supplemental dehumidification of up to 19.9 L/d (34 L a year)".to_owned(),
        );
        assert_eq!(only_reason(&found), reason);
        assert_eq!(
            (found.reasons[0].value(), found.reasons[0].limit()),
            (Some(0.41), Some(0.40))
        );
        assert_eq!(found.reasons[0].unit(), "share");
    }

    #[test]
    fn states_near_the_design_temperature_give_the_sensible_shares_of_house_and_unit() {
        let states = [state(60.0, 22.0, 15.0), state(40.0, 32.0, 3.0)];
        let found = findings(
            &lived_in_house(),
            Some(&states),
            &criteria(),
            &single_speed(),
        );
        let (code, sentence, _) = only_reason(&found);
        // By hand: outdoor air of 3 g/kg dries the house (design humidity 9.3 g/kg), so the design load is all sensible.
        assert_eq!(code, "humid");
        let shares = "; the design load is 100 % sensible, the unit's output ";
        assert!(
            sentence.contains(shares) && sentence.ends_with(" % at its minimum"),
            "{sentence}"
        );
    }

    #[test]
    fn a_planned_dehumidifier_that_is_large_enough_mends_every_hour() {
        let mut house = lived_in_house();
        house.moisture.as_mut().unwrap().dehumidifier = KilogramsPerHour(20.0 / 24.0);
        assert_accepted(&in_house(&house, &single_speed(), 100.0, 0.0));
        house.moisture.as_mut().unwrap().dehumidifier = KilogramsPerHour(19.8 / 24.0);
        assert_eq!(
            only_reason(&in_house(&house, &single_speed(), 100.0, 0.0)).0,
            "humid"
        );
    }

    #[test]
    fn an_unpublished_minimum_is_asked_for_and_not_guessed() {
        let question =
            "capacity, input, sensible heat ratio and airflow at the minimum speed in cooling";
        let unknown = single_speed().cools(Speed::Rated, &[(35.0, 5.0, 3.5, 0.75)]);
        assert_eq!(
            only_question(&judged(&unknown, 0.0, 100.0)),
            ("minimum_cooling", question)
        );
        assert_eq!(
            only_question(&judged(&heats_well(), 0.0, 100.0)),
            (
                "capacity_at_design",
                "cooling capacity, input, sensible heat ratio and airflow at maximum and minimum speed up to 32.0 °C; nothing is published for cooling"
            )
        );
    }

    #[test]
    fn a_ratio_that_no_coil_can_have_leaves_humidity_unknown() {
        let inconsistent = heats_well().cools(Speed::Maximum, &[(35.0, 7.0, 3.0, 0.98)]);
        let found = judged(&inconsistent, 0.0, 100.0);
        assert_eq!(only_question(&found).0, "sensible_heat_ratio");
    }

    #[test]
    fn hours_hotter_than_anything_published_are_asked_about_where_they_decide() {
        let states = [
            state(40.0, 22.0, 15.0),
            state(59.0, 28.0, 3.0),
            state(1.0, 36.0, 15.0),
        ];
        let found = findings(
            &lived_in_house(),
            Some(&states),
            &criteria(),
            &single_speed(),
        );
        let question = "cooling capacity at outdoor temperatures above 35.0 °C";
        assert_eq!(only_question(&found), ("capacity_at_design", question));
    }

    #[test]
    fn humidity_is_not_judged_without_moisture_without_recorded_humidity_or_without_a_limit() {
        assert_accepted(&in_house(&cooled_house(), &single_speed(), 100.0, 0.0));
        let unrecorded = crate::climate::State {
            humidity_ratio: None,
            ..state(100.0, 22.0, 0.0)
        };
        let found = findings(
            &lived_in_house(),
            Some(&[unrecorded]),
            &criteria(),
            &single_speed(),
        );
        assert_accepted(&found);
        let mut criteria = criteria();
        criteria.requirements.max_humid_share = 1.0;
        let states = [state(100.0, 22.0, 15.0)];
        assert_accepted(&findings(
            &lived_in_house(),
            Some(&states),
            &criteria,
            &single_speed(),
        ));
    }
}
