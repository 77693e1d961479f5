//! A unit beside a furnace: where the furnace takes over by cost, emissions and source energy, and what the year comes to.

use super::Judged;
use crate::climate::State;
use crate::economics::{
    Ahead, Crossing, DualFuel, DualFuelYear, Factors, HeatPumpHeat, Measure, SwitchOver,
    break_even, crossings, heat_pump_knots,
};
use crate::equipment::Unit;
use crate::heating::HeatingCurves;
use crate::house::{Energy, House};
use crate::quantity::{Celsius, Cop};

/// Step between two outdoor temperatures of a chart \[K\].
const CHART_STEP: f64 = 0.5;

/// A unit beside a furnace.
#[derive(Clone, Debug)]
pub struct UnitSwitchOver {
    /// The unit's key.
    pub key: String,
    /// The verdict on it.
    pub verdict: &'static str,
    /// By each measure, in the order of [`Measure::ALL`].
    pub measures: Vec<MeasureSwitchOver>,
    /// The year with the heat pump wherever it can run.
    pub heat_pump_first: Year,
    /// The year with the furnace alone.
    pub furnace_alone: Year,
    /// At each electricity-to-fuel ratio that was asked for.
    pub ratios: Vec<RatioSwitchOver>,
    /// COP at the house's load over outdoor temperature, coldest first; `None`: locked out or unproven.
    pub cops: Vec<(Celsius, Option<Cop>)>,
}

/// Where the furnace takes over by one measure.
#[derive(Clone, Debug)]
pub struct MeasureSwitchOver {
    /// The measure.
    pub measure: Measure,
    /// What it compares; `None`: something is not given.
    pub factors: Option<Factors>,
    /// COP above which the heat pump is ahead.
    pub break_even: Option<Cop>,
    /// Where the furnace takes over; `None`: not known.
    pub switch_over: Option<SwitchOver>,
    /// Every temperature at which the order changes between two that run, warmest first.
    pub crossings: Vec<Crossing>,
    /// The year run so.
    pub year: Option<Year>,
}

/// Where the furnace takes over at one ratio of a kWh of electricity to a kWh of fuel.
#[derive(Clone, Copy, Debug)]
pub struct RatioSwitchOver {
    /// The ratio.
    pub ratio: f64,
    /// COP above which the heat pump is ahead.
    pub break_even: Cop,
    /// Where the furnace takes over.
    pub switch_over: SwitchOver,
    /// The year run so.
    pub year: DualFuelYear,
}

/// A year's heating by two fuels, with what it carries by each measure in the order of [`Measure::ALL`].
#[derive(Clone, Copy, Debug)]
pub struct Year {
    /// The energy.
    pub energy: DualFuelYear,
    /// Money, g of CO₂-equivalent, kWh of source energy; `None`: a factor is not given.
    pub carries: [Option<f64>; 3],
}

impl UnitSwitchOver {
    /// A unit in a house; `None` where nothing is published for its heating, or the climate has no heating hour.
    ///
    /// - `states`  the climate's
    /// - `ratios`  electricity-to-fuel ratios to be looked at; they need the furnace's efficiency
    #[must_use]
    pub fn of(
        house: &House,
        states: &[State],
        unit: &Unit,
        judged: &Judged,
        ratios: &[f64],
    ) -> Option<Self> {
        let none = Energy::default();
        let energy = house.energy.as_ref().unwrap_or(&none);
        let load = house.heating.load;
        let curves = HeatingCurves::of(unit, house.indoor.heating)?;
        let heat_pump = |outdoor| HeatPumpHeat::of_unit(&curves, &load, outdoor);
        let knots = heat_pump_knots(&curves, &load);
        let hours = states.iter().map(|state| (state.outdoor, state.hours));
        let dual_fuel = DualFuel::new(hours, load, &heat_pump, &knots);
        let range = dual_fuel.range()?;
        let factors = Measure::ALL.map(|measure| measure.factors(energy));
        let year = |switch_over| {
            let energy = dual_fuel.year(switch_over);
            Year {
                energy,
                carries: factors.map(|factors| factors.map(|factors| energy.carries(factors))),
            }
        };
        let cop = |outdoor| dual_fuel.cop(outdoor);
        let measures = Measure::ALL
            .into_iter()
            .zip(factors)
            .map(|(measure, factors)| {
                let break_even = factors.and_then(Factors::break_even);
                let switch_over = break_even.and_then(|cop| dual_fuel.switch_over(cop));
                let runs = |crossing: &Crossing| {
                    crossing.warmer != Ahead::NoHeatPump && crossing.colder != Ahead::NoHeatPump
                };
                let crossings = break_even.map_or_else(Vec::new, |break_even| {
                    crossings(&cop, &knots, break_even, range)
                });
                MeasureSwitchOver {
                    measure,
                    factors,
                    break_even,
                    switch_over,
                    crossings: crossings.into_iter().filter(runs).collect(),
                    year: switch_over.map(year),
                }
            })
            .collect();
        let efficiency = energy.fuel_efficiency.as_ref().map(|given| given.value);
        let at_ratio = |&ratio: &f64| {
            let break_even = break_even(efficiency?, ratio);
            let switch_over = dual_fuel.switch_over(break_even)?;
            Some(RatioSwitchOver {
                ratio,
                break_even,
                switch_over,
                year: dual_fuel.year(switch_over),
            })
        };
        Some(Self {
            key: unit.model.key.clone(),
            verdict: judged.verdict.name(),
            measures,
            heat_pump_first: year(SwitchOver::Always),
            furnace_alone: year(SwitchOver::Never),
            ratios: ratios.iter().filter_map(at_ratio).collect(),
            cops: chart_temperatures(range, &knots)
                .into_iter()
                .map(|outdoor| (outdoor, cop(outdoor)))
                .collect(),
        })
    }

    /// Where the furnace takes over by one measure.
    #[must_use]
    pub fn by(&self, measure: Measure) -> Option<&MeasureSwitchOver> {
        self.measures.iter().find(|by| by.measure == measure)
    }
}

/// Even steps over the heating temperatures that occur, and every knot among them; just below the warmest, where the load
/// goes to nothing, the last.
fn chart_temperatures((coldest, warmest): (Celsius, Celsius), knots: &[Celsius]) -> Vec<Celsius> {
    let first = (coldest.0 / CHART_STEP).ceil() * CHART_STEP;
    let mut steps = Vec::new();
    let mut next = first;
    while next < warmest.0 {
        steps.push(next);
        next += CHART_STEP;
    }
    steps.extend(knots.iter().map(|knot| knot.0));
    steps.push(coldest.0);
    steps.retain(|&outdoor| outdoor >= coldest.0 && outdoor < warmest.0);
    steps.sort_by(f64::total_cmp);
    steps.dedup();
    steps.into_iter().map(Celsius).collect()
}

#[cfg(test)]
mod tests {
    use super::super::test_house::{climate, house, unit};
    use super::*;
    use crate::criteria::Criteria;
    use crate::quantity::UnitSystem;
    use crate::study::Brief;

    fn answer(energy: Energy) -> UnitSwitchOver {
        let house = House {
            energy: Some(energy),
            ..house(0.0, 0.0)
        };
        let climate = climate(&[(1, 1, -20.0, 0.5), (1, 2, 0.0, 2.0), (4, 3, 10.0, 4.0)]);
        let unit = unit("a", 9.0, 5.0);
        let brief = Brief::new(
            house.clone(),
            Some(&climate),
            Criteria::default(),
            UnitSystem::Si,
        );
        let judged = brief.judge(&unit);
        UnitSwitchOver::of(&house, &climate.states, &unit, &judged, &[1.0, 3.0]).unwrap()
    }

    // By hand: the unit's COP is 2 at any temperature. Cost: break-even 0.8 · 4 = 3.2, so the furnace always runs;
    // emissions: 0.8 · 40 / 177 = 0.18, so it never does. Loads of 8, 4 and 2 kWh: 14 kWh / 0.8 · 0.04 = 0.7.
    #[test]
    fn never_and_always_are_answers() {
        let found = answer(Energy {
            electricity_price: Some(0.16.into()),
            fuel_price: Some(0.04.into()),
            fuel_efficiency: Some(0.8.into()),
            electricity_emissions_g: Some(40.0.into()),
            fuel_emissions_g: Some(177.0.into()),
            ..Energy::default()
        });
        let cost = found.by(Measure::Cost).unwrap();
        assert_eq!(cost.switch_over, Some(SwitchOver::Never));
        assert!((cost.break_even.unwrap().0 - 3.2).abs() < 1e-12);
        let year = cost.year.unwrap();
        assert!((year.carries[0].unwrap() - 0.7).abs() < 1e-9, "{year:?}");
        assert_eq!(
            found.by(Measure::Emissions).unwrap().switch_over,
            Some(SwitchOver::Always)
        );
        let source = found.by(Measure::SourceEnergy).unwrap();
        assert_eq!((source.switch_over, source.break_even), (None, None));
        assert_eq!(year.carries[2], None);
    }

    // By hand: at a ratio of 1 the break-even COP is 0.8, at 3 it is 2.4; the unit has 2.
    #[test]
    fn a_ratio_decides_as_its_break_even_does() {
        let found = answer(Energy {
            fuel_efficiency: Some(0.8.into()),
            ..Energy::default()
        });
        let answers: Vec<SwitchOver> = found.ratios.iter().map(|row| row.switch_over).collect();
        assert_eq!(answers, [SwitchOver::Always, SwitchOver::Never]);
        assert!((found.ratios[0].year.heat_pump.0 - 14.0).abs() < 1e-9);
    }
}
