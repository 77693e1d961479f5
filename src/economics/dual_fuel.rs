//! Heat pump above a switch-over temperature, furnace below it: the year's energy, and the temperature that is best.

use super::annual::Uses;
use super::switch_over::{Ahead, SwitchOver, crossings, steps};
use super::{EnergyProfile, Factors, HeatPumpHeat};
use crate::house::HeatingLoadLine;
use crate::quantity::{Celsius, Cop, Hours, Kelvins, KilowattHours};

/// Width over which a state's hours are spread.
const STATE_WIDTH: Kelvins = Kelvins(1.0);

/// A year of dual fuel at one switch-over temperature.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DualFuelYear {
    /// Heat that the house needs.
    pub load: KilowattHours,
    /// Heat by the heat pump.
    pub heat_pump: KilowattHours,
    /// Electricity that it takes.
    pub electricity: KilowattHours,
    /// Heat by the furnace: all of it below the switch-over, what the heat pump is short of above.
    pub furnace: KilowattHours,
    /// Heating hours in which the heat pump runs.
    pub heat_pump_hours: Hours,
    /// Heating hours in which the furnace runs alone.
    pub furnace_hours: Hours,
}

impl DualFuelYear {
    /// What heating carries in the year by one measure: `E w_electricity + (heat by furnace / e) w_fuel`.
    #[must_use]
    pub fn carries(&self, factors: Factors) -> f64 {
        self.electricity.0 * factors.electricity + self.furnace.0 * factors.heat_by_fuel()
    }

    /// The year as uses of energy, for [`annual`](super::annual()) with [`System::HeatPumpWithFuel`](super::System).
    #[must_use]
    pub fn uses(&self, cooling: EnergyProfile, standby: EnergyProfile) -> Uses {
        Uses {
            heating_load: EnergyProfile::Annual(self.load),
            heat_pump_electricity: EnergyProfile::Annual(self.electricity),
            backup_heat: EnergyProfile::Annual(self.furnace),
            cooling_electricity: cooling,
            standby_electricity: standby,
        }
    }
}

/// A house, a heat pump and a climate, ready to be asked about any switch-over temperature.
///
/// Each state's hours are spread evenly over the 1 K around its mean temperature (**our rule**). Load and COP are taken
/// at the temperature itself, not at the state's mean, so the year's totals are continuous in the switch-over
/// temperature: none jumps as a whole state changes sides. The mean temperature, and with it the load of a straight
/// load line, is kept.
pub struct DualFuel<'a> {
    load: HeatingLoadLine,
    heat_pump: &'a dyn Fn(Celsius) -> Option<HeatPumpHeat>,
    knots: Vec<Celsius>,
    /// Coldest first; only where hours and load are above zero.
    pieces: Vec<Piece>,
}

/// A stretch of outdoor temperature in which the hours are evenly spread and nothing bends.
struct Piece {
    from: f64,
    to: f64,
    hours_per_kelvin: f64,
    year: Sums,
}

/// Integrals over a stretch, with the heat pump running wherever it can.
#[derive(Clone, Copy, Debug, Default)]
struct Sums {
    hours: f64,
    load: f64,
    running: f64,
    heat: f64,
    electricity: f64,
}

impl<'a> DualFuel<'a> {
    /// Prepares the integrals.
    ///
    /// - `states`  mean outdoor temperature and hours of each climate state, in any order; states of one whole degree
    ///   are joined
    /// - `heat_pump`  what the heat pump does at the house's load; `None`: locked out or unproven, the furnace carries
    ///   all
    /// - `knots`  where `heat_pump` bends or jumps
    #[must_use]
    pub fn new(
        states: impl IntoIterator<Item = (Celsius, Hours)>,
        load: HeatingLoadLine,
        heat_pump: &'a dyn Fn(Celsius) -> Option<HeatPumpHeat>,
        knots: &[Celsius],
    ) -> Self {
        let mut dual_fuel = Self {
            load,
            heat_pump,
            knots: knots.to_vec(),
            pieces: Vec::new(),
        };
        let boxes = joined(states);
        let zero_load = load.zero_load_outdoor.0;
        let mut edges: Vec<f64> = knots.iter().map(|knot| knot.0).collect();
        edges.push(zero_load);
        edges.extend(boxes.iter().flat_map(|state| [state.from, state.to]));
        edges.sort_by(f64::total_cmp);
        edges.dedup();
        for pair in edges.windows(2) {
            let middle = f64::midpoint(pair[0], pair[1]);
            let here = boxes
                .iter()
                .filter(|state| state.from < middle && middle < state.to);
            let hours_per_kelvin: f64 = here.map(|state| state.hours / STATE_WIDTH.0).sum();
            if hours_per_kelvin <= 0.0 || middle >= zero_load {
                continue;
            }
            let mut from = pair[0];
            for to in steps(pair[0], pair[1], super::switch_over::STEP) {
                let year = dual_fuel.integral(from, to, hours_per_kelvin);
                dual_fuel.pieces.push(Piece {
                    from,
                    to,
                    hours_per_kelvin,
                    year,
                });
                from = to;
            }
        }
        dual_fuel
    }

    /// The coldest and the warmest heating temperature that occur; `None` where no heating hour does.
    #[must_use]
    pub fn range(&self) -> Option<(Celsius, Celsius)> {
        Some((
            Celsius(self.pieces.first()?.from),
            Celsius(self.pieces.last()?.to),
        ))
    }

    /// The year's energy with the furnace below the switch-over temperature and the heat pump from it upward.
    #[must_use]
    pub fn year(&self, switch_over: SwitchOver) -> DualFuelYear {
        let threshold = match switch_over {
            SwitchOver::Always => f64::NEG_INFINITY,
            SwitchOver::Never => f64::INFINITY,
            SwitchOver::At(threshold) => threshold.0,
        };
        let mut year = DualFuelYear::default();
        let mut hours = 0.0;
        for piece in &self.pieces {
            hours += piece.year.hours;
            year.load.0 += piece.year.load;
            let running = if piece.from >= threshold {
                piece.year
            } else if piece.to > threshold {
                self.integral(threshold, piece.to, piece.hours_per_kelvin)
            } else {
                continue;
            };
            year.heat_pump.0 += running.heat;
            year.electricity.0 += running.electricity;
            year.heat_pump_hours.0 += running.running;
        }
        year.furnace = (year.load - year.heat_pump).max(KilowattHours::ZERO);
        year.furnace_hours = (Hours(hours) - year.heat_pump_hours).max(Hours::ZERO);
        year
    }

    /// The switch-over temperature that gives the least annual total among all single ones.
    ///
    /// Going colder, every temperature at which the COP at the house's load falls to the break-even value, or at which
    /// the heat pump stops, is a candidate: a least total can lie nowhere else but at the ends. With one crossing it is
    /// that one. With several, the one above which the heat pump saves most: `∫ (heat - COP_be · electricity) dh` is
    /// largest. Of equal totals the warmest is taken. So [`SwitchOver::Never`] also stands for a good range that is
    /// outweighed by a bad one above it, and [`SwitchOver::Always`] for a bad range that is outweighed by a good one
    /// below it; [`crossings`](super::crossings) tells them apart.
    ///
    /// `None` where no heating hour occurs, or the break-even value is not a number.
    #[must_use]
    pub fn switch_over(&self, break_even: Cop) -> Option<SwitchOver> {
        let range = self.range()?;
        if break_even.0.is_nan() {
            return None;
        }
        if break_even.0.is_infinite() {
            return Some(SwitchOver::Never);
        }
        let cop = |outdoor| self.cop(outdoor);
        let mut candidates: Vec<SwitchOver> = crossings(&cop, &self.knots, break_even, range)
            .into_iter()
            .filter(|crossing| crossing.warmer == Ahead::HeatPump)
            .map(|crossing| SwitchOver::At(crossing.at))
            .collect();
        if Ahead::at(self.cop(range.0), break_even) == Ahead::HeatPump {
            candidates.push(SwitchOver::Always);
        }
        let saving = |candidate| {
            let year = self.year(candidate);
            year.heat_pump.0 - break_even.0 * year.electricity.0
        };
        let (mut best, mut most) = (SwitchOver::Never, 0.0);
        for candidate in candidates {
            let saved = saving(candidate);
            if saved > most {
                (best, most) = (candidate, saved);
            }
        }
        Some(best)
    }

    /// COP at the house's load; `None`: locked out, unproven, or no load.
    #[must_use]
    pub fn cop(&self, outdoor: Celsius) -> Option<Cop> {
        (self.heat_pump)(outdoor).and_then(HeatPumpHeat::cop)
    }

    /// Three-point Gauss-Legendre quadrature, exact for polynomials of the fifth degree.
    ///
    /// # Source
    /// Abramowitz and Stegun, table 25.4.
    fn integral(&self, from: f64, to: f64, hours_per_kelvin: f64) -> Sums {
        let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
        let reach = 0.6_f64.sqrt() * half;
        let mut sums = Sums::default();
        for (at, weight) in [
            (middle - reach, 5.0 / 9.0),
            (middle, 8.0 / 9.0),
            (middle + reach, 5.0 / 9.0),
        ] {
            let hours = weight * half * hours_per_kelvin;
            sums.hours += hours;
            sums.load += hours * self.load.at(Celsius(at)).0;
            if let Some(running) = (self.heat_pump)(Celsius(at)) {
                sums.running += hours;
                sums.heat += hours * running.heat.0;
                sums.electricity += hours * running.electricity.0;
            }
        }
        sums
    }
}

/// A state's hours, spread evenly from one temperature to another.
struct Spread {
    from: f64,
    to: f64,
    hours: f64,
}

/// Joins states of one whole degree, which differ in humidity only, and spreads each over its width.
fn joined(states: impl IntoIterator<Item = (Celsius, Hours)>) -> Vec<Spread> {
    let mut degrees: Vec<(f64, f64, f64)> = states
        .into_iter()
        .filter(|(_, hours)| hours.0 > 0.0)
        .map(|(outdoor, hours)| ((outdoor.0 + 0.5).floor(), hours.0, hours.0 * outdoor.0))
        .collect();
    degrees.sort_by(|left, right| left.0.total_cmp(&right.0));
    degrees.dedup_by(|later, earlier| {
        let same = later.0 == earlier.0;
        if same {
            earlier.1 += later.1;
            earlier.2 += later.2;
        }
        same
    });
    degrees
        .into_iter()
        .map(|(_, hours, weighted)| {
            let mean = weighted / hours;
            Spread {
                from: mean - STATE_WIDTH.0 / 2.0,
                to: mean + STATE_WIDTH.0 / 2.0,
                hours,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Kilowatts;

    const LOAD: HeatingLoadLine = HeatingLoadLine {
        design_outdoor: Celsius(-20.0),
        design_load: Kilowatts(7.0),
        zero_load_outdoor: Celsius(15.0),
    };

    fn at_cop(cop: impl Fn(f64) -> Option<f64>) -> impl Fn(Celsius) -> Option<HeatPumpHeat> {
        move |outdoor| {
            let heat = LOAD.at(outdoor);
            Some(HeatPumpHeat {
                heat,
                electricity: heat / cop(outdoor.0)?,
            })
        }
    }

    fn hundred_hours_each(from: i32, to: i32) -> impl Iterator<Item = (Celsius, Hours)> {
        (from..=to).map(|degree| (Celsius(f64::from(degree)), Hours(100.0)))
    }

    fn close(found: f64, expected: f64) {
        assert!(
            (found - expected).abs() < 1e-9 * expected.abs().max(1.0),
            "{found} ≠ {expected}"
        );
    }

    // By hand: the load is 0.2 (15 - T); one state at 0 °C of 100 h needs 300 kWh. Furnace below 0 °C: the load's integral
    // from -0.5 to 0 is 100 (3 · 0.5 + 0.1 · 0.25) = 152.5 kWh by furnace, 147.5 kWh by the heat pump at COP 2.
    #[test]
    fn a_threshold_within_a_state_splits_its_hours_and_its_load() {
        let heat_pump = at_cop(|_| Some(2.0));
        let dual_fuel = DualFuel::new(hundred_hours_each(0, 0), LOAD, &heat_pump, &[]);
        let year = dual_fuel.year(SwitchOver::At(Celsius(0.0)));
        close(year.load.0, 300.0);
        close(year.furnace.0, 152.5);
        close(year.heat_pump.0, 147.5);
        close(year.electricity.0, 73.75);
        close(year.heat_pump_hours.0, 50.0);
        close(year.furnace_hours.0, 50.0);
        let factors = Factors {
            electricity: 0.2,
            fuel: 0.05,
            efficiency: 0.9,
        };
        close(year.carries(factors), 73.75 * 0.2 + 152.5 / 0.9 * 0.05);
    }

    #[test]
    fn always_and_never_are_the_ends() {
        let heat_pump = at_cop(|_| Some(2.0));
        let dual_fuel = DualFuel::new(hundred_hours_each(-20, 14), LOAD, &heat_pump, &[]);
        assert_eq!(dual_fuel.switch_over(Cop(1.9)), Some(SwitchOver::Always));
        assert_eq!(dual_fuel.switch_over(Cop(2.0)), Some(SwitchOver::Never));
        assert_eq!(
            dual_fuel.switch_over(Cop(f64::INFINITY)),
            Some(SwitchOver::Never)
        );
        assert_eq!(dual_fuel.switch_over(Cop(0.0)), Some(SwitchOver::Always));
        assert_eq!(dual_fuel.switch_over(Cop(f64::NAN)), None);
        close(dual_fuel.year(SwitchOver::Never).electricity.0, 0.0);
        close(dual_fuel.year(SwitchOver::Always).furnace.0, 0.0);
    }

    // By hand: COP 3 + 0.05 T is 2.5 at -10 °C.
    #[test]
    fn one_crossing_is_the_answer() {
        let heat_pump = at_cop(|t| Some(3.0 + 0.05 * t));
        let dual_fuel = DualFuel::new(hundred_hours_each(-20, 14), LOAD, &heat_pump, &[]);
        let Some(SwitchOver::At(found)) = dual_fuel.switch_over(Cop(2.5)) else {
            panic!("there is a crossing");
        };
        assert!((found.0 + 10.0).abs() < 1e-9);
        let mild = DualFuel::new(hundred_hours_each(-5, 14), LOAD, &heat_pump, &[]);
        assert_eq!(
            mild.switch_over(Cop(2.5)),
            Some(SwitchOver::Always),
            "-10 °C does not occur"
        );
    }

    #[test]
    fn a_heat_pump_that_stops_hands_over_where_it_stops() {
        let heat_pump = at_cop(|t| (t >= -15.0).then_some(3.0));
        let knots = [Celsius(-15.0)];
        let dual_fuel = DualFuel::new(hundred_hours_each(-20, 14), LOAD, &heat_pump, &knots);
        assert_eq!(
            dual_fuel.switch_over(Cop(2.5)),
            Some(SwitchOver::At(Celsius(-15.0)))
        );
    }

    /// COP 3 down to 0 °C, 2 from there to -10 °C, 3 again below: whether the dip is worth crossing is a matter of hours.
    #[test]
    fn of_several_crossings_the_one_that_saves_most_is_taken() {
        let heat_pump = at_cop(|t| Some(if (-10.0..0.0).contains(&t) { 2.0 } else { 3.0 }));
        let knots = [Celsius(-10.0), Celsius(0.0)];
        let answer = |cold_hours: f64| {
            let cold = (-20..-10).map(|degree| (Celsius(f64::from(degree)), Hours(cold_hours)));
            let states = cold.chain(hundred_hours_each(-10, 14));
            DualFuel::new(states, LOAD, &heat_pump, &knots).switch_over(Cop(2.5))
        };
        assert_eq!(answer(1.0), Some(SwitchOver::At(Celsius(0.0))));
        assert_eq!(answer(500.0), Some(SwitchOver::Always));
    }

    #[test]
    fn without_a_heating_hour_there_is_no_answer() {
        let heat_pump = at_cop(|_| Some(3.0));
        let warm = DualFuel::new([(Celsius(20.0), Hours(8760.0))], LOAD, &heat_pump, &[]);
        assert_eq!(warm.switch_over(Cop(2.0)), None);
        assert_eq!(warm.year(SwitchOver::Always), DualFuelYear::default());
    }

    #[test]
    fn states_that_differ_in_humidity_only_are_joined_at_their_mean() {
        let heat_pump = at_cop(|_| Some(3.0));
        let states = [(Celsius(-0.3), Hours(30.0)), (Celsius(0.2), Hours(20.0))];
        let dual_fuel = DualFuel::new(states, LOAD, &heat_pump, &[]);
        let (coldest, warmest) = dual_fuel.range().unwrap();
        assert!((coldest.0 + 0.6).abs() < 1e-12 && (warmest.0 - 0.4).abs() < 1e-12);
        close(
            dual_fuel.year(SwitchOver::Always).load.0,
            30.0 * 3.06 + 20.0 * 2.96,
        );
    }
}
