//! The frost default of Appendix M1 against the program's own heating curve.

use overwinter::equipment::{Curve, SevereSide};
use overwinter::heating::HeatPerformance;
use overwinter::quantity::{Celsius, Kilowatts};
use overwinter::rating::m1::{Steady, frosted_at_35_f};

/// 10 CFR 430 Subpart B Appendix M1: without frost, capacity and power at 35 °F lie on the straight line between 17 and
/// 47 °F, 0.6 of the way; frost then leaves 0.90 of the capacity and 0.985 of the power.
#[test]
fn capacity_and_power_at_35_f_lie_on_the_straight_line_between_17_and_47_f() {
    let performance = |capacity, power| HeatPerformance {
        capacity: Kilowatts(capacity),
        power: Kilowatts(power),
    };
    let (at_17, at_47) = (performance(5.6, 2.1), performance(8.3, 2.4));
    let curve = Curve::through(
        SevereSide::Cold,
        vec![
            (Celsius::from_fahrenheit(17.0), at_17),
            (Celsius::from_fahrenheit(47.0), at_47),
        ],
    )
    .expect("published data");
    let at_35 = curve
        .at(Celsius::from_fahrenheit(35.0))
        .expect("published data");
    // 5.6 + 0.6 · 2.7 and 2.1 + 0.6 · 0.3
    assert!((at_35.capacity.0 - 7.22).abs() < 1e-9);
    assert!((at_35.power.0 - 2.28).abs() < 1e-9);

    let steady = |at: HeatPerformance| Steady::from_kilowatts(at.capacity, at.power);
    let frosted = frosted_at_35_f(steady(at_17), steady(at_47));
    let straight = steady(at_35);
    assert!((frosted.capacity_btu_h / straight.capacity_btu_h - 0.90).abs() < 1e-9);
    assert!((frosted.power_w / straight.power_w - 0.985).abs() < 1e-9);
}
