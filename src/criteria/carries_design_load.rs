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
            units.power(self.needed() - self.capacity),
        )
    }

    fn remedy(&self, units: UnitSystem) -> String {
        let carried = self.capacity / (1.0 + self.reserve);
        let fall = format!(
            "the design load would have to fall by {} to {}",
            units.power(self.load - carried),
            units.power(carried),
        );
        match self.balance {
            BalancePoint::At(balance) if balance > self.design => {
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
        let coldest = case.heating_figures.coldest_point.map_or_else(
            || "nothing is published for heating".to_owned(),
            |coldest| {
                format!(
                    "the coldest published point is at {}",
                    case.units.temperature(coldest)
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
