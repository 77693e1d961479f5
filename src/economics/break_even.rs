//! The COP at which a kWh of heat by the heat pump costs, or causes, as much as one by the furnace.

use crate::house::{Energy, Figure, Tariff};
use crate::quantity::Cop;

/// By what the heat pump and the furnace are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Measure {
    /// Money per kWh.
    Cost,
    /// Emissions per kWh \[g CO₂-equivalent\].
    Emissions,
    /// Source energy per kWh.
    SourceEnergy,
}

/// What a kWh of each kind carries by one measure, and how much of the fuel's becomes heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    /// Of a kWh of electricity, in the measure's unit.
    pub electricity: f64,
    /// Of a kWh of fuel, in the measure's unit.
    pub fuel: f64,
    /// Seasonal efficiency of the furnace, above 0.
    pub efficiency: f64,
}

impl Measure {
    /// Every measure.
    pub const ALL: [Self; 3] = [Self::Cost, Self::Emissions, Self::SourceEnergy];

    /// What a reader calls it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Cost => "cost",
            Self::Emissions => "emissions",
            Self::SourceEnergy => "source energy",
        }
    }

    /// What the house gives for a kWh of electricity.
    ///
    /// By cost: `electricity_price`, what one more kWh costs, else the price of a flat tariff. A tariff with tiers or hours
    /// has no single such price, so without `electricity_price` it is `None`.
    #[must_use]
    pub fn electricity(self, energy: &Energy) -> Option<&Figure> {
        match self {
            Self::Cost => marginal(
                &energy.electricity_price,
                energy.electricity_tariff.as_ref(),
            ),
            Self::Emissions => energy.electricity_emissions_g.as_ref(),
            Self::SourceEnergy => energy.electricity_source_factor.as_ref(),
        }
    }

    /// What the house gives for a kWh of fuel, as [`Measure::electricity`] does for electricity.
    #[must_use]
    pub fn fuel(self, energy: &Energy) -> Option<&Figure> {
        match self {
            Self::Cost => marginal(&energy.fuel_price, energy.fuel_tariff.as_ref()),
            Self::Emissions => energy.fuel_emissions_g.as_ref(),
            Self::SourceEnergy => energy.fuel_source_factor.as_ref(),
        }
    }

    /// All that a comparison by this measure needs; `None` where something is not given or the efficiency is not above 0.
    #[must_use]
    pub fn factors(self, energy: &Energy) -> Option<Factors> {
        let factors = Factors {
            electricity: self.electricity(energy)?.value,
            fuel: self.fuel(energy)?.value,
            efficiency: energy.fuel_efficiency.as_ref()?.value,
        };
        (factors.efficiency > 0.0).then_some(factors)
    }
}

impl Factors {
    /// The COP that the heat pump must pass to be ahead: `e · w_electricity / w_fuel`.
    ///
    /// Infinite where only the fuel is free; `None` where both are.
    #[must_use]
    pub fn break_even(self) -> Option<Cop> {
        let ratio = self.electricity / self.fuel;
        (!ratio.is_nan()).then(|| break_even(self.efficiency, ratio))
    }

    /// What a kWh of heat by the furnace carries: `w_fuel / e`.
    #[must_use]
    pub fn heat_by_fuel(self) -> f64 {
        self.fuel / self.efficiency
    }

    /// What a kWh of heat by the heat pump carries at a COP above 0: `w_electricity / COP`. COP 1 is electric resistance.
    #[must_use]
    pub fn heat_by_heat_pump(self, cop: Cop) -> f64 {
        self.electricity / cop.0
    }
}

/// The COP above which the heat pump is ahead of a furnace: `COP > e · r`.
///
/// - `efficiency`  of the furnace, e, above 0 to 1
/// - `ratio`  of a kWh of electricity to a kWh of fuel in price, emissions or source energy, r
///
/// # Source
/// Equality of `w_electricity / COP` and `w_fuel / e`, both per kWh of heat; an identity.
#[must_use]
pub fn break_even(efficiency: f64, ratio: f64) -> Cop {
    Cop(efficiency * ratio)
}

/// The electricity-to-fuel ratio up to which the heat pump is ahead at a COP: `r = COP / e`.
#[must_use]
pub fn break_even_ratio(efficiency: f64, cop: Cop) -> f64 {
    cop.0 / efficiency
}

fn marginal<'a>(price: &'a Option<Figure>, tariff: Option<&'a Tariff>) -> Option<&'a Figure> {
    match (price, tariff) {
        (Some(price), _) | (None, Some(Tariff::Flat(price))) => Some(price),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_factor_that_is_not_given_leaves_the_comparison_unknown() {
        let mut energy = Energy {
            electricity_emissions_g: Some(40.0.into()),
            fuel_emissions_g: Some(177.0.into()),
            ..Energy::default()
        };
        assert_eq!(Measure::Emissions.factors(&energy), None);
        energy.fuel_efficiency = Some(0.95.into());
        let factors = Measure::Emissions.factors(&energy).unwrap();
        assert!((factors.break_even().unwrap().0 - 0.95 * 40.0 / 177.0).abs() < 1e-12);
        assert_eq!(Measure::Cost.factors(&energy), None);
        assert_eq!(Measure::SourceEnergy.factors(&energy), None);
    }

    #[test]
    fn free_energy_is_compared_where_it_can_be() {
        let factors = |electricity, fuel| Factors {
            electricity,
            fuel,
            efficiency: 0.9,
        };
        assert_eq!(factors(0.0, 0.1).break_even(), Some(Cop(0.0)));
        assert_eq!(factors(0.1, 0.0).break_even(), Some(Cop(f64::INFINITY)));
        assert_eq!(factors(0.0, 0.0).break_even(), None);
    }

    #[test]
    fn at_break_even_both_heats_cost_the_same() {
        let factors = Factors {
            electricity: 0.14,
            fuel: 0.035,
            efficiency: 0.95,
        };
        let cop = factors.break_even().unwrap();
        assert!((factors.heat_by_heat_pump(cop) - factors.heat_by_fuel()).abs() < 1e-15);
        assert!((break_even_ratio(0.95, cop) - 4.0).abs() < 1e-12);
    }
}
