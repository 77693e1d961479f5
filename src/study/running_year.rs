//! What a unit's year costs and causes at the house's prices and factors, with the house's own backup.

use super::Judged;
use crate::climate::{Climate, State};
use crate::cooling::{CoolingCurves, CoolingState, Room, cooling_state};
use crate::economics::{Annual, BillError, EnergyProfile, System, Uses, annual};
use crate::equipment::Unit;
use crate::heating::{HeatingAt, HeatingCurves, heating_hour};
use crate::house::{Energy, House, Tariff};
use crate::quantity::{Hours, KilogramsCo2, KilowattHours, Money};

/// A year's money and emissions. `None`: a price, a factor, or the year's electricity is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RunningYear {
    /// Both energy accounts, fixed charges included.
    pub cost: Option<Money>,
    /// Emissions of electricity and fuel.
    pub emissions: Option<KilogramsCo2>,
}

/// A house with its prices and factors, ready for the years of units.
#[derive(Debug)]
pub struct RunningCosts<'a> {
    house: &'a House,
    energy: &'a Energy,
    room: Room,
    system: System,
    /// The year divided as finely as the tariff asks: (month, hour of the day that it ends in, weather).
    /// Empty where only the year's total matters.
    calendar: Vec<(u8, Option<u8>, State)>,
}

impl<'a> RunningCosts<'a> {
    /// Prepares a house; `None` where it gives no prices and factors at all.
    ///
    /// Backup is a furnace where the house names a fuel with its efficiency, else electric resistance. A flat price needs
    /// only the year's total; a tariff by month or by hour needs a climate with such records.
    #[must_use]
    pub fn new(house: &'a House, climate: &Climate) -> Option<Self> {
        let energy = house.energy.as_ref()?;
        let system = if energy.fuel_backup_efficiency().is_some() {
            System::HeatPumpWithFuel
        } else {
            System::HeatPumpWithResistance
        };
        Some(Self {
            house,
            energy,
            room: Room::of(house),
            system,
            calendar: calendar(energy, climate),
        })
    }

    /// What of the house's prices (or, with `emissions`, factors) is not given but needed, by its name in a house file.
    ///
    /// # Errors
    /// [`BillError`] where a tariff asks for months or hours that the climate does not have.
    pub fn not_given(&self, emissions: bool) -> Result<Vec<&'static str>, BillError> {
        let nothing = || self.profile(KilowattHours::ZERO, |_| KilowattHours::ZERO);
        let uses = Uses {
            heating_load: nothing(),
            heat_pump_electricity: nothing(),
            backup_heat: nothing(),
            cooling_electricity: nothing(),
            standby_electricity: EnergyProfile::none(),
        };
        let year = annual(self.system, &uses, self.energy)?;
        let wanted = |name: &&str| {
            let factor = name.ends_with("_emissions_g");
            let source = name.ends_with("_source_factor");
            if emissions {
                factor
            } else {
                !factor && !source
            }
        };
        Ok(year.not_given.into_iter().filter(wanted).collect())
    }

    /// A unit's year.
    ///
    /// # Errors
    /// [`BillError`] where a tariff asks for months or hours that the climate does not have.
    pub fn year(&self, unit: &Unit, judged: &Judged) -> Result<RunningYear, BillError> {
        let Some(uses) = self.uses(unit, judged) else {
            return Ok(RunningYear::default());
        };
        let Annual {
            cost, emissions, ..
        } = self.annual(&uses)?;
        Ok(RunningYear {
            cost: cost.map(crate::economics::AnnualCost::total),
            emissions,
        })
    }

    /// How the house is heated in a year of these uses: the furnace, and its account, only where it has heat to make.
    #[must_use]
    pub fn system(&self, uses: &Uses) -> System {
        if uses.backup_heat.total() > KilowattHours::ZERO {
            self.system
        } else {
            System::HeatPumpWithResistance
        }
    }

    /// A year of these uses with the house's own backup. Standby is counted; a fuel account is charged only where the
    /// backup burns fuel and is called on.
    ///
    /// # Errors
    /// [`BillError`] where a tariff asks for months or hours that the uses do not have.
    pub fn annual(&self, uses: &Uses) -> Result<Annual, BillError> {
        annual(self.system(uses), uses, self.energy)
    }

    /// The year's uses, as finely divided as the tariffs ask; `None` where a season is not known.
    #[must_use]
    pub fn uses(&self, unit: &Unit, judged: &Judged) -> Option<Uses> {
        let winter = judged.heating.season?;
        let cooling = match &judged.cooling {
            None => KilowattHours::ZERO,
            Some(cooling) => cooling.season?.known?.electricity,
        };
        let line = &self.house.heating.load;
        let curves = HeatingCurves::of(unit, self.house.indoor.heating);
        let heating = |state: &State| {
            let at = curves
                .as_ref()
                .map_or(HeatingAt::Unproven, |curves| curves.at(state.outdoor));
            let degradation = curves.as_ref().map_or(0.0, |curves| curves.degradation);
            heating_hour(line.at(state.outdoor), &at, degradation)
        };
        let cooling_curves = CoolingCurves::of(unit);
        Some(Uses {
            heating_load: self.profile(winter.load, |state| line.at(state.outdoor) * state.hours),
            heat_pump_electricity: self.profile(winter.electricity, |state| {
                heating(state).input * state.hours
            }),
            backup_heat: self.profile(winter.backup, |state| heating(state).backup * state.hours),
            cooling_electricity: self.profile(cooling, |state| {
                self.cooling_input(cooling_curves.as_ref(), state)
            }),
            standby_electricity: EnergyProfile::constant(
                judged.standby.unwrap_or(KilowattHours::ZERO),
            ),
        })
    }

    fn cooling_input(&self, curves: Option<&CoolingCurves>, state: &State) -> KilowattHours {
        let load = self
            .house
            .cooling
            .filter(|cooling| state.outdoor > cooling.load.zero_load_outdoor)
            .map(|cooling| cooling.load.at(state.outdoor));
        let (Some(load), Some(curves)) = (load, curves) else {
            return KilowattHours::ZERO;
        };
        let moisture = self.house.moisture.as_ref();
        match cooling_state(load, state, curves, &self.room, moisture) {
            CoolingState::Runs(operation) => operation.delivery.input * state.hours,
            CoolingState::Unproven | CoolingState::UnknownCoil => KilowattHours::ZERO,
        }
    }

    /// A use whose year adds up to `total`, divided by month and hour as `part` of each stretch of weather says.
    fn profile(
        &self,
        total: KilowattHours,
        part: impl Fn(&State) -> KilowattHours,
    ) -> EnergyProfile {
        if self.calendar.is_empty() {
            return EnergyProfile::Annual(total);
        }
        let hourly = self.calendar.iter().all(|(_, hour, _)| hour.is_some());
        let parts: Vec<KilowattHours> = self
            .calendar
            .iter()
            .map(|(_, _, state)| part(state))
            .collect();
        let sum: KilowattHours = parts.iter().copied().sum();
        if sum <= KilowattHours::ZERO {
            return EnergyProfile::constant(total);
        }
        // The season's total counts; the records only say when. They differ by what grouping into states averages out.
        let scale = total / sum;
        let placed = self.calendar.iter().zip(parts);
        let profile = if hourly {
            EnergyProfile::from_hours(
                placed
                    .map(|((month, hour, _), energy)| (*month, hour.unwrap_or(1), energy * scale)),
            )
        } else {
            EnergyProfile::from_months(placed.map(|((month, ..), energy)| (*month, energy * scale)))
        };
        profile.unwrap_or(EnergyProfile::Annual(total))
    }
}

/// The climate as finely divided as the house's tariffs ask; empty where the year's total will do, or is all there is.
fn calendar(energy: &Energy, climate: &Climate) -> Vec<(u8, Option<u8>, State)> {
    let tariffs = [&energy.electricity_tariff, &energy.fuel_tariff];
    let asks = |kind: &dyn Fn(&Tariff) -> bool| {
        tariffs
            .iter()
            .any(|tariff| tariff.as_ref().is_some_and(kind))
    };
    let by_hour = asks(&|tariff| matches!(tariff, Tariff::TimeOfDay(_)));
    let by_month = asks(&|tariff| matches!(tariff, Tariff::Tiered(_)));
    if by_hour && !climate.hourly.is_empty() {
        return by_month_and_hour(climate);
    }
    if by_hour || by_month {
        return climate
            .monthly
            .iter()
            .map(|monthly| (monthly.month, None, monthly.state))
            .collect();
    }
    Vec::new()
}

/// The records grouped into states within each month and hour of the day.
fn by_month_and_hour(climate: &Climate) -> Vec<(u8, Option<u8>, State)> {
    let mut parts = Vec::new();
    for month in 1..=12 {
        for hour in 1..=24 {
            let here = climate
                .hourly
                .iter()
                .filter(|record| record.month == month && record.hour == hour)
                .filter(|record| record.hours > Hours::ZERO);
            let states = crate::climate::group(
                here.map(|record| (record.hours, record.outdoor, record.humidity_ratio)),
            );
            parts.extend(states.into_iter().map(|state| (month, Some(hour), state)));
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::criteria::Criteria;
    use crate::house::{
        HoursOfDay, Months, Period, Tier, TierSeason, TieredTariff, TimeOfDayTariff,
    };
    use crate::quantity::UnitSystem;
    use crate::study::Brief;
    use crate::study::test_house::{climate, house, unit};

    // Load 4 kW at 0 °C and 6 kW at -10 °C; at COP 2 that is 2 and 3 kWh an hour.
    const HOURS: [(u8, u8, f64, f64); 3] =
        [(1, 3, -10.0, 1.0), (1, 12, 0.0, 3.0), (2, 12, 0.0, 3.0)];

    fn year(energy: Energy) -> Result<RunningYear, BillError> {
        let mut house = house(10.0, 0.1);
        house.energy = Some(energy);
        let climate = climate(&HOURS);
        let unit = unit("a", 9.0, 5.0);
        let brief = Brief::new(
            house.clone(),
            Some(&climate),
            Criteria::default(),
            UnitSystem::Si,
        );
        let judged = brief.judge(&unit);
        RunningCosts::new(&house, &climate)
            .unwrap()
            .year(&unit, &judged)
    }

    fn cost(energy: Energy) -> f64 {
        year(energy).unwrap().cost.unwrap().0
    }

    fn time_of_day(night: f64) -> Tariff {
        let period = |name: &str, hours, price: f64| Period {
            name: name.into(),
            months: Months::ALL,
            hours,
            price: price.into(),
        };
        let (night_hours, day_hours) = (
            HoursOfDay::from_to(22, 6).unwrap(),
            HoursOfDay::from_to(6, 22).unwrap(),
        );
        Tariff::TimeOfDay(
            TimeOfDayTariff::new(vec![
                period("night", night_hours, night),
                period("day", day_hours, 0.20),
            ])
            .unwrap(),
        )
    }

    // By hand: 3 + 2 + 2 = 7 kWh.
    #[test]
    fn a_flat_price_needs_only_the_years_total() {
        let flat = Energy {
            electricity_price: Some(0.20.into()),
            electricity_emissions_g: Some(40.0.into()),
            ..Energy::default()
        };
        assert!((cost(flat.clone()) - 1.4).abs() < 1e-12);
        assert!((year(flat).unwrap().emissions.unwrap().0 - 0.28).abs() < 1e-12);
    }

    // By hand: the 3 kWh of the hour that ends at 3 are bought at night: 3 · 0.10 + 4 · 0.20.
    #[test]
    fn a_tariff_by_the_hour_prices_each_hours_own_weather() {
        let tariff = |night| Energy {
            electricity_tariff: Some(time_of_day(night)),
            ..Energy::default()
        };
        assert!((cost(tariff(0.20)) - 1.4).abs() < 1e-12);
        assert!((cost(tariff(0.10)) - 1.1).abs() < 1e-12);
    }

    // By hand: January 5 kWh, 4 at 0.10 and 1 at 0.30; February 2 kWh at 0.10.
    #[test]
    fn a_tariff_in_blocks_prices_each_month() {
        let tier = |up_to_kwh, price: f64| Tier {
            up_to_kwh,
            price: price.into(),
        };
        let tiers = TieredTariff::new(vec![TierSeason {
            months: Months::ALL,
            tiers: vec![tier(Some(4.0), 0.10), tier(None, 0.30)],
        }])
        .unwrap();
        let energy = Energy {
            electricity_tariff: Some(Tariff::Tiered(tiers)),
            ..Energy::default()
        };
        assert!((cost(energy) - 0.9).abs() < 1e-12);
    }

    // By hand: 7 kWh of electricity at 0.20, and twelve charges of 14 only where the furnace has heat to make.
    #[test]
    fn a_fuel_account_is_paid_only_where_the_furnace_is_called_on() {
        let fuel = Energy {
            electricity_price: Some(0.20.into()),
            fuel_price: Some(0.0.into()),
            fuel_efficiency: Some(0.9.into()),
            fuel_monthly_charge: Some(14.0.into()),
            ..Energy::default()
        };
        let of = |heating: f64| {
            let mut house = house(10.0, 0.1);
            house.energy = Some(fuel.clone());
            let climate = climate(&HOURS);
            let unit = unit("a", heating, 5.0);
            let brief = Brief::new(
                house.clone(),
                Some(&climate),
                Criteria::default(),
                UnitSystem::Si,
            );
            let judged = brief.judge(&unit);
            let costs = RunningCosts::new(&house, &climate).unwrap();
            costs.year(&unit, &judged).unwrap().cost.unwrap().0
        };
        assert!((of(9.0) - 1.4).abs() < 1e-12);
        // 5 kW leave 1 kWh of the coldest hour to the furnace: 2.5 + 2 + 2 kWh of electricity.
        assert!((of(5.0) - (1.3 + 168.0)).abs() < 1e-9);
    }

    #[test]
    fn what_is_missing_is_named_by_what_is_asked() {
        let mut house = house(10.0, 0.1);
        house.energy = Some(Energy {
            fuel_price: Some(0.04.into()),
            fuel_efficiency: Some(0.95.into()),
            ..Energy::default()
        });
        let climate = climate(&HOURS);
        let costs = RunningCosts::new(&house, &climate).unwrap();
        assert_eq!(costs.not_given(false).unwrap(), ["electricity_price"]);
        assert_eq!(
            costs.not_given(true).unwrap(),
            ["electricity_emissions_g", "fuel_emissions_g"]
        );
    }
}
