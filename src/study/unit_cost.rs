//! A unit's year by every way of heating the house, and what each comes to over its life.

use super::{Judged, RunningCosts};
use crate::climate::Climate;
use crate::economics::{
    Annual, BillError, Investment, Outlook, Payback, System, Uses, YearlyCost, annual, annuity,
    cash_flows, discounted_payback, lifetime_cost, net_present_value, simple_payback,
};
use crate::equipment::Unit;
use crate::house::{Energy, House};
use crate::quantity::Money;

/// What the buyer expects and would pay. `None`: not given; nothing is assumed in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prospect {
    /// Discount rate, growth of prices, service life.
    pub outlook: Outlook,
    /// What the heat pump costs with everything; `None`: its catalog price and `installation`.
    pub heat_pump: Option<Money>,
    /// Price of installing a heat pump of the catalog.
    pub installation: Option<Money>,
    /// What of a heat pump's price is paid back.
    pub grant: Money,
    /// What resistance heaters cost; zero where they are there.
    pub resistance: Option<Money>,
    /// What a furnace costs; zero where it is there.
    pub furnace: Option<Money>,
    /// Upkeep of the heat pump in a year.
    pub upkeep: Money,
    /// Upkeep of a furnace in a year, also where it is the backup.
    pub furnace_upkeep: Money,
}

/// A way of heating over its life.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lifetime {
    /// What is paid at first; `None`: not given.
    pub investment: Option<Money>,
    /// Life-cycle cost in today's money; `None`: the investment or a year's cost is not known.
    pub cost: Option<Money>,
    /// The same as an equal payment every year.
    pub annuity: Option<Money>,
}

/// A heat pump in place of another way of heating.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InsteadOf {
    /// The heat pump with its backup.
    pub chosen: System,
    /// The other way.
    pub other: System,
    /// Net present value; above zero it pays.
    pub net_present_value: Money,
    /// Undiscounted.
    pub payback: Payback,
    /// Discounted.
    pub discounted_payback: Payback,
}

/// A way of heating, for a year and for life.
#[derive(Clone, Debug, PartialEq)]
pub struct SystemCost {
    /// The year.
    pub annual: Annual,
    /// The life; `None` where no prospect was given.
    pub lifetime: Option<Lifetime>,
}

/// A unit with every way of heating beside it. Cooling is the unit's own in all of them, so that only heating differs.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitCost {
    /// The unit's key.
    pub key: String,
    /// The verdict on it.
    pub verdict: &'static str,
    /// The ways: heat pump first.
    pub systems: Vec<SystemCost>,
    /// The heat pump in place of each other way, where both investments and costs are known.
    pub instead_of: Vec<InsteadOf>,
    /// Whether the unit's standby is published; else none is counted.
    pub standby_is_published: bool,
}

/// A house and its climate, ready for the costs of units.
pub struct UnitCosts<'a> {
    running: RunningCosts<'a>,
    energy: &'a Energy,
}

impl<'a> UnitCosts<'a> {
    /// Prepares a house; `None` where it gives neither prices nor factors.
    #[must_use]
    pub fn new(house: &'a House, climate: &Climate) -> Option<Self> {
        Some(Self {
            running: RunningCosts::new(house, climate)?,
            energy: house.energy.as_ref()?,
        })
    }

    /// A unit's costs; `None` where its season is not known.
    ///
    /// # Errors
    /// [`BillError`] where the house's tariff asks for months or hours that the climate does not have.
    pub fn of(
        &self,
        unit: &Unit,
        judged: &Judged,
        prospect: Option<&Prospect>,
    ) -> Result<Option<UnitCost>, BillError> {
        let Some(uses) = self.running.uses(unit, judged) else {
            return Ok(None);
        };
        let systems = self
            .ways(&uses)
            .into_iter()
            .map(|system| {
                let annual = annual(system, &uses, self.energy)?;
                let lifetime = prospect.map(|prospect| self.lifetime(unit, &annual, prospect));
                Ok(SystemCost { annual, lifetime })
            })
            .collect::<Result<Vec<_>, BillError>>()?;
        let instead_of = prospect.map_or_else(Vec::new, |prospect| {
            self.comparisons(unit, &systems, prospect)
        });
        Ok(Some(UnitCost {
            key: unit.model.key.clone(),
            verdict: judged.verdict.name(),
            systems,
            instead_of,
            standby_is_published: unit.model.standby_w.is_some(),
        }))
    }

    /// Fuel as backup is compared only where the house names a fuel and the unit leaves heat to a backup.
    fn ways(&self, uses: &Uses) -> Vec<System> {
        let own = self.running.system(uses);
        System::ALL
            .into_iter()
            .filter(|&system| system != System::HeatPumpWithFuel || own == system)
            .collect()
    }

    fn investment(&self, unit: &Unit, system: System, prospect: &Prospect) -> Option<Investment> {
        let bought = |equipment| Investment {
            equipment,
            ..Investment::default()
        };
        let heat_pump = || match prospect.heat_pump {
            Some(whole) => Some(Investment {
                equipment: whole,
                grant: prospect.grant,
                ..Investment::default()
            }),
            None => {
                // A price in another currency, or in none, is no price in the house's.
                let same = unit.model.currency == self.energy.currency;
                Some(Investment {
                    equipment: Money(unit.model.price.filter(|_| same)?),
                    installation: prospect.installation?,
                    grant: prospect.grant,
                })
            }
        };
        match system {
            System::HeatPumpWithResistance => heat_pump(),
            System::HeatPumpWithFuel => {
                let furnace = prospect.furnace?;
                let pump = heat_pump()?;
                Some(Investment {
                    equipment: pump.equipment + furnace,
                    ..pump
                })
            }
            System::ElectricResistance => prospect.resistance.map(bought),
            System::FuelFurnace => prospect.furnace.map(bought),
        }
    }

    fn yearly(annual: &Annual, prospect: &Prospect) -> Option<YearlyCost> {
        let mut yearly = YearlyCost::from(annual.cost?);
        if matches!(
            annual.system,
            System::HeatPumpWithResistance | System::HeatPumpWithFuel
        ) {
            yearly.upkeep += prospect.upkeep;
        }
        if annual.system.burns_fuel() {
            yearly.upkeep += prospect.furnace_upkeep;
        }
        Some(yearly)
    }

    fn lifetime(&self, unit: &Unit, annual: &Annual, prospect: &Prospect) -> Lifetime {
        let investment = self.investment(unit, annual.system, prospect);
        let outlook = &prospect.outlook;
        let cost = investment
            .zip(Self::yearly(annual, prospect))
            .map(|(investment, yearly)| lifetime_cost(investment, yearly, outlook));
        Lifetime {
            investment: investment.map(Investment::total),
            cost,
            annuity: cost.map(|cost| annuity(outlook.discount_rate(), outlook.years(), cost)),
        }
    }

    fn comparisons(
        &self,
        unit: &Unit,
        systems: &[SystemCost],
        prospect: &Prospect,
    ) -> Vec<InsteadOf> {
        let side = |system: System| {
            let cost = systems.iter().find(|cost| cost.annual.system == system)?;
            Some((
                self.investment(unit, system, prospect)?,
                Self::yearly(&cost.annual, prospect)?,
            ))
        };
        let mut found = Vec::new();
        for chosen in [System::HeatPumpWithResistance, System::HeatPumpWithFuel] {
            for other in [System::ElectricResistance, System::FuelFurnace] {
                let (Some(mine), Some(theirs)) = (side(chosen), side(other)) else {
                    continue;
                };
                let outlook = &prospect.outlook;
                let flows = cash_flows(mine, theirs, outlook);
                let rate = outlook.discount_rate();
                found.push(InsteadOf {
                    chosen,
                    other,
                    net_present_value: net_present_value(rate, &flows),
                    payback: simple_payback(&flows),
                    discounted_payback: discounted_payback(rate, &flows),
                });
            }
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use super::super::test_house::{climate, house, unit};
    use super::*;
    use crate::criteria::Criteria;
    use crate::economics::Growth;
    use crate::quantity::UnitSystem;
    use crate::study::Brief;

    /// 1000 h at -20 °C, one record of 1 h a thousand times as dear: prices per Wh keep the numbers whole.
    fn priced() -> House {
        House {
            cooling: None,
            moisture: None,
            energy: Some(Energy {
                currency: Some("CAD".into()),
                electricity_price: Some(150.0.into()),
                fuel_price: Some(40.0.into()),
                fuel_efficiency: Some(0.8.into()),
                ..Energy::default()
            }),
            ..house(0.0, 0.0)
        }
    }

    fn cost(prospect: Option<&Prospect>) -> UnitCost {
        let house = priced();
        let climate = climate(&[(1, 1, -20.0, 0.5)]);
        let mut unit = unit("a", 6.0, 5.0);
        unit.model.price = Some(9_000.0);
        unit.model.currency = Some("CAD".into());
        let brief = Brief::new(
            house.clone(),
            Some(&climate),
            Criteria::default(),
            UnitSystem::Si,
        );
        let judged = brief.judge(&unit);
        UnitCosts::new(&house, &climate)
            .unwrap()
            .of(&unit, &judged, prospect)
            .unwrap()
            .unwrap()
    }

    // By hand: 8 kWh of heat, 6 by the heat pump at COP 2 for 3 kWh, 2 left. With resistance 5 kWh: 750. With the
    // furnace 3 · 150 + 2 / 0.8 · 40 = 550. Resistance alone 8 · 150 = 1200. Furnace alone 8 / 0.8 · 40 = 400.
    #[test]
    fn every_way_of_heating_has_its_year() {
        let found = cost(None);
        let totals: Vec<f64> = found
            .systems
            .iter()
            .map(|system| system.annual.cost.unwrap().total().0)
            .collect();
        for (total, expected) in totals.iter().zip([750.0, 550.0, 1_200.0, 400.0]) {
            assert!((total - expected).abs() < 1e-9, "{totals:?}");
        }
        assert_eq!(found.verdict, "rejected", "it is 2 kW short");
        assert!(found.instead_of.is_empty() && !found.standby_is_published);
    }

    // By hand, without discount over 20 years: 9000 + 3000 - 1000 + 20 · 750 = 26 000 against 20 · 1200 = 24 000; saved
    // 450 a year, so that 11 000 are paid back in 24.4 years: not within 20.
    #[test]
    fn a_life_adds_the_investment_and_says_whether_it_pays() {
        let prospect = Prospect {
            outlook: Outlook::new(0.0, Growth::default(), 20).unwrap(),
            heat_pump: None,
            installation: Some(Money(3_000.0)),
            grant: Money(1_000.0),
            resistance: Some(Money::ZERO),
            furnace: None,
            upkeep: Money::ZERO,
            furnace_upkeep: Money::ZERO,
        };
        let found = cost(Some(&prospect));
        let lifetime = found.systems[0].lifetime.unwrap();
        assert_eq!(lifetime.investment, Some(Money(11_000.0)));
        assert!((lifetime.cost.unwrap().0 - 26_000.0).abs() < 1e-9);
        assert!((lifetime.annuity.unwrap().0 - 1_300.0).abs() < 1e-9);
        assert_eq!(
            found.systems[1].lifetime.unwrap().cost,
            None,
            "no furnace's price"
        );
        assert_eq!(found.instead_of.len(), 1);
        let compared = found.instead_of[0];
        assert!((compared.net_present_value.0 + 2_000.0).abs() < 1e-9);
        assert_eq!(compared.payback, Payback::Never);
    }
}
