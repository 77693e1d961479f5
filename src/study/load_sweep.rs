//! One house at several heating design loads: the smallest unit that carries each, and what a flatter load line gains.

use super::{Brief, Judged, Verdict};
use crate::climate::Climate;
use crate::criteria::Criteria;
use crate::equipment::Unit;
use crate::house::House;
use crate::quantity::{KilowattHours, Kilowatts, UnitSystem};

/// The same house at several design loads.
#[derive(Debug)]
pub struct LoadSweep {
    /// The loads with the house at each, judged for heating alone and without a season: enough to find the smallest unit.
    carriers: Vec<(Kilowatts, Brief)>,
    /// The house at each load, judged for everything that is asked.
    whole: Vec<Brief>,
}

/// How a unit carries a load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carrying {
    /// Its largest capacity at the design temperature.
    pub capacity: Kilowatts,
    /// Whether it is accepted with everything that is asked, summer included.
    pub accepted: bool,
}

/// How a unit carries a load; `None` where it does not.
pub type Carries = Option<Carrying>;

/// What is found for a load: the smallest that carries the winter, and the smallest that is accepted in full.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Smallest<T> {
    /// The smallest that carries the load; `None` where none does.
    pub carrier: Option<T>,
    /// The smallest that is accepted with everything that is asked; `None` where none is.
    pub accepted: Option<T>,
}

impl<T> Smallest<T> {
    /// The same of something else.
    ///
    /// # Errors
    /// The first that `other` finds.
    pub fn try_map<U, E>(self, mut other: impl FnMut(T) -> Result<U, E>) -> Result<Smallest<U>, E> {
        Ok(Smallest {
            carrier: self.carrier.map(&mut other).transpose()?,
            accepted: self.accepted.map(&mut other).transpose()?,
        })
    }
}

/// What one design load comes to.
#[derive(Debug)]
pub struct LoadSweepRow {
    /// The design load.
    pub load: Kilowatts,
    /// The smallest unit that carries it, judged for everything; `None` where no unit does.
    pub smallest: Option<Judged>,
    /// The smallest unit that is accepted with everything that is asked; `None` where no unit is.
    pub smallest_accepted: Option<Judged>,
    /// Annual electricity of the unit that the largest load needs, at this load.
    pub with_largest_unit: Option<KilowattHours>,
}

/// What each kilowatt taken off the design load gains, between the largest and the smallest load that some unit carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GainPerKilowatt {
    /// The larger load.
    pub from: Kilowatts,
    /// The smaller load.
    pub to: Kilowatts,
    /// Annual electricity saved per kilowatt by one and the same unit, that of the larger load: two units of different
    /// quality would tell of their quality. `None` without a climate.
    pub electricity_same_unit: Option<KilowattHours>,
    /// Capacity at the design temperature that is no longer needed, per kilowatt.
    pub capacity: f64,
}

impl LoadSweep {
    /// Prepares a house at each of `loads`.
    #[must_use]
    pub fn new(
        house: &House,
        climate: Option<&Climate>,
        criteria: &Criteria,
        units: UnitSystem,
        loads: &[Kilowatts],
    ) -> Self {
        let mut for_heating = criteria.clone();
        let requirements = &mut for_heating.requirements;
        requirements.cooling_design = false;
        requirements.max_cooling_cycling_share = 1.0;
        requirements.max_humid_share = 1.0;
        let at = |load| house.with_heating_design_load(load);
        Self {
            carriers: loads
                .iter()
                .map(|&load| (load, Brief::new(at(load), None, for_heating.clone(), units)))
                .collect(),
            whole: loads
                .iter()
                .map(|&load| Brief::new(at(load), climate, criteria.clone(), units))
                .collect(),
        }
    }

    /// For each load, the unit's capacity at the design temperature where it carries that load.
    ///
    /// Carried: every heating requirement and every criterion is shown to hold; cooling is left aside.
    #[must_use]
    pub fn carries(&self, unit: &Unit) -> Vec<Carries> {
        self.carriers
            .iter()
            .zip(&self.whole)
            .map(|((_, brief), whole)| {
                let judged = brief.judge(unit);
                let carries = matches!(judged.verdict, Verdict::Accepted);
                let capacity = judged.heating.capacity_at_design.filter(|_| carries)?;
                let accepted = matches!(whole.judge(unit).verdict, Verdict::Accepted);
                Some(Carrying { capacity, accepted })
            })
            .collect()
    }

    /// For each load, the places in `units` of those of smallest capacity; the first of equals.
    ///
    /// - `units`  what [`LoadSweep::carries`] said of each unit, in the order of keys
    #[must_use]
    pub fn smallest(&self, units: &[Vec<Carries>]) -> Vec<Smallest<usize>> {
        let of = |load: usize, wanted: fn(&Carrying) -> bool| {
            units
                .iter()
                .enumerate()
                .filter_map(|(place, carries)| Some((place, carries.get(load).copied()??)))
                .filter(|(_, carrying)| wanted(carrying))
                .min_by(|a, b| a.1.capacity.0.total_cmp(&b.1.capacity.0))
                .map(|(place, _)| place)
        };
        (0..self.carriers.len())
            .map(|load| Smallest {
                carrier: of(load, |_| true),
                accepted: of(load, |carrying| carrying.accepted),
            })
            .collect()
    }

    /// The rows, in the order of the loads.
    ///
    /// - `smallest`  for each load the smallest units
    #[must_use]
    pub fn rows(&self, smallest: &[Smallest<Unit>]) -> Vec<LoadSweepRow> {
        let largest_unit = self
            .carriers
            .iter()
            .zip(smallest)
            .filter_map(|((load, _), found)| Some((load.0, found.carrier.as_ref()?)))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, unit)| unit);
        self.carriers
            .iter()
            .zip(&self.whole)
            .zip(smallest)
            .map(|(((load, _), brief), found)| LoadSweepRow {
                load: *load,
                smallest: found.carrier.as_ref().map(|unit| brief.judge(unit)),
                smallest_accepted: found.accepted.as_ref().map(|unit| brief.judge(unit)),
                with_largest_unit: largest_unit
                    .and_then(|unit| brief.judge(unit).annual_electricity()),
            })
            .collect()
    }
}

impl GainPerKilowatt {
    /// The gain between the largest and the smallest carried load; `None` where fewer than two loads are carried.
    #[must_use]
    pub fn of(rows: &[LoadSweepRow]) -> Option<Self> {
        let carried = || {
            rows.iter()
                .filter_map(|row| Some((row, row.smallest.as_ref()?)))
        };
        let (high, high_unit) = carried().max_by(|a, b| a.0.load.0.total_cmp(&b.0.load.0))?;
        let (low, low_unit) = carried().min_by(|a, b| a.0.load.0.total_cmp(&b.0.load.0))?;
        let span = (high.load - low.load).0;
        if span <= 0.0 {
            return None;
        }
        let capacity = |unit: &Judged| unit.heating.capacity_at_design;
        Some(Self {
            from: high.load,
            to: low.load,
            electricity_same_unit: high
                .with_largest_unit
                .zip(low.with_largest_unit)
                .map(|(high, low)| (high - low) / span),
            capacity: (capacity(high_unit)? - capacity(low_unit)?).0 / span,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::test_house::{climate, house, unit};

    // By hand, one hour at 0 °C: a design load Q at -20 °C, nothing from 20 °C, asks for Q/2; at COP 2 that is Q/4 kWh.
    #[test]
    fn each_load_gets_its_smallest_unit_and_the_gain_is_per_kilowatt() {
        let climate = climate(&[(1, 1, 0.0, 3.0)]);
        let loads = [Kilowatts(4.0), Kilowatts(8.0), Kilowatts(20.0)];
        let sweep = LoadSweep::new(
            &house(10.0, 0.1),
            Some(&climate),
            &Criteria::default(),
            UnitSystem::Si,
            &loads,
        );
        let units = [
            unit("a", 9.0, 5.0),
            unit("b", 5.0, 3.0),
            unit("c", 5.0, 9.0),
        ];
        let carries: Vec<_> = units.iter().map(|unit| sweep.carries(unit)).collect();
        let smallest = sweep.smallest(&carries);
        let carriers: Vec<_> = smallest.iter().map(|found| found.carrier).collect();
        assert_eq!(carriers, [Some(1), Some(0), None]);
        // By hand: at a sensible share of 0.75, 3 and 5 kW of cooling are not enough for 4 kW sensible; 9 kW are.
        let accepted: Vec<_> = smallest.iter().map(|found| found.accepted).collect();
        assert_eq!(accepted, [Some(2), None, None]);
        let chosen: Vec<_> = smallest
            .into_iter()
            .map(|found| found.try_map(|place| Ok::<_, ()>(units[place].clone())))
            .collect::<Result<_, _>>()
            .unwrap();
        let rows = sweep.rows(&chosen);
        let electricity = |row: usize| {
            rows[row]
                .smallest
                .as_ref()
                .and_then(Judged::annual_electricity)
                .map(|energy| energy.0)
        };
        assert_eq!((electricity(0), electricity(1)), (Some(1.0), Some(2.0)));
        let gain = GainPerKilowatt::of(&rows).unwrap();
        assert_eq!((gain.from, gain.to), (Kilowatts(8.0), Kilowatts(4.0)));
        assert_eq!(gain.electricity_same_unit, Some(KilowattHours(0.25)));
        assert_eq!(gain.capacity, 1.0);
    }

    #[test]
    fn one_carried_load_gains_nothing() {
        let sweep = LoadSweep::new(
            &house(10.0, 0.1),
            None,
            &Criteria::default(),
            UnitSystem::Si,
            &[Kilowatts(4.0)],
        );
        let rows = sweep.rows(&[Smallest {
            carrier: Some(unit("a", 9.0, 5.0)),
            accepted: None,
        }]);
        assert_eq!(GainPerKilowatt::of(&rows), None);
    }
}
