//! Heat pump above a switch-over temperature, furnace below it: the year's energy, and the temperature that is best.

use super::annual::Uses;
use super::switch_over::{Ahead, SwitchOver, crossings, steps};
use super::{EnergyProfile, Factors};
use crate::house::HeatingLoadLine;
use crate::quantity::{Celsius, Cop, Hours, Kelvins, KilowattHours, Kilowatts};

/// Width over which a state's hours are spread.
const STATE_WIDTH: Kelvins = Kelvins(1.0);

/// What the heat pump does at an outdoor temperature while it is the one to run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatPumpHeat {
    /// Heat that it delivers, at most the house's load.
    pub heat: Kilowatts,
    /// Electricity that it takes.
    pub electricity: Kilowatts,
}

impl HeatPumpHeat {
    /// COP at the house's load; `None` where nothing is delivered.
    #[must_use]
    pub fn cop(self) -> Option<Cop> {
        (self.heat > Kilowatts::ZERO).then(|| Cop(self.heat / self.electricity))
    }
}

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
/// Each state's hours are spread evenly over the 1 K around its mean temperature (**our rule**). Load and COP are taken at
/// the temperature itself, not at the state's mean, so the year's totals are continuous in the switch-over temperature: none
/// jumps as a whole state changes sides. The mean temperature, and with it the load of a straight load line, is kept.
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
    /// - `states`  mean outdoor temperature and hours of each climate state, in any order; states of one whole degree are joined
    /// - `heat_pump`  what the heat pump does at the house's load; `None`: locked out or unproven, the furnace carries all
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
    /// Going colder, every temperature at which the COP at the house's load falls to the break-even value, or at which the heat
    /// pump stops, is a candidate: between candidates the total falls or rises throughout. With one crossing it is that one.
    /// With several, the one whose heat pump range saves most: `∫ (heat - COP_be · electricity) dh` is largest. Of equal totals
    /// the warmest is taken, so [`SwitchOver::Never`] needs a heat pump that is nowhere ahead, or whose good range is outweighed
    /// by a bad one above it; [`SwitchOver::Always`] that going on down to the coldest hour saves most.
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

    /// Three-point Gauss-Legendre quadrature, exact for polynomials of the fifth degree (Abramowitz and Stegun, table 25.4).
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
