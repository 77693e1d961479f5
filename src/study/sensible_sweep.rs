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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::test_house::{climate, house, unit};

    // By hand: room and outdoor air both at the room's design humidity bring only what people add, 0.5 kg/h. At 26.7 °C
    // h_fg = 2501 - 2.361 · 26.7 = 2437.96 kJ/kg: 0.33860 kW latent. 4 kW sensible: 0.92196; 2 kW: 0.85521.
    #[test]
    fn less_sun_lowers_the_houses_ratio_and_cycles_the_unit() {
        let house = house(10.0, 0.5);
        let design = crate::cooling::Room::of(&house).design.0 * 1000.0;
        let climate = climate(&[(7, 1, 34.0, design)]);
        let rows = sensible_sweep(
            &house,
            Some(&climate),
            &Criteria::default(),
            UnitSystem::Si,
            &unit("a", 9.0, 5.0),
            &[Kilowatts(4.0), Kilowatts(2.0)],
        );
        let ratio = |row: usize| rows[row].house_sensible_heat_ratio.unwrap();
        assert!((ratio(0) - 0.921_96).abs() < 1e-5, "{}", ratio(0));
        assert!((ratio(1) - 0.855_21).abs() < 1e-5, "{}", ratio(1));
        let minimum = |row: usize| rows[row].minimum_to_load().unwrap();
        assert!((minimum(1) / minimum(0) - 2.0).abs() < 1e-12);
        assert_eq!(rows[1].cycling_hours(), Some(Hours(1.0)));
        assert_eq!(rows[1].share(Hours(1.0)), Some(1.0));
    }
}
