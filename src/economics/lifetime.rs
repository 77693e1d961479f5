//! What a system costs over its life, in today's money.

use crate::quantity::Money;

/// What the buyer expects of the years to come. All of it is the user's; nothing is built in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outlook {
    discount_rate: f64,
    growth: Growth,
    years: u16,
}

/// By how much prices grow in a year, as fractions above -1: 0.02 is 2 % a year.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Growth {
    /// Of electricity, its monthly charge with it.
    pub electricity: f64,
    /// Of fuel, its monthly charge with it.
    pub fuel: f64,
    /// Of upkeep.
    pub upkeep: f64,
}

/// What an outlook must hold to.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum OutlookError {
    /// A rate that is not finite or not above -1.
    #[error(
        "found {name} of {found}, expected a finite fraction above -1, such as 0.03 for 3 % a year"
    )]
    Rate {
        /// Which rate.
        name: &'static str,
        /// The number found.
        found: f64,
    },
    /// No year of service.
    #[error("found a service life of 0 years, expected at least 1")]
    NoYears,
}

impl Outlook {
    /// An outlook.
    ///
    /// - `discount_rate`  per year, as a fraction above -1: 0.03 is 3 %. Real where growth is real,
    ///   nominal where it is nominal
    /// - `years`  service life, at least 1
    ///
    /// # Errors
    /// [`OutlookError`] where a rate is not finite or not above -1, or the service life is 0.
    pub fn new(discount_rate: f64, growth: Growth, years: u16) -> Result<Self, OutlookError> {
        let rates = [
            ("a discount rate", discount_rate),
            ("an electricity price growth", growth.electricity),
            ("a fuel price growth", growth.fuel),
            ("an upkeep growth", growth.upkeep),
        ];
        for (name, found) in rates {
            if !found.is_finite() || found <= -1.0 {
                return Err(OutlookError::Rate { name, found });
            }
        }
        if years == 0 {
            return Err(OutlookError::NoYears);
        }
        Ok(Self {
            discount_rate,
            growth,
            years,
        })
    }

    /// Discount rate per year, as a fraction.
    #[must_use]
    pub fn discount_rate(&self) -> f64 {
        self.discount_rate
    }

    /// How prices grow.
    #[must_use]
    pub fn growth(&self) -> Growth {
        self.growth
    }

    /// Service life.
    #[must_use]
    pub fn years(&self) -> u16 {
        self.years
    }
}

/// What is paid once, in year 0.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Investment {
    /// Price of the equipment.
    pub equipment: Money,
    /// Price of installing it, extras included.
    pub installation: Money,
    /// What is paid back by a grant, as a positive amount.
    pub grant: Money,
}

impl Investment {
    /// What the buyer pays: equipment + installation - grant.
    #[must_use]
    pub fn total(self) -> Money {
        self.equipment + self.installation - self.grant
    }
}

/// What the first year of service costs, at today's prices.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct YearlyCost {
    /// Electricity, monthly charges included.
    pub electricity: Money,
    /// Fuel, monthly charges included.
    pub fuel: Money,
    /// Servicing and repair.
    pub upkeep: Money,
}

impl From<super::AnnualCost> for YearlyCost {
    /// A year's energy, without upkeep.
    fn from(cost: super::AnnualCost) -> Self {
        Self {
            electricity: cost.electricity.total(),
            fuel: cost.fuel.total(),
            upkeep: Money::ZERO,
        }
    }
}

impl YearlyCost {
    /// Cost of service year `k`, 1 for the first: the sum over kinds of `C (1 + g)^(k - 1)`.
    #[must_use]
    pub fn in_year(self, k: u16, growth: Growth) -> Money {
        let grown = |cost: Money, rate: f64| cost * (1.0 + rate).powi(i32::from(k) - 1);
        grown(self.electricity, growth.electricity)
            + grown(self.fuel, growth.fuel)
            + grown(self.upkeep, growth.upkeep)
    }
}

/// Net present value of yearly cash flows: `NPV = Σ C_k / (1 + r)^k`, k from 0.
///
/// - `rate`  r, above -1
/// - `flows`  one a year, today's first; money in is positive, money out negative
///
/// # Source
/// Definition, common practice; the first flow is not discounted, as in the `npv` of numpy-financial.
#[must_use]
pub fn net_present_value(rate: f64, flows: &[Money]) -> Money {
    // Horner's rule from the last year back to today.
    flows
        .iter()
        .rev()
        .fold(Money::ZERO, |later, &flow| flow + later / (1.0 + rate))
}

/// Life-cycle cost: `I + Σ C_k / (1 + r)^k`, k from 1 to the service life, each year's bills paid at its end.
#[must_use]
pub fn lifetime_cost(investment: Investment, yearly: YearlyCost, outlook: &Outlook) -> Money {
    let mut flows = vec![investment.total()];
    flows.extend((1..=outlook.years).map(|k| yearly.in_year(k, outlook.growth)));
    net_present_value(outlook.discount_rate, &flows)
}

/// Cash flows of choosing one system over another: the extra investment as money out in year 0, then what each year saves.
///
/// Their net present value is positive where the choice pays; [`simple_payback`](super::simple_payback) and
/// [`discounted_payback`](super::discounted_payback) take them as they are.
///
/// - `chosen`, `instead_of`  investment and first year's cost of each
#[must_use]
pub fn cash_flows(
    chosen: (Investment, YearlyCost),
    instead_of: (Investment, YearlyCost),
    outlook: &Outlook,
) -> Vec<Money> {
    let saved = |k| instead_of.1.in_year(k, outlook.growth) - chosen.1.in_year(k, outlook.growth);
    let mut flows = vec![instead_of.0.total() - chosen.0.total()];
    flows.extend((1..=outlook.years).map(saved));
    flows
}

/// The same payment every year that is worth `present` today: `A = P r / (1 - (1 + r)^-n)`, or `P / n` at r = 0.
///
/// Brings lifetime costs over different service lives to a common footing, the cost of a year. `rate` is above -1, `years` n
/// at least 1.
///
/// # Source
/// Capital recovery, common practice; the `pmt` of numpy-financial with the sign of `present`.
#[must_use]
pub fn annuity(rate: f64, years: u16, present: Money) -> Money {
    let n = f64::from(years);
    if rate == 0.0 {
        return present / n;
    }
    // ln_1p and exp_m1 keep the digits of rates near zero.
    present * (rate / -(-n * rate.ln_1p()).exp_m1())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rates_are_checked_by_name() {
        let growth = Growth {
            fuel: f64::NAN,
            ..Growth::default()
        };
        let error = Outlook::new(0.03, growth, 15).unwrap_err().to_string();
        assert!(
            error.starts_with(
                "found a fuel price growth of NaN, expected a finite fraction above -1"
            )
        );
        assert!(Outlook::new(-1.0, Growth::default(), 15).is_err());
        assert_eq!(
            Outlook::new(0.03, Growth::default(), 0),
            Err(OutlookError::NoYears)
        );
    }

    // By hand: 1000 + 110/1.1 + 121/1.21 = 1200; growth and discount of 10 % cancel after the first year's discount.
    #[test]
    fn growth_begins_after_the_first_year() {
        let growth = Growth {
            electricity: 0.1,
            ..Growth::default()
        };
        let outlook = Outlook::new(0.1, growth, 2).unwrap();
        let investment = Investment {
            equipment: Money(900.0),
            installation: Money(300.0),
            grant: Money(200.0),
        };
        let yearly = YearlyCost {
            electricity: Money(110.0),
            ..YearlyCost::default()
        };
        assert!((lifetime_cost(investment, yearly, &outlook).0 - 1200.0).abs() < 1e-9);
    }

    #[test]
    fn choosing_one_system_is_the_difference_of_the_lifetime_costs() {
        let growth = Growth {
            electricity: 0.02,
            fuel: 0.035,
            upkeep: 0.01,
        };
        let outlook = Outlook::new(0.04, growth, 15).unwrap();
        let system = |equipment, electricity, fuel| {
            let investment = Investment {
                equipment: Money(equipment),
                ..Investment::default()
            };
            let upkeep = Money(100.0);
            (
                investment,
                YearlyCost {
                    electricity: Money(electricity),
                    fuel: Money(fuel),
                    upkeep,
                },
            )
        };
        let (heat_pump, furnace) = (
            system(14_000.0, 1_400.0, 0.0),
            system(6_000.0, 200.0, 1_900.0),
        );
        let flows = cash_flows(heat_pump, furnace, &outlook);
        let value = net_present_value(0.04, &flows);
        let difference = lifetime_cost(furnace.0, furnace.1, &outlook)
            - lifetime_cost(heat_pump.0, heat_pump.1, &outlook);
        assert!((value.0 - difference.0).abs() < 1e-8);
    }

    #[test]
    fn an_annuity_is_worth_its_present() {
        for rate in [0.0, 1e-12, 0.05, -0.02] {
            let payment = annuity(rate, 15, Money(1000.0));
            let mut flows = vec![Money::ZERO];
            flows.extend([payment; 15]);
            assert!(
                (net_present_value(rate, &flows).0 - 1000.0).abs() < 1e-8,
                "at {rate}"
            );
        }
    }
}
