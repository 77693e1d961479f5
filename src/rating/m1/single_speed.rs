//! A unit with one speed.

use super::steady::Line;
use super::{HeatingSystem, Operation, Steady, frosted_at_35_f};

/// Heating tests of a single-speed unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SingleSpeedHeating {
    /// Test H1, 47 °F.
    pub h1: Steady,
    /// Test H2, 35 °F, frost included; `None`: the frost default.
    pub h2: Option<Steady>,
    /// Test H3, 17 °F.
    pub h3: Steady,
    /// Test H4, 5 °F; `None`: the line from 47 through 17 °F is continued.
    pub h4: Option<Steady>,
    /// Degradation coefficient.
    pub degradation: f64,
}

impl SingleSpeedHeating {
    /// Steady operation at an outdoor temperature \[°F\].
    #[must_use]
    pub fn full_at(&self, outdoor_f: f64) -> Steady {
        full_at(self.h1, self.h2, self.h3, self.h4, outdoor_f)
    }
}

/// Full capacity over outdoor temperature: straight from 17 to 47 °F where no frost forms (45 °F and warmer, 17 °F and
/// colder), by way of 35 °F in between; below 17 °F through the test at 5 °F where it was made.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, sections 4.2.1 to 4.2.3.
pub(super) fn full_at(
    at_47: Steady,
    at_35: Option<Steady>,
    at_17: Steady,
    at_5: Option<Steady>,
    outdoor_f: f64,
) -> Steady {
    let frost_free = Line::through((17.0, at_17), (47.0, at_47));
    if 17.0 < outdoor_f && outdoor_f < 45.0 {
        let at_35 = at_35.unwrap_or_else(|| frosted_at_35_f(at_17, at_47));
        return Line::through((17.0, at_17), (35.0, at_35)).at(outdoor_f);
    }
    match at_5 {
        Some(at_5) if outdoor_f <= 5.0 => frost_free.parallel_through(5.0, at_5).at(outdoor_f),
        Some(at_5) if outdoor_f <= 17.0 => Line::through((5.0, at_5), (17.0, at_17)).at(outdoor_f),
        _ => frost_free.at(outdoor_f),
    }
}

impl HeatingSystem for SingleSpeedHeating {
    fn operation(&self, outdoor_f: f64, load_btu_h: f64) -> Operation {
        let full = self.full_at(outdoor_f);
        if load_btu_h >= full.capacity_btu_h {
            return Operation::full(full);
        }
        // The appendix lets a single-speed unit give way to resistance heat while it cycles, too.
        let cycling = Operation::cycling(load_btu_h, full, self.degradation);
        Operation {
            yields_to_resistance: true,
            ..cycling
        }
    }
}

/// Cooling tests of a single-speed unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SingleSpeedCooling {
    /// Test B, 82 °F.
    pub b: Steady,
    /// Degradation coefficient.
    pub degradation: f64,
}

impl SingleSpeedCooling {
    /// Seasonal energy efficiency ratio \[Btu/Wh\]: `PLF(0.5) · EER_B`, `PLF(0.5) = 1 - CD/2`.
    ///
    /// # Source
    /// 10 CFR 430 Subpart B Appendix M1, section 4.1.1.
    #[must_use]
    pub fn seer2(&self) -> f64 {
        (1.0 - self.degradation * 0.5) * self.b.efficiency_btu_per_wh()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rating::m1::{BTU_PER_WH_RATING_SHEET, HeatingConditions, Region, heating_season};

    #[test]
    fn seer2_is_the_efficiency_at_82_f_at_half_load() {
        // 30 000 / 2500 = 12; 12 · 0.9
        let cooling = SingleSpeedCooling {
            b: Steady::new(30_000.0, 2500.0),
            degradation: 0.2,
        };
        assert!((cooling.seer2() - 10.8).abs() < 1e-12);
    }

    #[test]
    fn a_unit_of_constant_efficiency_that_carries_every_bin_without_loss_rates_at_that_efficiency()
    {
        let steady = Steady::new(90_000.0, 9000.0);
        let system = SingleSpeedHeating {
            h1: steady,
            h2: Some(steady),
            h3: steady,
            h4: None,
            degradation: 0.0,
        };
        let season = heating_season(&system, &conditions());
        assert!((season.hspf2() - 10.0).abs() < 1e-9);
        assert_eq!(season.resistance_w(), 0.0);
    }

    #[test]
    fn a_unit_worse_than_resistance_heat_leaves_all_to_it() {
        let steady = Steady::new(9000.0, 3000.0);
        let system = SingleSpeedHeating {
            h1: steady,
            h2: Some(steady),
            h3: steady,
            h4: None,
            degradation: 0.25,
        };
        let season = heating_season(&system, &conditions());
        assert!((season.hspf2() - BTU_PER_WH_RATING_SHEET).abs() < 1e-9);
    }

    fn conditions() -> HeatingConditions {
        HeatingConditions {
            region: Region::IV,
            design_capacity_btu_h: 30_000.0,
            cut_out: None,
            defrost_credit: 1.0,
            btu_per_wh: BTU_PER_WH_RATING_SHEET,
        }
    }
}
