//! Prices, emission factors and source-energy factors that a house file gives, each per kWh and each with its source.

use super::Tariff;

/// A price or factor together with where it comes from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figure {
    /// The number, in the unit of the field that holds it.
    pub value: f64,
    /// Where it comes from, in the user's words; `None`: not stated.
    pub source: Option<String>,
    /// The year it stands for; `None`: not stated.
    pub year: Option<i32>,
}

impl Figure {
    /// A number with its source and year.
    #[must_use]
    pub fn from_source(value: f64, source: impl Into<String>, year: i32) -> Self {
        Self {
            value,
            source: Some(source.into()),
            year: Some(year),
        }
    }
}

impl From<f64> for Figure {
    /// A number whose source is not stated.
    fn from(value: f64) -> Self {
        Self {
            value,
            source: None,
            year: None,
        }
    }
}

/// What energy costs and causes. `None`: not given; nothing is assumed in its place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Energy {
    /// Label of the currency that every price is in, such as an ISO 4217 code.
    pub currency: Option<String>,
    /// Price of a kWh of electricity; what one more kWh costs, where there is a tariff as well.
    pub electricity_price: Option<Figure>,
    /// How the supplier bills electricity, where a flat price does not say it all.
    pub electricity_tariff: Option<Tariff>,
    /// Fixed charge of the electricity account for a month.
    pub electricity_monthly_charge: Option<Figure>,
    /// Price of a kWh of fuel, by its gross calorific value.
    pub fuel_price: Option<Figure>,
    /// How the supplier bills fuel, where a flat price does not say it all.
    pub fuel_tariff: Option<Tariff>,
    /// Fixed charge for a month that having a fuel account adds.
    pub fuel_monthly_charge: Option<Figure>,
    /// Seasonal efficiency of the furnace, above 0 to 1, by the gross calorific value.
    pub fuel_efficiency: Option<Figure>,
    /// Emissions of a kWh of electricity \[g CO₂-equivalent\].
    pub electricity_emissions_g: Option<Figure>,
    /// Emissions of a kWh of fuel \[g CO₂-equivalent\].
    pub fuel_emissions_g: Option<Figure>,
    /// Source energy per kWh of electricity at the house.
    pub electricity_source_factor: Option<Figure>,
    /// Source energy per kWh of fuel at the house.
    pub fuel_source_factor: Option<Figure>,
}

impl Energy {
    /// Whether the house names a fuel: its backup is then a furnace of that efficiency, not electric resistance.
    #[must_use]
    pub fn fuel_backup_efficiency(&self) -> Option<f64> {
        let fuel = [
            &self.fuel_price,
            &self.fuel_emissions_g,
            &self.fuel_source_factor,
        ];
        let named = self.fuel_tariff.is_some() || fuel.into_iter().any(Option::is_some);
        self.fuel_efficiency
            .as_ref()
            .filter(|_| named)
            .map(|efficiency| efficiency.value)
    }

    /// How electricity is billed: its tariff, else its flat price as a tariff; `None` where neither is given.
    #[must_use]
    pub fn electricity_billing(&self) -> Option<Tariff> {
        billing(
            self.electricity_tariff.as_ref(),
            self.electricity_price.as_ref(),
        )
    }

    /// How fuel is billed: its tariff, else its flat price as a tariff; `None` where neither is given.
    #[must_use]
    pub fn fuel_billing(&self) -> Option<Tariff> {
        billing(self.fuel_tariff.as_ref(), self.fuel_price.as_ref())
    }

    /// Every figure that is given, under its name in a house file, in that file's order. Tariffs carry their own.
    #[must_use]
    pub fn figures(&self) -> Vec<(&'static str, &Figure)> {
        [
            ("electricity_price", &self.electricity_price),
            (
                "electricity_monthly_charge",
                &self.electricity_monthly_charge,
            ),
            ("fuel_price", &self.fuel_price),
            ("fuel_monthly_charge", &self.fuel_monthly_charge),
            ("fuel_efficiency", &self.fuel_efficiency),
            ("electricity_emissions_g", &self.electricity_emissions_g),
            ("fuel_emissions_g", &self.fuel_emissions_g),
            ("electricity_source_factor", &self.electricity_source_factor),
            ("fuel_source_factor", &self.fuel_source_factor),
        ]
        .into_iter()
        .filter_map(|(name, figure)| figure.as_ref().map(|figure| (name, figure)))
        .collect()
    }
}

fn billing(tariff: Option<&Tariff>, price: Option<&Figure>) -> Option<Tariff> {
    tariff.cloned().or_else(|| price.cloned().map(Tariff::Flat))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_efficiency_alone_names_no_fuel() {
        let mut energy = Energy {
            fuel_efficiency: Some(0.95.into()),
            ..Energy::default()
        };
        assert_eq!(energy.fuel_backup_efficiency(), None);
        energy.fuel_emissions_g = Some(177.0.into());
        assert_eq!(energy.fuel_backup_efficiency(), Some(0.95));
    }

    #[test]
    fn a_figure_keeps_its_source_and_year() {
        let price = Figure::from_source(0.14, "utility's published schedule (invented)", 2026);
        let energy = Energy {
            electricity_price: Some(price.clone()),
            ..Energy::default()
        };
        assert_eq!(energy.figures(), [("electricity_price", &price)]);
        assert_eq!(energy.electricity_billing(), Some(Tariff::Flat(price)));
        assert_eq!(energy.fuel_billing(), None);
    }
}
