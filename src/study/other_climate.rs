//! The same house and unit in another climate, such as a severe year beside the typical one.

use super::{Brief, Judged};
use crate::climate::Climate;
use crate::equipment::Unit;
use crate::heating::HeatingSeason;
use crate::quantity::{Celsius, KilowattHours};

/// A house prepared in another climate than the one it is judged with.
#[derive(Debug)]
pub struct OtherClimate {
    /// The climate's key.
    pub key: String,
    /// Its coldest state; `None` for a climate without states.
    pub coldest: Option<Celsius>,
    brief: Brief,
}

/// What a unit's year comes to in one climate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YearThere {
    /// The winter.
    pub heating: HeatingSeason,
    /// Electricity of heating, backup and cooling; `None` where cooling's is not known.
    pub annual_electricity: Option<KilowattHours>,
}

impl YearThere {
    /// What a judged unit's year came to; `None` without a climate.
    #[must_use]
    pub fn of(judged: &Judged) -> Option<Self> {
        Some(Self {
            heating: judged.heating.season?,
            annual_electricity: judged.annual_electricity(),
        })
    }
}

/// The coldest state of a climate.
#[must_use]
pub fn coldest(climate: &Climate) -> Option<Celsius> {
    climate
        .states
        .iter()
        .map(|state| state.outdoor)
        .reduce(Celsius::min)
}

impl OtherClimate {
    /// The house of `brief` in another climate, asked for the same.
    #[must_use]
    pub fn new(brief: &Brief, climate: &Climate) -> Self {
        Self {
            key: climate.key.clone(),
            coldest: coldest(climate),
            brief: brief.in_climate(climate),
        }
    }

    /// What a unit's year comes to here.
    #[must_use]
    pub fn year(&self, unit: &Unit) -> Option<YearThere> {
        YearThere::of(&self.brief.judge(unit))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::criteria::Criteria;
    use crate::quantity::{Hours, UnitSystem};
    use crate::study::test_house::{climate, house, unit};

    // By hand, a 5 kW unit at COP 2: 0 °C asks for 4 kW, all carried with 2 kWh; -10 °C for 6 kW, 1 kWh of it by backup,
    // 2.5 kWh into the unit.
    #[test]
    fn a_severe_year_shows_hours_below_balance_and_backup() {
        let typical = climate(&[(1, 1, 0.0, 3.0)]);
        let mut severe = climate(&[(1, 1, 0.0, 3.0), (1, 2, -10.0, 1.0)]);
        severe.key = "severe".into();
        let brief = Brief::new(
            house(10.0, 0.1),
            Some(&typical),
            Criteria::default(),
            UnitSystem::Si,
        );
        let unit = unit("a", 5.0, 5.0);
        let here = YearThere::of(&brief.judge(&unit)).unwrap();
        let other = OtherClimate::new(&brief, &severe);
        let there = other.year(&unit).unwrap();
        assert_eq!(here.heating.hours_below_balance, Hours(0.0));
        assert_eq!(there.heating.hours_below_balance, Hours(1.0));
        assert_eq!(there.heating.backup, KilowattHours(1.0));
        assert_eq!(here.annual_electricity, Some(KilowattHours(2.0)));
        assert_eq!(there.annual_electricity, Some(KilowattHours(5.5)));
        assert_eq!(
            (other.key.as_str(), other.coldest),
            ("severe", Some(Celsius(-10.0)))
        );
    }
}
