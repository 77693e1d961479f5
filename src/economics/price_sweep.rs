//! At which electricity-to-fuel ratio the answer flips between heat pump and furnace, for the year and at each
//! temperature.

use super::annual::{System, Uses};
use super::break_even::{break_even, break_even_ratio};
use crate::quantity::{Celsius, Cop};

/// A heat pump's year against a furnace's, with the ratio of a kWh of electricity to a kWh of fuel left open.
///
/// Everything is in kWh of fuel, so the same sweep serves prices, emission factors and source-energy factors. Cooling is the
/// same on both sides and cancels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PriceSweep {
    /// Electricity that the heat pump's side takes more than the furnace's \[kWh\].
    electricity: f64,
    /// Fuel that its backup burns \[kWh\].
    backup_fuel: f64,
    /// Fuel that the furnace burns \[kWh\].
    furnace_fuel: f64,
    /// Twelve monthly charges that only the furnace's side pays, in kWh of fuel.
    charge: f64,
    efficiency: f64,
}

/// Both sides at one ratio.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SweepRow {
    /// Price (emissions, source energy) of a kWh of electricity to that of a kWh of fuel.
    pub ratio: f64,
    /// COP above which the heat pump is ahead in an hour.
    pub break_even: Cop,
    /// The heat pump's year, in units of a kWh of fuel.
    pub heat_pump: f64,
    /// The furnace's year, in units of a kWh of fuel.
    pub furnace: f64,
}

impl SweepRow {
    /// Whether the heat pump's year is the lesser.
    #[must_use]
    pub fn heat_pump_ahead(&self) -> bool {
        self.heat_pump < self.furnace
    }
}

impl PriceSweep {
    /// A sweep of a heat pump with one kind of backup against a furnace alone; `None` where `system` has no heat pump or
    /// `efficiency` is not above 0.
    ///
    /// - `efficiency`  of the furnace, and of a fuel backup
    /// - `charge_kwh`  the fuel account's charge for a month over the price of a kWh of fuel; zero for emissions and source
    ///   energy. It counts where the heat pump's side needs no fuel account.
    #[must_use]
    pub fn new(system: System, uses: &Uses, efficiency: f64, charge_kwh: f64) -> Option<Self> {
        if !system.has_heat_pump() || efficiency.is_nan() || efficiency <= 0.0 {
            return None;
        }
        let own = uses.heat_pump_electricity.total() + uses.standby_electricity.total();
        let backup = uses.backup_heat.total();
        let fuel_backup = system.burns_fuel();
        Some(Self {
            electricity: if fuel_backup { own.0 } else { own.0 + backup.0 },
            backup_fuel: if fuel_backup {
                backup.0 / efficiency
            } else {
                0.0
            },
            furnace_fuel: uses.heating_load.total().0 / efficiency,
            charge: if fuel_backup { 0.0 } else { 12.0 * charge_kwh },
            efficiency,
        })
    }

    /// The ratio below which the heat pump's year is the lesser: `(furnace fuel + charges - backup fuel) / electricity`.
    /// `None` where the heat pump's side takes no electricity.
    #[must_use]
    pub fn annual_flip(&self) -> Option<f64> {
        (self.electricity > 0.0)
            .then(|| (self.furnace_fuel + self.charge - self.backup_fuel) / self.electricity)
    }

    /// The ratio below which the heat pump is ahead at a COP: `COP / e`.
    #[must_use]
    pub fn flip_at(&self, cop: Cop) -> f64 {
        break_even_ratio(self.efficiency, cop)
    }

    /// The ratio at which the answer flips at each outdoor temperature; `None` where the heat pump is locked out or
    /// unproven.
    #[must_use]
    pub fn flips(
        &self,
        cop: &dyn Fn(Celsius) -> Option<Cop>,
        temperatures: &[Celsius],
    ) -> Vec<(Celsius, Option<f64>)> {
        temperatures
            .iter()
            .map(|&outdoor| (outdoor, cop(outdoor).map(|cop| self.flip_at(cop))))
            .collect()
    }

    /// Both sides at one ratio.
    #[must_use]
    pub fn row(&self, ratio: f64) -> SweepRow {
        SweepRow {
            ratio,
            break_even: break_even(self.efficiency, ratio),
            heat_pump: self.electricity * ratio + self.backup_fuel,
            furnace: self.furnace_fuel + self.charge,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::economics::EnergyProfile;
    use crate::quantity::KilowattHours;

    fn uses(standby: f64) -> Uses {
        let year = |energy| EnergyProfile::Annual(KilowattHours(energy));
        Uses {
            heating_load: year(19_000.0),
            heat_pump_electricity: year(6_000.0),
            backup_heat: year(1_900.0),
            cooling_electricity: year(800.0),
            standby_electricity: year(standby),
        }
    }

    // By hand: with fuel backup the heat pump's own heat decides: (19 000 - 1900) / 0.95 / 6000 = 3, which is the seasonal
    // COP 2.85 / 0.95.
    #[test]
    fn with_fuel_backup_the_year_flips_at_seasonal_cop_over_efficiency() {
        let sweep = PriceSweep::new(System::HeatPumpWithFuel, &uses(0.0), 0.95, 100.0).unwrap();
        assert!((sweep.annual_flip().unwrap() - 3.0).abs() < 1e-12);
        assert!(sweep.row(2.99).heat_pump_ahead());
        assert!(!sweep.row(3.01).heat_pump_ahead());
    }

    // By hand: 20 000 kWh of fuel and 12 · 50 kWh of charges against 6000 + 1900 + 100 kWh of electricity: 2.575.
    #[test]
    fn with_resistance_backup_the_fuel_accounts_charge_is_saved() {
        let sweep =
            PriceSweep::new(System::HeatPumpWithResistance, &uses(100.0), 0.95, 50.0).unwrap();
        assert!((sweep.annual_flip().unwrap() - 2.575).abs() < 1e-12);
    }

    #[test]
    fn each_temperature_flips_at_its_own_ratio() {
        let sweep = PriceSweep::new(System::HeatPumpWithFuel, &uses(0.0), 0.95, 0.0).unwrap();
        let cop = |t: Celsius| (t >= Celsius(-20.0)).then_some(Cop(2.85 + 0.095 * t.0));
        let flips = sweep.flips(&cop, &[Celsius(-25.0), Celsius(-10.0), Celsius(0.0)]);
        assert_eq!(flips[0].1, None);
        assert!((flips[1].1.unwrap() - 2.0).abs() < 1e-12);
        assert!((flips[2].1.unwrap() - 3.0).abs() < 1e-12);
    }

    #[test]
    fn a_system_without_a_heat_pump_has_no_sweep() {
        assert_eq!(
            PriceSweep::new(System::FuelFurnace, &uses(0.0), 0.95, 0.0),
            None
        );
        assert_eq!(
            PriceSweep::new(System::HeatPumpWithFuel, &uses(0.0), 0.0, 0.0),
            None
        );
    }
}
