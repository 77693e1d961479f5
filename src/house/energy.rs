//! Prices, emission factors and source-energy factors that a house file gives, each per kWh.

/// What energy costs and causes. `None`: not given; nothing is assumed in its place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Energy {
    /// Price of a kWh of electricity.
    pub electricity_price: Option<f64>,
    /// Price of a kWh of fuel, by its gross calorific value.
    pub fuel_price: Option<f64>,
    /// Seasonal efficiency of the furnace, above 0 to 1.
    pub fuel_efficiency: Option<f64>,
    /// Emissions of a kWh of electricity \[g CO₂-equivalent\].
    pub electricity_emissions_g: Option<f64>,
    /// Emissions of a kWh of fuel \[g CO₂-equivalent\].
    pub fuel_emissions_g: Option<f64>,
    /// Source energy per kWh of electricity at the house.
    pub electricity_source_factor: Option<f64>,
    /// Source energy per kWh of fuel at the house.
    pub fuel_source_factor: Option<f64>,
}

impl Energy {
    /// Whether the house names a fuel: its backup is then a furnace of that efficiency, not electric resistance.
    #[must_use]
    pub fn fuel_backup_efficiency(&self) -> Option<f64> {
        if self.fuel_price.is_some()
            || self.fuel_emissions_g.is_some()
            || self.fuel_source_factor.is_some()
        {
            self.fuel_efficiency
        } else {
            None
        }
    }
}
