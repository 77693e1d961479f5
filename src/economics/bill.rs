//! What a year's use of energy costs by a tariff.

use super::EnergyProfile;
use crate::house::{Tariff, Tier};
use crate::quantity::{KilowattHours, Money};

/// A year's bill.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bill {
    /// For the energy itself.
    pub energy: Money,
    /// For having the account: twelve monthly charges.
    pub fixed: Money,
}

impl Bill {
    /// All of it.
    #[must_use]
    pub fn total(self) -> Money {
        self.energy + self.fixed
    }
}

/// Why a tariff cannot price an energy profile.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BillError {
    /// A time-of-day tariff meets energy without hours.
    #[error(
        "the {tariff} asks at which hour of the day energy is used, but this energy is known only {known}; \
         use a climate with hourly records, or give a flat price"
    )]
    NoHours {
        /// The tariff's kind.
        tariff: &'static str,
        /// How finely the energy is divided.
        known: &'static str,
    },
    /// A tariff by month meets energy without months.
    #[error(
        "the {tariff} asks how much energy is used in each month, but this energy is known only {known}; \
         use a climate whose records have dates, or give a flat price"
    )]
    NoMonths {
        /// The tariff's kind.
        tariff: &'static str,
        /// How finely the energy is divided.
        known: &'static str,
    },
}

/// The year's bill of one account.
///
/// Flat: `E p`. Tiers: the sum over months and blocks of the kWh that fall into the block times its price. Time of day:
/// the sum over months and hours of the day of `E p`. Fixed: `12 · monthly_charge`. All of an account's use must be in one
/// profile, since tiers do not add.
///
/// - `monthly_charge`  per month; zero where the account is there anyway
///
/// # Errors
/// [`BillError`] where the tariff asks for months or hours that the profile does not have.
pub fn bill(
    tariff: &Tariff,
    profile: &EnergyProfile,
    monthly_charge: Money,
) -> Result<Bill, BillError> {
    let energy = match tariff {
        Tariff::Flat(price) => profile.total().0 * price.value,
        Tariff::Tiered(tiered) => {
            let months = profile.by_month().ok_or(BillError::NoMonths {
                tariff: tariff.kind(),
                known: profile.fineness(),
            })?;
            (1..=12)
                .zip(months)
                .map(|(month, used)| blocks(tiered.tiers(month), used))
                .sum()
        }
        Tariff::TimeOfDay(times) => {
            let EnergyProfile::Hourly(months) = profile else {
                return Err(BillError::NoHours {
                    tariff: tariff.kind(),
                    known: profile.fineness(),
                });
            };
            let mut total = 0.0;
            for (month, day) in (1..=12).zip(months.iter()) {
                for (hour, used) in (1..=24).zip(day) {
                    total += used.0
                        * times
                            .period(month, hour)
                            .map_or(0.0, |period| period.price.value);
                }
            }
            total
        }
    };
    Ok(Bill {
        energy: Money(energy),
        fixed: monthly_charge * 12.0,
    })
}

/// Price of a month's use by rising blocks.
fn blocks(tiers: &[Tier], used: KilowattHours) -> f64 {
    let mut start = 0.0;
    let mut cost = 0.0;
    for tier in tiers {
        let end = tier.up_to_kwh.unwrap_or(f64::INFINITY);
        cost += (used.0.min(end) - start).max(0.0) * tier.price.value;
        start = end;
    }
    cost
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::house::{HoursOfDay, Months, Period, TierSeason, TieredTariff, TimeOfDayTariff};

    const NO_CHARGE: Money = Money::ZERO;

    fn tiered() -> Tariff {
        let tier = |up_to_kwh, price: f64| Tier {
            up_to_kwh,
            price: price.into(),
        };
        let season = |first, last, tiers| TierSeason {
            months: Months::from_to(first, last).unwrap(),
            tiers,
        };
        Tariff::Tiered(
            TieredTariff::new(vec![
                season(11, 4, vec![tier(Some(1000.0), 0.10), tier(None, 0.12)]),
                season(
                    5,
                    10,
                    vec![
                        tier(Some(600.0), 0.10),
                        tier(Some(800.0), 0.12),
                        tier(None, 0.20),
                    ],
                ),
            ])
            .unwrap(),
        )
    }

    fn time_of_day() -> Tariff {
        let period = |name: &str, hours, price: f64| Period {
            name: name.into(),
            months: Months::ALL,
            hours,
            price: price.into(),
        };
        let day = HoursOfDay::from_to(7, 19).unwrap();
        let night = HoursOfDay::from_to(19, 7).unwrap();
        let periods = vec![period("day", day, 0.20), period("night", night, 0.08)];
        Tariff::TimeOfDay(TimeOfDayTariff::new(periods).unwrap())
    }

    #[test]
    fn a_flat_price_takes_any_profile() {
        let flat = Tariff::Flat(0.14.into());
        let bill = bill(
            &flat,
            &EnergyProfile::Annual(KilowattHours(1000.0)),
            Money(20.0),
        )
        .unwrap();
        assert!((bill.energy.0 - 140.0).abs() < 1e-9);
        assert!((bill.fixed.0 - 240.0).abs() < 1e-9);
        assert!((bill.total().0 - 380.0).abs() < 1e-9);
    }

    // By hand: January 1500 kWh = 1000·0.10 + 500·0.12 = 160; July 900 kWh = 600·0.10 + 200·0.12 + 100·0.20 = 104.
    #[test]
    fn tiers_fill_month_by_month() {
        let records = [(1, KilowattHours(1500.0)), (7, KilowattHours(900.0))];
        let profile = EnergyProfile::from_months(records).unwrap();
        let bill = bill(&tiered(), &profile, NO_CHARGE).unwrap();
        assert!((bill.energy.0 - 264.0).abs() < 1e-9);
    }

    // By hand: the hour that ends at 8 is day (7 to 8), the one that ends at 7 is night: 10·0.20 + 10·0.08 = 2.80.
    #[test]
    fn an_hour_is_priced_by_when_it_ends() {
        let records = [(1, 8, KilowattHours(10.0)), (1, 7, KilowattHours(10.0))];
        let profile = EnergyProfile::from_hours(records).unwrap();
        assert!((bill(&time_of_day(), &profile, NO_CHARGE).unwrap().energy.0 - 2.8).abs() < 1e-12);
    }

    #[test]
    fn a_constant_draw_pays_the_mean_of_day_and_night() {
        let profile = EnergyProfile::constant(KilowattHours(876.0));
        let bill = bill(&time_of_day(), &profile, NO_CHARGE).unwrap();
        assert!((bill.energy.0 - 876.0 * 0.14).abs() < 1e-9);
    }

    #[test]
    fn energy_without_hours_is_refused_in_words() {
        let monthly = EnergyProfile::Monthly([KilowattHours(1.0); 12]);
        let error = bill(&time_of_day(), &monthly, NO_CHARGE)
            .unwrap_err()
            .to_string();
        assert_eq!(
            error,
            "the time-of-day tariff asks at which hour of the day energy is used, but this energy is known only by \
             month; use a climate with hourly records, or give a flat price"
        );
        let annual = EnergyProfile::Annual(KilowattHours(1.0));
        let error = bill(&tiered(), &annual, NO_CHARGE).unwrap_err().to_string();
        assert_eq!(
            error,
            "the tariff with tiers by month asks how much energy is used in each month, but this energy is known only \
             for the year as a whole; use a climate whose records have dates, or give a flat price"
        );
    }
}
