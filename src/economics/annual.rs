//! What a year of heating, cooling and standby takes in energy, money, emissions and source energy, by heating system.

use super::{Bill, BillError, EnergyProfile, bill};
use crate::house::{Energy, Figure};
use crate::quantity::{KilogramsCo2, KilowattHours, Money};

/// What heats the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum System {
    /// The heat pump, and electric resistance for what it leaves.
    HeatPumpWithResistance,
    /// The heat pump, and a furnace for what it leaves.
    HeatPumpWithFuel,
    /// Electric resistance alone.
    ElectricResistance,
    /// A furnace alone.
    FuelFurnace,
}

impl System {
    /// Every system.
    pub const ALL: [Self; 4] = [
        Self::HeatPumpWithResistance,
        Self::HeatPumpWithFuel,
        Self::ElectricResistance,
        Self::FuelFurnace,
    ];

    /// What a reader calls it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::HeatPumpWithResistance => "heat pump, electric resistance backup",
            Self::HeatPumpWithFuel => "heat pump, fuel backup",
            Self::ElectricResistance => "electric resistance alone",
            Self::FuelFurnace => "fuel furnace alone",
        }
    }

    /// Whether it needs a fuel account.
    #[must_use]
    pub fn burns_fuel(self) -> bool {
        matches!(self, Self::HeatPumpWithFuel | Self::FuelFurnace)
    }

    pub(super) fn has_heat_pump(self) -> bool {
        matches!(self, Self::HeatPumpWithResistance | Self::HeatPumpWithFuel)
    }
}

/// What a house and a heat pump use in a year.
#[derive(Clone, Debug, PartialEq)]
pub struct Uses {
    /// Heat that the house needs.
    pub heating_load: EnergyProfile,
    /// Electricity that the heat pump takes for heating.
    pub heat_pump_electricity: EnergyProfile,
    /// Heat that the heat pump leaves to the backup.
    pub backup_heat: EnergyProfile,
    /// Electricity for cooling. Counted alike for every system, as if the same unit cooled: only heating is compared.
    pub cooling_electricity: EnergyProfile,
    /// Electricity that the heat pump takes while there is no call; counted only for systems that have one.
    pub standby_electricity: EnergyProfile,
}

impl Uses {
    /// Both together, as of two units in one house.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        Self {
            heating_load: self.heating_load.plus(&other.heating_load),
            heat_pump_electricity: self
                .heat_pump_electricity
                .plus(&other.heat_pump_electricity),
            backup_heat: self.backup_heat.plus(&other.backup_heat),
            cooling_electricity: self.cooling_electricity.plus(&other.cooling_electricity),
            standby_electricity: self.standby_electricity.plus(&other.standby_electricity),
        }
    }
}

/// A year of one system. `None`: a price or factor that it needs is not given.
#[derive(Clone, Debug, PartialEq)]
pub struct Annual {
    /// What heats the house.
    pub system: System,
    /// Electricity for heating, cooling and standby.
    pub electricity: KilowattHours,
    /// Fuel, by its gross calorific value; zero for a system without fuel.
    pub fuel: Option<KilowattHours>,
    /// Money.
    pub cost: Option<AnnualCost>,
    /// Emissions.
    pub emissions: Option<KilogramsCo2>,
    /// Source energy.
    pub source_energy: Option<KilowattHours>,
    /// What is not given of what would be needed, by its name in a house file.
    pub not_given: Vec<&'static str>,
}

/// A year's money by account.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AnnualCost {
    /// The electricity account.
    pub electricity: Bill,
    /// The fuel account; nothing for a system without fuel.
    pub fuel: Bill,
}

impl AnnualCost {
    /// Both accounts.
    #[must_use]
    pub fn total(self) -> Money {
        self.electricity.total() + self.fuel.total()
    }
}

/// A year of one system.
///
/// Electricity is the sum of the heat pump's, the resistance heat's (1 kWh of heat = 1 kWh), cooling's and standby's;
/// fuel is heat by fuel / efficiency. Emissions are `(E_el f_el + E_fuel f_fuel) / 1000`, source energy
/// `E_el s_el + E_fuel s_fuel`.
/// The furnace's fan is not counted. A monthly charge that is not given is not charged. The fuel account's charge is paid
/// only by a system that burns fuel; electricity's by every system.
///
/// # Errors
/// [`BillError`] where a tariff asks for months or hours that the uses do not have.
pub fn annual(system: System, uses: &Uses, energy: &Energy) -> Result<Annual, BillError> {
    let mut given = Given {
        energy,
        missing: Vec::new(),
    };
    let electricity = electricity(system, uses);
    let fuel = if system.burns_fuel() {
        let efficiency = given
            .figure("fuel_efficiency")
            .filter(|efficiency| *efficiency > 0.0);
        efficiency.map(|efficiency| heat_by_fuel(system, uses).scaled(1.0 / efficiency))
    } else {
        Some(EnergyProfile::none())
    };
    let electricity_bill = given.electricity_bill(&electricity)?;
    let fuel_bill = if system.burns_fuel() {
        given.fuel_bill(fuel.as_ref())?
    } else {
        Some(Bill::default())
    };

    let mut carried = |electricity_factor, fuel_factor| {
        let by_electricity = given.figure(electricity_factor);
        let by_fuel = if system.burns_fuel() {
            given.figure(fuel_factor)
        } else {
            Some(0.0)
        };
        Some(electricity.total().0 * by_electricity? + fuel.as_ref()?.total().0 * by_fuel?)
    };
    let emissions_g = carried("electricity_emissions_g", "fuel_emissions_g");
    let source_energy = carried("electricity_source_factor", "fuel_source_factor");
    Ok(Annual {
        system,
        electricity: electricity.total(),
        fuel: fuel.as_ref().map(EnergyProfile::total),
        cost: electricity_bill
            .zip(fuel_bill)
            .map(|(electricity, fuel)| AnnualCost { electricity, fuel }),
        emissions: emissions_g.map(|grams| KilogramsCo2(grams / 1000.0)),
        source_energy: source_energy.map(KilowattHours),
        not_given: given.missing,
    })
}

/// All that a system takes from the electricity account.
fn electricity(system: System, uses: &Uses) -> EnergyProfile {
    let heating = match system {
        System::HeatPumpWithResistance => uses.heat_pump_electricity.plus(&uses.backup_heat),
        System::HeatPumpWithFuel => uses.heat_pump_electricity.clone(),
        System::ElectricResistance => uses.heating_load.clone(),
        System::FuelFurnace => EnergyProfile::none(),
    };
    let all = heating.plus(&uses.cooling_electricity);
    if system.has_heat_pump() {
        all.plus(&uses.standby_electricity)
    } else {
        all
    }
}

/// Heat that a system makes from fuel.
fn heat_by_fuel(system: System, uses: &Uses) -> EnergyProfile {
    match system {
        System::HeatPumpWithFuel => uses.backup_heat.clone(),
        System::FuelFurnace => uses.heating_load.clone(),
        System::HeatPumpWithResistance | System::ElectricResistance => EnergyProfile::none(),
    }
}

/// The house's prices and factors, and which of those asked for are not given.
struct Given<'a> {
    energy: &'a Energy,
    missing: Vec<&'static str>,
}

impl Given<'_> {
    fn figure(&mut self, name: &'static str) -> Option<f64> {
        let found = self
            .energy
            .figures()
            .into_iter()
            .find(|(given, _)| *given == name);
        if found.is_none() {
            self.missing.push(name);
        }
        found.map(|(_, figure)| figure.value)
    }

    fn electricity_bill(&mut self, used: &EnergyProfile) -> Result<Option<Bill>, BillError> {
        let Some(tariff) = self.energy.electricity_billing() else {
            self.missing.push("electricity_price");
            return Ok(None);
        };
        bill(
            &tariff,
            used,
            charge(self.energy.electricity_monthly_charge.as_ref()),
        )
        .map(Some)
    }

    fn fuel_bill(&mut self, burnt: Option<&EnergyProfile>) -> Result<Option<Bill>, BillError> {
        let Some(tariff) = self.energy.fuel_billing() else {
            self.missing.push("fuel_price");
            return Ok(None);
        };
        let monthly = charge(self.energy.fuel_monthly_charge.as_ref());
        burnt.map(|burnt| bill(&tariff, burnt, monthly)).transpose()
    }
}

fn charge(monthly: Option<&Figure>) -> Money {
    monthly.map_or(Money::ZERO, |charge| Money(charge.value))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn year(energy: f64) -> EnergyProfile {
        EnergyProfile::Annual(KilowattHours(energy))
    }

    fn uses() -> Uses {
        Uses {
            heating_load: year(20_000.0),
            heat_pump_electricity: year(7_000.0),
            backup_heat: year(1_900.0),
            cooling_electricity: year(800.0),
            standby_electricity: year(100.0),
        }
    }

    fn energy() -> Energy {
        Energy {
            electricity_price: Some(0.15.into()),
            electricity_monthly_charge: Some(10.0.into()),
            fuel_price: Some(0.04.into()),
            fuel_monthly_charge: Some(20.0.into()),
            fuel_efficiency: Some(0.95.into()),
            electricity_emissions_g: Some(40.0.into()),
            fuel_emissions_g: Some(177.0.into()),
            electricity_source_factor: Some(1.96.into()),
            fuel_source_factor: Some(1.01.into()),
            ..Energy::default()
        }
    }

    fn close(value: f64, expected: f64) {
        assert!(
            (value - expected).abs() < 1e-9 * expected.abs().max(1.0),
            "{value} ≠ {expected}"
        );
    }

    // By hand: 7000 + 1900 + 800 + 100 = 9800 kWh; 0.15 · 9800 + 12 · 10 = 1590.
    #[test]
    fn resistance_backup_goes_on_the_electricity_bill() {
        let annual = annual(System::HeatPumpWithResistance, &uses(), &energy()).unwrap();
        close(annual.electricity.0, 9_800.0);
        assert_eq!(annual.fuel, Some(KilowattHours::ZERO));
        close(annual.cost.unwrap().total().0, 1_590.0);
        close(annual.emissions.unwrap().0, 392.0);
        close(annual.source_energy.unwrap().0, 9_800.0 * 1.96);
        assert!(annual.not_given.is_empty());
    }

    // By hand: 1900 / 0.95 = 2000 kWh of fuel; 0.15 · 7900 + 120 + 0.04 · 2000 + 240 = 1625; 316 + 354 = 670 kg.
    #[test]
    fn fuel_backup_adds_a_fuel_account() {
        let annual = annual(System::HeatPumpWithFuel, &uses(), &energy()).unwrap();
        close(annual.electricity.0, 7_900.0);
        close(annual.fuel.unwrap().0, 2_000.0);
        close(annual.cost.unwrap().total().0, 1_625.0);
        close(annual.emissions.unwrap().0, 670.0);
        close(annual.source_energy.unwrap().0, 7_900.0 * 1.96 + 2_020.0);
    }

    // By hand: resistance 20 800 kWh at 0.15 + 120 = 3240; furnace 800 kWh at 0.15 + 120, and 0.04 · 20 000 / 0.95 + 240.
    #[test]
    fn systems_without_a_heat_pump_have_no_standby() {
        let resistance = annual(System::ElectricResistance, &uses(), &energy()).unwrap();
        close(resistance.cost.unwrap().total().0, 3_240.0);
        let furnace = annual(System::FuelFurnace, &uses(), &energy()).unwrap();
        close(furnace.electricity.0, 800.0);
        close(
            furnace.cost.unwrap().total().0,
            240.0 + 800.0 / 0.95 + 240.0,
        );
    }

    #[test]
    fn what_is_not_given_stays_unknown_and_is_named() {
        let given = Energy {
            electricity_price: Some(0.15.into()),
            ..Energy::default()
        };
        let electric = annual(System::ElectricResistance, &uses(), &given).unwrap();
        close(electric.cost.unwrap().total().0, 20_800.0 * 0.15);
        assert_eq!(electric.emissions, None);
        assert_eq!(
            electric.not_given,
            ["electricity_emissions_g", "electricity_source_factor"]
        );
        let furnace = annual(System::FuelFurnace, &uses(), &given).unwrap();
        assert_eq!((furnace.fuel, furnace.cost), (None, None));
        assert_eq!((furnace.emissions, furnace.source_energy), (None, None));
        assert_eq!(furnace.not_given[..2], ["fuel_efficiency", "fuel_price"]);
    }

    #[test]
    fn an_efficiency_of_zero_makes_no_fuel_figure() {
        let broken = Energy {
            fuel_efficiency: Some(0.0.into()),
            ..energy()
        };
        let furnace = annual(System::FuelFurnace, &uses(), &broken).unwrap();
        assert_eq!(
            (furnace.fuel, furnace.cost, furnace.emissions),
            (None, None, None)
        );
    }
}
