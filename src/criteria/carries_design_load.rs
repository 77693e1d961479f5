//! The unit carries the house at the design temperature without backup.
//!
//! ## Why it matters
//! Every kilowatt short on the coldest night is carried by backup heat, at the worst time for whoever pays for it.
//!
//! ## Source
//! `Cmax(T_d) >= Q_d (1 + reserve)`; the balance point below the design temperature is common practice.

use super::{AskCode, Case, Findings, Reason};
use crate::heating::BalancePoint;
use crate::quantity::{Celsius, Kilowatts, UnitSystem};

/// Capacity at the design temperature is below the load.
#[derive(Debug)]
struct ShortAtDesign {
    design: Celsius,
    capacity: Kilowatts,
    load: Kilowatts,
    reserve: f64,
    balance: BalancePoint,
}

impl ShortAtDesign {
    fn needed(&self) -> Kilowatts {
        self.load * (1.0 + self.reserve)
    }
}

impl Reason for ShortAtDesign {
    fn code(&self) -> &'static str {
        "short_at_design"
    }

    fn value(&self) -> Option<f64> {
        Some(self.capacity.0)
    }

    fn limit(&self) -> Option<f64> {
        Some(self.needed().0)
    }

    fn unit(&self) -> &'static str {
        "kW"
    }

    fn sentence(&self, units: UnitSystem) -> String {
        let with_reserve = if self.reserve > 0.0 {
            ", reserve included,"
        } else {
            ""
        };
        format!(
            "delivers {} of the {}{with_reserve} needed at {}: {} short",
            units.power(self.capacity),
            units.power(self.needed()),
            units.temperature(self.design),
            units.shortfall(self.needed() - self.capacity),
        )
    }

    fn remedy(&self, units: UnitSystem) -> String {
        let carried = self.capacity / (1.0 + self.reserve);
        let fall = format!(
            "the design load would have to fall by {} to {}",
            units.shortfall(self.load - carried),
            units.power(carried),
        );
        match self.balance {
            BalancePoint::At(balance) if self.capacity < self.load => {
                format!(
                    "{fall}; the shortfall begins at {}",
                    units.temperature(balance)
                )
            }
            _ => format!("{fall}; the load itself is carried, the reserve is not"),
        }
    }
}

/// The unit stops at a temperature warmer than the design temperature.
#[derive(Debug)]
struct StopsAboveDesign {
    limit: Celsius,
    design: Celsius,
    load_at_limit: Kilowatts,
}

impl Reason for StopsAboveDesign {
    fn code(&self) -> &'static str {
        "stops_above_design"
    }

    fn value(&self) -> Option<f64> {
        Some(self.limit.0)
    }

    fn limit(&self) -> Option<f64> {
        Some(self.design.0)
    }

    fn unit(&self) -> &'static str {
        "°C"
    }

    fn sentence(&self, units: UnitSystem) -> String {
        format!(
            "stops at {}, {} warmer than the design temperature of {}",
            units.temperature(self.limit),
            units.difference(self.limit - self.design),
            units.temperature(self.design),
        )
    }

    fn remedy(&self, units: UnitSystem) -> String {
        format!(
            "a unit declared to run at {}; below {} this house needs {} and more from something else",
            units.temperature(self.design),
            units.temperature(self.limit),
            units.power(self.load_at_limit),
        )
    }
}

/// Judges the design load.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    if !case.criteria.requirements.full_load_without_backup {
        return;
    }
    let heating = &case.house.heating;
    let design = heating.load.design_outdoor;
    if let Some(limit) = case.unit.model.operates_to.filter(|&limit| limit > design) {
        findings.fails(StopsAboveDesign {
            limit,
            design,
            load_at_limit: heating.load.at(limit),
        });
        return;
    }
    let Some(capacity) = case.heating_figures.capacity_at_design else {
        let coldest = case.heating.map_or_else(
            || "nothing is published for heating".to_owned(),
            |curves| {
                format!(
                    "the coldest published point is at {}",
                    case.units.temperature(curves.speeds.maximum().severe_end())
                )
            },
        );
        findings.unknown(
            AskCode::CapacityAtDesign,
            format!(
                "maximum heating capacity and input at {}; {coldest}",
                case.units.temperature(design)
            ),
        );
        return;
    };
    let reason = ShortAtDesign {
        design,
        capacity,
        load: heating.load.design_load,
        reserve: heating.reserve,
        balance: case.heating_figures.balance_point,
    };
    if capacity < reason.needed() {
        findings.fails(reason);
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

    /// As much at 8 °C as at the design temperature of -18 °C.
    fn delivering(at_design: f64) -> Unit {
        unit("u").heats(
            Speed::Maximum,
            &[(8.0, at_design, 3.0), (-18.0, at_design, 2.0)],
        )
    }

    #[test]
    fn a_unit_that_only_just_covers_the_design_load_passes() {
        assert_accepted(&at_design(&heated_house(), &delivering(9.0)));
        assert_accepted(&at_design(&heated_house(), &delivering(9.1)));
    }

    // By hand: 8.5 kW against 9 · (15 - T)/33 kW, equal at 15 - 33 · 8.5/9 = -16.17 °C.
    #[test]
    fn a_unit_that_only_just_fails_says_by_how_much_and_from_where() {
        let found = at_design(&heated_house(), &delivering(8.5));
        let reason = (
            "short_at_design",
            "delivers 8.50 kW of the 9.00 kW needed at -18.0 °C: 0.50 kW short".to_owned(),
            "the design load would have to fall by 0.50 kW to 8.50 kW; the shortfall begins at -16.2 °C"
                .to_owned(),
        );
        assert_eq!(only_reason(&found), reason);
        assert_eq!(
            (found.reasons[0].value(), found.reasons[0].limit()),
            (Some(8.5), Some(9.0))
        );
        assert_eq!(found.reasons[0].unit(), "kW");
        let in_btu = found.reasons[0].sentence(UnitSystem::Ip);
        assert_eq!(
            in_btu,
            "delivers 29.0 kBtu/h of the 30.7 kBtu/h needed at -0.4 °F: 1.7 kBtu/h short"
        );
        let barely = at_design(&heated_house(), &delivering(9.0_f64.next_down()));
        let reason = (
            "short_at_design",
            "delivers 9.00 kW of the 9.00 kW needed at -18.0 °C: less than 0.01 kW short".to_owned(),
            "the design load would have to fall by less than 0.01 kW to 9.00 kW; the shortfall begins at -18.0 °C"
                .to_owned(),
        );
        assert_eq!(only_reason(&barely), reason);
    }

    // By hand: with a tenth in reserve 9.9 kW are needed; 9.45 kW would do for 9.45/1.1 = 8.59 kW.
    #[test]
    fn a_reserve_is_asked_for_on_top_of_the_load() {
        let mut house = heated_house();
        house.heating.reserve = 0.1;
        assert_accepted(&at_design(&house, &delivering(9.0 * (1.0 + 0.1))));
        let found = at_design(&house, &delivering(9.45));
        let reason = (
            "short_at_design",
            "delivers 9.45 kW of the 9.90 kW, reserve included, needed at -18.0 °C: 0.45 kW short".to_owned(),
            "the design load would have to fall by 0.41 kW to 8.59 kW; the load itself is carried, the reserve is not"
                .to_owned(),
        );
        assert_eq!(only_reason(&found), reason);
    }

    // By hand: at -10 °C the house loses 9 · 25/33 = 6.82 kW.
    #[test]
    fn a_unit_that_stops_above_design_is_told_so_however_strong_it_is() {
        let found = at_design(&heated_house(), &delivering(20.0).runs_to(-10.0));
        let reason = (
            "stops_above_design",
            "stops at -10.0 °C, 8.0 K warmer than the design temperature of -18.0 °C".to_owned(),
            "a unit declared to run at -18.0 °C; below -10.0 °C this house needs 6.82 kW and more from something else"
                .to_owned(),
        );
        assert_eq!(only_reason(&found), reason);
        assert_accepted(&at_design(
            &heated_house(),
            &delivering(20.0).runs_to(-18.0),
        ));
    }

    #[test]
    fn a_capacity_that_nobody_published_is_asked_for_and_not_guessed() {
        let mild = unit("u").heats(Speed::Maximum, &[(8.0, 20.0, 3.0), (-15.0, 20.0, 2.0)]);
        let question = "maximum heating capacity and input at -18.0 °C; the coldest published point is at -15.0 °C";
        let found = at_design(&heated_house(), &mild);
        assert_eq!(only_question(&found), ("capacity_at_design", question));
        let colder_minimum = mild.heats(Speed::Minimum, &[(8.0, 4.0, 3.0), (-25.0, 4.0, 2.0)]);
        let found = at_design(&heated_house(), &colder_minimum);
        assert_eq!(only_question(&found), ("capacity_at_design", question));
        let found = at_design(&heated_house(), &unit("u"));
        let question =
            "maximum heating capacity and input at -18.0 °C; nothing is published for heating";
        assert_eq!(only_question(&found), ("capacity_at_design", question));
    }

    #[test]
    fn the_check_can_be_switched_off() {
        let requirements = Requirements {
            full_load_without_backup: false,
            ..Requirements::default()
        };
        let criteria = Criteria {
            requirements,
            ..Criteria::default()
        };
        assert_accepted(&findings(
            &heated_house(),
            None,
            &criteria,
            &delivering(1.0),
        ));
    }
}
