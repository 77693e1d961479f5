//! How long it takes until what a choice saves has paid what it cost more.

use crate::quantity::Money;

/// When the sum of the cash flows is no longer below zero for the first time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Payback {
    /// Nothing to pay back: the choice costs no more to begin with.
    AtOnce,
    /// After so many years; within a year the money is taken as coming in evenly.
    Years(f64),
    /// Not within the service life.
    Never,
}

/// Simple payback: the time at which `Σ C_k`, undiscounted, reaches zero; investment / saving where
/// every year saves the same.
///
/// - `flows`  one a year, today's first, as [`cash_flows`](super::cash_flows) gives them
///
/// # Source
/// Definition, common practice.
#[must_use]
pub fn simple_payback(flows: &[Money]) -> Payback {
    discounted_payback(0.0, flows)
}

/// Discounted payback: the time at which `Σ C_k / (1 + r)^k` reaches zero.
///
/// Later years may turn it negative again where savings do; the net present value is the judge of the whole.
///
/// - `rate`  r, above -1
/// - `flows`  one a year, today's first
///
/// # Source
/// Definition, common practice; straight line within the year of payback.
#[must_use]
pub fn discounted_payback(rate: f64, flows: &[Money]) -> Payback {
    let Some((&today, years)) = flows.split_first() else {
        return Payback::AtOnce;
    };
    if today >= Money::ZERO {
        return Payback::AtOnce;
    }
    let (mut sum, mut discount, mut elapsed) = (today, 1.0, 0.0);
    for &flow in years {
        discount /= 1.0 + rate;
        let present = flow * discount;
        if sum + present >= Money::ZERO {
            return Payback::Years(elapsed + (-sum) / present);
        }
        sum += present;
        elapsed += 1.0;
    }
    Payback::Never
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flows(investment: f64, saving: f64, years: usize) -> Vec<Money> {
        let mut flows = vec![Money(-investment)];
        flows.extend(vec![Money(saving); years]);
        flows
    }

    // By hand: 5000 / 800 = 6.25 years.
    #[test]
    fn equal_savings_pay_back_in_investment_over_saving() {
        assert_eq!(
            simple_payback(&flows(5000.0, 800.0, 15)),
            Payback::Years(6.25)
        );
        assert_eq!(
            simple_payback(&flows(4000.0, 800.0, 5)),
            Payback::Years(5.0)
        );
    }

    #[test]
    fn what_does_not_pay_within_the_life_never_does() {
        assert_eq!(simple_payback(&flows(5000.0, 800.0, 6)), Payback::Never);
        assert_eq!(simple_payback(&flows(5000.0, -10.0, 15)), Payback::Never);
        assert_eq!(
            discounted_payback(0.2, &flows(5000.0, 800.0, 50)),
            Payback::Never
        );
    }

    #[test]
    fn a_choice_that_costs_no_more_is_paid_at_once() {
        assert_eq!(simple_payback(&flows(0.0, -5.0, 3)), Payback::AtOnce);
        assert_eq!(simple_payback(&[]), Payback::AtOnce);
    }
}
