//! The dual-fuel year as a function of its switch-over temperature: continuous, and least at the computed one.

use overwinter::climate::State;
use overwinter::economics::{
    Ahead, DualFuel, Factors, HeatPumpHeat, SwitchOver, crossings, heat_pump_knots,
};
use overwinter::equipment::{Curve, SevereSide, SpeedCurves};
use overwinter::heating::{HeatPerformance, HeatingCurves, heating_season};
use overwinter::house::HeatingLoadLine;
use overwinter::quantity::{Celsius, Cop, Hours, Kilowatts};
use proptest::prelude::*;

const LOAD: HeatingLoadLine = HeatingLoadLine {
    design_outdoor: Celsius(-18.0),
    design_load: Kilowatts(9.9),
    zero_load_outdoor: Celsius(15.0),
};

/// A COP of straight pieces, rising and falling as it likes, that ends at its coldest knot.
#[derive(Clone, Debug)]
struct Pieces(Vec<(f64, f64)>);

impl Pieces {
    fn at(&self, outdoor: Celsius) -> Option<Cop> {
        let after = self.0.partition_point(|&(at, _)| at < outdoor.0);
        if after == 0 {
            let (coldest, cop) = self.0[0];
            return (coldest == outdoor.0).then_some(Cop(cop));
        }
        let (t0, c0) = self.0[after - 1];
        let Some(&(t1, c1)) = self.0.get(after) else {
            return Some(Cop(c0));
        };
        Some(Cop(c0 + (c1 - c0) * (outdoor.0 - t0) / (t1 - t0)))
    }

    fn heat(&self, outdoor: Celsius) -> Option<HeatPumpHeat> {
        let heat = LOAD.at(outdoor).min(Kilowatts(8.0));
        let electricity = heat / self.at(outdoor)?.0;
        Some(HeatPumpHeat { heat, electricity })
    }

    /// Its knots, and where the load passes 8 kW.
    fn knots(&self) -> Vec<Celsius> {
        let mut knots: Vec<Celsius> = self.0.iter().map(|&(at, _)| Celsius(at)).collect();
        knots.push(Celsius(15.0 - 8.0 / 0.3));
        knots
    }
}

fn pieces() -> impl Strategy<Value = Pieces> {
    let steps = prop::collection::vec((0.5..9.0, 1.0..5.0), 2..8);
    (-35.0..-5.0, steps).prop_map(|(coldest, steps)| {
        let mut at: f64 = coldest;
        let mut points = Vec::new();
        for (step, cop) in steps {
            points.push((at, cop));
            at += step;
        }
        Pieces(points)
    })
}

fn states() -> impl Strategy<Value = Vec<(Celsius, Hours)>> {
    prop::collection::vec((-30.0..20.0, 0.0..300.0), 1..60).prop_map(|states| {
        states
            .into_iter()
            .map(|(t, h)| (Celsius(t), Hours(h)))
            .collect()
    })
}

fn factors() -> impl Strategy<Value = Factors> {
    (0.05..0.5, 0.02..0.2, 0.6..1.0).prop_map(|(electricity, fuel, efficiency)| Factors {
        electricity,
        fuel,
        efficiency,
    })
}

/// A unit of two speeds and three published temperatures, down to -25 °C.
fn units() -> impl Strategy<Value = HeatingCurves> {
    let shape = (
        (4.0..12.0, 2.5..4.5),
        (0.4..1.0, 1.2..2.6),
        0.15..0.9,
        -30.0..-17.0,
    );
    shape.prop_map(
        |((capacity, cop), (cold_share, cold_cop), turndown, limit)| {
            let point = |at: f64, capacity: f64, cop: f64| {
                let power = Kilowatts(capacity / cop);
                (
                    Celsius(at),
                    HeatPerformance {
                        capacity: Kilowatts(capacity),
                        power,
                    },
                )
            };
            let curve = |share: f64, gain: f64| {
                let capacity = capacity * share;
                let points = vec![
                    point(8.0, capacity, cop * gain),
                    point(
                        -8.0,
                        capacity * f64::midpoint(1.0, cold_share),
                        f64::midpoint(cop, cold_cop) * gain,
                    ),
                    point(-25.0, capacity * cold_share, cold_cop * gain),
                ];
                Curve::through(SevereSide::Cold, points)
            };
            HeatingCurves {
                speeds: SpeedCurves::resolve(curve(turndown, 1.2), None, curve(1.0, 1.0))
                    .expect("both have points"),
                operates_to: Some(Celsius(limit)),
                coldest_point: Celsius(-25.0),
                degradation: 0.25,
            }
        },
    )
}

fn break_even(factors: Factors) -> Cop {
    factors
        .break_even()
        .expect("neither kind of energy is free")
}

/// Furnace below each of these, and both ends.
fn thresholds() -> impl Iterator<Item = SwitchOver> {
    let grid = (-320..200).map(|tenth| SwitchOver::At(Celsius(f64::from(tenth) / 10.0)));
    grid.chain([SwitchOver::Always, SwitchOver::Never])
}

proptest! {
    #![proptest_config(crate::repeatable(200))]

    #[test]
    fn the_annual_cost_is_least_at_the_computed_switch_over(
        cop in pieces(), states in states(), factors in factors()
    ) {
        let heat_pump = |outdoor| cop.heat(outdoor);
        let dual_fuel = DualFuel::new(states, LOAD, &heat_pump, &cop.knots());
        let Some(best) = dual_fuel.switch_over(break_even(factors)) else {
            prop_assert!(dual_fuel.range().is_none());
            return Ok(());
        };
        let least = dual_fuel.year(best).carries(factors);
        for other in thresholds() {
            let total = dual_fuel.year(other).carries(factors);
            prop_assert!(least <= total * (1.0 + 1e-7), "{best:?}: {least}, {other:?}: {total}");
        }
    }

    #[test]
    fn the_annual_cost_is_continuous_in_the_switch_over_temperature(
        cop in pieces(), states in states(), factors in factors(),
        (share, offset) in (0.0..1.0_f64, -0.7..0.7_f64), decades in 1.0..6.0_f64
    ) {
        let step = 10.0_f64.powf(-decades);
        let heat_pump = |outdoor| cop.heat(outdoor);
        let dual_fuel = DualFuel::new(states.clone(), LOAD, &heat_pump, &cop.knots());
        // Near a state, or nothing would change.
        let index = (share * states.len() as f64) as usize;
        let threshold = states[index].0.0 + offset;
        let total = |at| dual_fuel.year(SwitchOver::At(Celsius(at))).carries(factors);
        // A kelvin holds no more than the states near it, and an hour's 8 kW carry at most this on either side (COP >= 1).
        let near: f64 = states.iter().filter(|(t, _)| (t.0 - threshold).abs() < 2.0).map(|(_, h)| h.0).sum();
        let dearest = LOAD.at(Celsius(threshold)).0.min(8.0) * factors.electricity.max(factors.heat_by_fuel());
        let jump = (total(threshold + step) - total(threshold)).abs();
        prop_assert!(jump <= near * dearest * step + 1e-9 * (1.0 + total(threshold)), "{jump} over {step} K");
    }

    #[test]
    fn at_the_switch_over_the_cop_passes_the_break_even_value_or_the_heat_pump_stops(
        cop in pieces(), states in states(), factors in factors()
    ) {
        let break_even = break_even(factors);
        let heat_pump = |outdoor| cop.heat(outdoor);
        let dual_fuel = DualFuel::new(states, LOAD, &heat_pump, &cop.knots());
        let Some(SwitchOver::At(found)) = dual_fuel.switch_over(break_even) else { return Ok(()) };
        let at = |outdoor: f64| cop.at(Celsius(outdoor));
        prop_assert_eq!(Ahead::at(at(found.0 + 1e-6), break_even), Ahead::HeatPump);
        prop_assert_ne!(Ahead::at(at(found.0 - 1e-6), break_even), Ahead::HeatPump);
        if let (Some(warmer), Some(colder)) = (at(found.0 + 1e-9), at(found.0 - 1e-9)) {
            prop_assert!((warmer.0 - break_even.0).abs() < 1e-7 && (colder.0 - break_even.0).abs() < 1e-7);
        }
    }

    #[test]
    fn every_state_of_the_answer_holds_between_two_crossings(cop in pieces(), break_even in 1.0..5.0) {
        let break_even = Cop(break_even);
        let range = (Celsius(-30.0), Celsius(15.0));
        let found = crossings(&|outdoor| cop.at(outdoor), &cop.knots(), break_even, range);
        let mut edges = vec![range.1.0];
        edges.extend(found.iter().map(|crossing| crossing.at.0));
        edges.push(range.0.0);
        for (index, pair) in edges.windows(2).enumerate() {
            prop_assert!(pair[0] >= pair[1]);
            let middle = Ahead::at(cop.at(Celsius((pair[0] + pair[1]) / 2.0)), break_even);
            if let Some(next) = found.get(index).filter(|_| pair[0] - pair[1] > 1e-6) {
                prop_assert_eq!(middle, next.warmer);
            }
        }
    }

    #[test]
    fn the_annual_cost_of_a_unit_on_its_own_curves_is_least_there_too(
        unit in units(), states in states(), factors in factors()
    ) {
        let heat_pump = |outdoor| HeatPumpHeat::of_unit(&unit, &LOAD, outdoor);
        let dual_fuel = DualFuel::new(states, LOAD, &heat_pump, &heat_pump_knots(&unit, &LOAD));
        let Some(best) = dual_fuel.switch_over(break_even(factors)) else { return Ok(()) };
        let least = dual_fuel.year(best).carries(factors);
        for other in thresholds() {
            let total = dual_fuel.year(other).carries(factors);
            prop_assert!(least <= total * (1.0 + 1e-7), "{best:?}: {least}, {other:?}: {total}");
        }
    }

    // The season takes each state at its mean temperature, dual fuel over the kelvin around it.
    #[test]
    fn a_heat_pump_that_always_runs_has_the_seasons_load_and_nearly_its_electricity(
        unit in units(), hours in prop::collection::vec(1.0..300.0_f64, 30)
    ) {
        let states: Vec<State> = (-16..14)
            .zip(hours)
            .map(|(t, hours)| State {
                hours: Hours(hours),
                outdoor: Celsius(f64::from(t)),
                humidity_ratio: None,
            })
            .collect();
        let season = heating_season(&LOAD, Some(&unit), &states);
        let heat_pump = |outdoor| HeatPumpHeat::of_unit(&unit, &LOAD, outdoor);
        let pairs = states.iter().map(|state| (state.outdoor, state.hours));
        let dual_fuel = DualFuel::new(pairs, LOAD, &heat_pump, &heat_pump_knots(&unit, &LOAD));
        let year = dual_fuel.year(SwitchOver::Always);
        prop_assert!((year.load / season.load - 1.0).abs() < 1e-12);
        prop_assert!((year.electricity / season.electricity - 1.0).abs() < 0.005);
        prop_assert!((year.furnace.0 - season.backup.0).abs() < 0.005 * season.load.0);
    }
}
