//! Frost: the default where no frost test was made, and the credit for defrosting on demand.

use super::Steady;

/// Shortest and longest interval between defrosts that the credit reckons with \[min\].
const SHORTEST_INTERVAL_MIN: f64 = 90.0;
const LONGEST_INTERVAL_MIN: f64 = 720.0;

/// Capacity and power at 35 °F, frost included, where no frost test was made:
/// `Q35 = 0.90 (Q17 + 0.6 (Q47 - Q17))`, `P35 = 0.985 (P17 + 0.6 (P47 - P17))`.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 4.2 (0.6 is the place of 35 °F between 17 and 47 °F).
#[must_use]
pub fn frosted_at_35_f(at_17_f: Steady, at_47_f: Steady) -> Steady {
    at_17_f.toward(at_47_f, 0.6, 0.6).scaled(0.90, 0.985)
}

/// Credit on HSPF2 for defrosting on demand: `F = 1 + 0.03 (1 - (t - 90)/(tmax - 90))`.
///
/// - `interval_min`: time between defrosts in the frost test \[min\], at least 90 counted.
/// - `longest_min`: longest time between defrosts that the controls allow \[min\], at most 720 counted.
/// - returns 1 to 1.03; 1 where the controls allow no more than 90 minutes.
///
/// # Source
/// 10 CFR 430 Subpart B Appendix M1, section 3.9.2.
#[must_use]
pub fn demand_defrost_credit(interval_min: f64, longest_min: f64) -> f64 {
    let longest = longest_min.min(LONGEST_INTERVAL_MIN);
    if longest <= SHORTEST_INTERVAL_MIN {
        return 1.0;
    }
    let interval = interval_min.clamp(SHORTEST_INTERVAL_MIN, longest);
    1.0 + 0.03 * (1.0 - (interval - SHORTEST_INTERVAL_MIN) / (longest - SHORTEST_INTERVAL_MIN))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_frost_default_takes_a_tenth_of_the_capacity_and_little_of_the_power() {
        // 0.90 (19 500 + 0.6 · 5500) = 20 520; 0.985 (2100 - 0.6 · 300) = 1891.2
        let frosted = frosted_at_35_f(Steady::new(19_500.0, 2100.0), Steady::new(25_000.0, 1800.0));
        assert!((frosted.capacity_btu_h - 20_520.0).abs() < 1e-9);
        assert!((frosted.power_w - 1891.2).abs() < 1e-9);
    }

    #[test]
    fn the_credit_runs_from_three_percent_at_ninety_minutes_to_none_at_the_longest_interval() {
        assert!((demand_defrost_credit(90.0, 720.0) - 1.03).abs() < 1e-12);
        assert!((demand_defrost_credit(405.0, 720.0) - 1.015).abs() < 1e-12);
        assert!((demand_defrost_credit(720.0, 720.0) - 1.0).abs() < 1e-12);
        assert!((demand_defrost_credit(30.0, 900.0) - 1.03).abs() < 1e-12);
        assert_eq!(demand_defrost_credit(100.0, 60.0), 1.0);
    }
}
