//! One house and one unit at several sensible design loads: what less sun through the windows does to run time and humidity.

use super::{Brief, Judged};
use crate::climate::Climate;
use crate::cooling::house_sensible_heat_ratio_at_design;
use crate::criteria::Criteria;
use crate::equipment::Unit;
use crate::house::House;
use crate::quantity::{Hours, Kilowatts, UnitSystem};

/// What one sensible design load comes to. The zero-load temperature stays: only the line's slope changes.
#[derive(Debug)]
pub struct SensibleSweepRow {
    /// Sensible load at the cooling design temperature.
    pub sensible: Kilowatts,
    /// Sensible share of the house's load there; `None` without moisture gains or outdoor humidity.
    pub house_sensible_heat_ratio: Option<f64>,
    /// The unit, judged in that house.
    pub judged: Judged,
}

/// A unit in a house at several sensible design loads, in their order; empty where the house is not cooled.
#[must_use]
pub fn sensible_sweep(
    house: &House,
    climate: Option<&Climate>,
    criteria: &Criteria,
    units: UnitSystem,
    unit: &Unit,
    loads: &[Kilowatts],
) -> Vec<SensibleSweepRow> {
    loads
        .iter()
        .filter_map(|&sensible| {
            let mut house = house.clone();
            house.cooling.as_mut()?.load.design_sensible = sensible;
            let brief = Brief::new(house, climate, criteria.clone(), units);
            Some(SensibleSweepRow {
                sensible,
                house_sensible_heat_ratio: brief.states().and_then(|states| {
                    house_sensible_heat_ratio_at_design(brief.house(), brief.room(), states)
                }),
                judged: brief.judge(unit),
            })
        })
        .collect()
}

impl SensibleSweepRow {
    /// The minimum speed's sensible capacity to the load, both at the design temperature; `None` where it is not known.
    #[must_use]
    pub fn minimum_to_load(&self) -> Option<f64> {
        Some(self.judged.cooling?.minimum_sensible? / self.sensible)
    }

    /// Cycling hours; `None` where they are not known.
    #[must_use]
    pub fn cycling_hours(&self) -> Option<Hours> {
        self.judged.cooling?.season?.known?.cycling_hours
    }

    /// Share of some of the season's hours; `None` without hours.
    #[must_use]
    pub fn share(&self, hours: Hours) -> Option<f64> {
        let all = self.judged.cooling?.season?.cooling_hours;
        (all > Hours::ZERO).then(|| hours / all)
    }
}
