//! At which price of electricity over that of fuel the answer between a heat pump and a furnace flips.

use super::{Judged, RunningCosts, UnitSwitchOver};
use crate::climate::Climate;
use crate::economics::{Measure, PriceSweep, SweepRow, SwitchOver, System, Uses};
use crate::equipment::Unit;
use crate::house::House;
use crate::quantity::{Celsius, Cop};

/// One ratio.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PriceRatioRow {
    /// The heat pump with resistance backup against the furnace alone, in kWh of fuel.
    pub year: SweepRow,
    /// Where a furnace beside the heat pump would take over.
    pub switch_over: SwitchOver,
}

/// A unit's answer over the ratio of a kWh of electricity to a kWh of fuel.
///
/// Prices only enter as their ratio, so emission factors and source-energy factors of the same ratio give the same answer,
/// but for the fuel account's monthly charges, which belong to money.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceRatioSweep {
    /// Efficiency of the furnace.
    pub efficiency: f64,
    /// The fuel account's charge for a month in kWh of fuel; `None`: it or the price of fuel is not given, and none counts.
    pub charge_kwh: Option<f64>,
    /// A row for each ratio asked for.
    pub rows: Vec<PriceRatioRow>,
    /// Ratio below which the year with resistance backup is the lesser; `None`: it takes no electricity.
    pub flip_with_resistance: Option<f64>,
    /// Ratio below which the year with a furnace as backup is the lesser.
    pub flip_with_fuel: Option<f64>,
    /// Ratio below which the heat pump is ahead at each outdoor temperature; `None`: locked out or unproven.
    pub flips: Vec<(Celsius, Option<f64>)>,
    /// The house's own ratios, where given, by measure.
    pub own: Vec<(Measure, f64)>,
}

impl PriceRatioSweep {
    /// A unit's sweep; `None` where the house gives no furnace's efficiency, or the unit's season is not known.
    #[must_use]
    pub fn of(
        house: &House,
        climate: &Climate,
        unit: &Unit,
        judged: &Judged,
        ratios: &[f64],
    ) -> Option<Self> {
        let energy = house.energy.as_ref()?;
        let efficiency = energy.fuel_efficiency.as_ref()?.value;
        let uses: Uses = RunningCosts::new(house, climate)?.uses(unit, judged)?;
        let fuel_price = Measure::Cost.fuel(energy).map(|price| price.value);
        let charge_kwh = energy
            .fuel_monthly_charge
            .as_ref()
            .zip(fuel_price.filter(|&price| price > 0.0))
            .map(|(charge, price)| charge.value / price);
        let sweep = |system| PriceSweep::new(system, &uses, efficiency, charge_kwh.unwrap_or(0.0));
        let with_resistance = sweep(System::HeatPumpWithResistance)?;
        let with_fuel = sweep(System::HeatPumpWithFuel)?;
        let beside = UnitSwitchOver::of(house, &climate.states, unit, judged, ratios)?;
        let rows = beside
            .ratios
            .iter()
            .map(|at| PriceRatioRow {
                year: with_resistance.row(at.ratio),
                switch_over: at.switch_over,
            })
            .collect();
        let cop = |outdoor: Celsius| -> Option<Cop> {
            let found = beside.cops.iter().find(|(at, _)| *at == outdoor);
            found.and_then(|(_, cop)| *cop)
        };
        let degrees: Vec<Celsius> = beside
            .cops
            .iter()
            .map(|(outdoor, _)| *outdoor)
            .filter(|outdoor| outdoor.0 % 5.0 == 0.0)
            .collect();
        let own = Measure::ALL
            .into_iter()
            .filter_map(|measure| {
                let (electricity, fuel) = (measure.electricity(energy)?, measure.fuel(energy)?);
                (fuel.value > 0.0).then(|| (measure, electricity.value / fuel.value))
            })
            .collect();
        Some(Self {
            efficiency,
            charge_kwh,
            rows,
            flip_with_resistance: with_resistance.annual_flip(),
            flip_with_fuel: with_fuel.annual_flip(),
            flips: with_fuel.flips(&cop, &degrees),
            own,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::test_house::{climate, house, unit};
    use super::*;
    use crate::criteria::Criteria;
    use crate::house::Energy;
    use crate::quantity::UnitSystem;
    use crate::study::Brief;

    // By hand: 8 kWh of heat, 6 by the heat pump at COP 2, 2 by resistance: 5 kWh of electricity against 8 / 0.8 = 10 of
    // fuel and twelve charges of 5: flips at (10 + 60) / 5 = 14. With a furnace as backup the charge is paid either way:
    // (10 - 2.5) / 3 = 2.5, which is COP / efficiency, as at every temperature.
    #[test]
    fn the_year_flips_where_both_sides_are_equal() {
        let house = House {
            cooling: None,
            moisture: None,
            energy: Some(Energy {
                fuel_price: Some(2.0.into()),
                electricity_price: Some(6.0.into()),
                fuel_monthly_charge: Some(10.0.into()),
                fuel_efficiency: Some(0.8.into()),
                ..Energy::default()
            }),
            ..house(0.0, 0.0)
        };
        let climate = climate(&[(1, 1, -20.0, 0.5)]);
        let unit = unit("a", 6.0, 5.0);
        let brief = Brief::new(
            house.clone(),
            Some(&climate),
            Criteria::default(),
            UnitSystem::Si,
        );
        let judged = brief.judge(&unit);
        let sweep = PriceRatioSweep::of(&house, &climate, &unit, &judged, &[2.0, 15.0]).unwrap();
        assert!((sweep.flip_with_resistance.unwrap() - 14.0).abs() < 1e-9);
        assert!((sweep.flip_with_fuel.unwrap() - 2.5).abs() < 1e-9);
        assert!(sweep.rows[0].year.heat_pump_ahead() && !sweep.rows[1].year.heat_pump_ahead());
        assert_eq!(sweep.rows[0].switch_over, SwitchOver::Always);
        assert_eq!(sweep.rows[1].switch_over, SwitchOver::Never);
        assert_eq!(sweep.own, [(Measure::Cost, 3.0)]);
        assert!((sweep.flips[0].1.unwrap() - 2.5).abs() < 1e-9, "{sweep:?}");
    }
}
