//! Break-even identities, facts of the trade, and present values against a reference library.

use overwinter::economics::{
    AnnualCost, Bill, Factors, Growth, Investment, Measure, Outlook, Payback, YearlyCost, annuity,
    break_even, break_even_ratio, cash_flows, discounted_payback, lifetime_cost, net_present_value,
    simple_payback,
};
use overwinter::house::{Energy, Figure};
use overwinter::quantity::{Cop, Money};

fn close(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} instead of {expected}"
    );
}

fn break_even_of(measure: Measure, energy: &Energy) -> f64 {
    measure
        .factors(energy)
        .and_then(Factors::break_even)
        .expect("all factors are given")
        .0
}

// Identity: electricity 0.15 and gas 0.45 a cubic metre of 10.35 kWh (gross; from memory), furnace of 95 %.
// By hand: 0.15 · 0.95 · 10.35 / 0.45 = 3.2775.
#[test]
fn gas_by_the_cubic_metre_breaks_even_at_cop_3_2775() {
    let energy = Energy {
        electricity_price: Some(0.15.into()),
        fuel_price: Some((0.45 / 10.35).into()),
        fuel_efficiency: Some(0.95.into()),
        ..Energy::default()
    };
    close(break_even_of(Measure::Cost, &energy), 3.2775, 1e-12);
}

// Source-energy factors: technical reference "Source Energy" of the government benchmarking programme, August 2023
// (Canada 1.83 and 1.06, United States 2.80 and 1.05: read) and its 2018 edition (Canada 1.96 and 1.01: from memory).
#[test]
fn source_energy_breaks_even_where_published_factors_say() {
    for (electricity, gas, year, expected) in [
        (1.96, 1.01, 2018, 1.844),
        (1.83, 1.06, 2023, 1.640),
        (2.80, 1.05, 2023, 2.533),
    ] {
        let factor = |value| {
            Some(Figure::from_source(
                value,
                "Source Energy technical reference",
                year,
            ))
        };
        let energy = Energy {
            electricity_source_factor: factor(electricity),
            fuel_source_factor: factor(gas),
            fuel_efficiency: Some(0.95.into()),
            ..Energy::default()
        };
        close(
            break_even_of(Measure::SourceEnergy, &energy),
            expected,
            5e-4,
        );
    }
}

// Common practice, no source: electricity at five times the price of gas per kWh needs a COP of 5 against a furnace that
// loses nothing, 4.75 against one of 95 %; so at COP 1.5 to 2 (-25 and -10 °C) gas is the cheaper heat by far.
#[test]
fn at_a_price_ratio_of_five_to_one_gas_is_the_cheaper_heat_in_the_cold() {
    close(break_even(1.0, 5.0).0, 5.0, 1e-12);
    close(break_even(0.95, 5.0).0, 4.75, 1e-12);
    for cop in [1.5, 2.0] {
        assert!(break_even_ratio(0.95, Cop(cop)) < 5.0);
    }
}

// Common practice, no source: COP 1.5 at -25 °C makes heat at two thirds of the price of resistance heat.
#[test]
fn a_cop_of_one_and_a_half_makes_heat_at_two_thirds_of_resistance() {
    let factors = Factors {
        electricity: 0.15,
        fuel: 0.03,
        efficiency: 0.95,
    };
    let resistance = factors.heat_by_heat_pump(Cop(1.0));
    close(
        factors.heat_by_heat_pump(Cop(1.5)) / resistance,
        2.0 / 3.0,
        1e-12,
    );
}

// Common practice, no source: 177 g/kWh of gas against 40 g/kWh of electricity is 4.4 : 1, so that even resistance heat
// emits less than a furnace.
#[test]
fn at_40_against_177_grams_every_cop_emits_less_than_gas() {
    close(1.0 / break_even(1.0, 40.0 / 177.0).0, 4.4, 0.05);
    let energy = Energy {
        electricity_emissions_g: Some(40.0.into()),
        fuel_emissions_g: Some(177.0.into()),
        fuel_efficiency: Some(0.95.into()),
        ..Energy::default()
    };
    let cop = break_even_of(Measure::Emissions, &energy);
    close(cop, 0.95 / 4.425, 1e-12);
    assert!(cop < 1.0);
}

// Common practice, no source: source factors 1.96 and 1.01 put break-even at a COP near 2 against a furnace that loses
// nothing.
#[test]
fn source_factors_of_1_96_and_1_01_break_even_near_cop_2() {
    close(break_even(1.0, 1.96 / 1.01).0, 1.94, 0.005);
}

fn flows(investment: f64, saving: f64, growth: f64, years: i32) -> Vec<Money> {
    let mut flows = vec![Money(-investment)];
    flows.extend((0..years).map(|year| Money(saving * (1.0 + growth).powi(year))));
    flows
}

// Source: npv of numpy-financial 1.0.0 (numpy 2.4.6) on [-I, S, S(1+g), ..., S(1+g)^(n-1)]; paybacks from the first
// sign change of its npv over ever longer beginnings of the flows, straight within the year.
// Columns: rate, I, S, g, n, npv, discounted payback.
#[test]
fn net_present_value_and_payback_agree_with_numpy_financial() {
    for (rate, investment, saving, growth, years, value, payback) in [
        (
            0.04,
            8000.0,
            900.0,
            0.0,
            15,
            2_006.548_688_951_305_8,
            Some(11.205_592_034_187_367),
        ),
        (
            0.03,
            5000.0,
            650.0,
            0.02,
            12,
            2_181.246_934_810_052_6,
            Some(8.205_106_247_508_406),
        ),
        (
            0.07,
            6000.0,
            500.0,
            0.035,
            20,
            940.010_658_471_633,
            Some(16.383_134_411_905_818),
        ),
        (0.0, 3000.0, 400.0, 0.0, 10, 1000.0, Some(7.5)),
        (
            0.1,
            12000.0,
            1000.0,
            0.0,
            18,
            -3_798.587_899_092_144_7,
            None,
        ),
        (
            0.025,
            4200.0,
            700.0,
            -0.03,
            15,
            2_962.423_737_301_857_3,
            Some(7.266_713_011_310_026),
        ),
    ] {
        let flows = flows(investment, saving, growth, years);
        close(net_present_value(rate, &flows).0, value, 1e-8);
        match (discounted_payback(rate, &flows), payback) {
            (Payback::Years(found), Some(expected)) => close(found, expected, 1e-9),
            (found, expected) => assert_eq!((found, expected), (Payback::Never, None)),
        }
    }
}

// Source: the two examples in the documentation of npv in numpy-financial 1.0.0, recomputed with it.
#[test]
fn net_present_value_agrees_with_the_librarys_own_examples() {
    let value = |rate, flows: &[f64]| {
        let flows: Vec<Money> = flows.iter().copied().map(Money).collect();
        net_present_value(rate, &flows).0
    };
    close(
        value(0.281, &[-100.0, 39.0, 59.0, 55.0, 20.0]),
        -0.008_478_591_638_454_88,
        1e-10,
    );
    close(
        value(0.08, &[-40_000.0, 5000.0, 8000.0, 12_000.0, 30_000.0]),
        3_065.222_668_179_525_5,
        1e-8,
    );
}

// Source: nper of numpy-financial 1.0.0: 11.2024 payments of 900 at 4 % pay off 8000. It takes the last part-payment as
// exponential in time where we draw a straight line, so only the whole years agree exactly; the rest within 0.01 year.
#[test]
fn discounted_payback_agrees_with_the_number_of_payments() {
    let Payback::Years(found) = discounted_payback(0.04, &flows(8000.0, 900.0, 0.0, 15)) else {
        panic!("it pays back");
    };
    close(found, 11.202_413_838_492_044, 0.01);
    assert_eq!(
        simple_payback(&flows(8000.0, 900.0, 0.0, 15)),
        Payback::Years(8000.0 / 900.0)
    );
}

// Source: -pmt of numpy-financial 1.0.0. Columns: rate, years, present value, payment.
#[test]
fn annuities_agree_with_numpy_financial() {
    for (rate, years, present, payment) in [
        (0.04, 15, 14_000.0, 1_259.175_405_193_624),
        (0.065, 20, 9500.0, 862.185_755_903_893_3),
        (0.0, 10, 5000.0, 500.0),
        (0.01, 12, -3000.0, -266.546_366_035_025),
    ] {
        close(annuity(rate, years, Money(present)).0, payment, 1e-9);
    }
}

// Source: investment - pv of numpy-financial 1.0.0 for constant bills (rate, years, I, C), and its npv on
// [11000, 1400·1.02^k + 300·1.04^k + 120·1.01^k for k = 0..14] at 4.5 %.
#[test]
fn lifetime_costs_agree_with_numpy_financial() {
    let bought = |total| Investment {
        equipment: Money(total),
        ..Investment::default()
    };
    for (rate, years, investment, bill, expected) in [
        (0.04, 15, 14_000.0, 1650.0, 32_345.339_263_077_41),
        (0.03, 20, 6000.0, 2100.0, 37_242.697_206_956_59),
    ] {
        let outlook = Outlook::new(rate, Growth::default(), years).unwrap();
        let yearly = YearlyCost {
            electricity: Money(bill),
            ..YearlyCost::default()
        };
        close(
            lifetime_cost(bought(investment), yearly, &outlook).0,
            expected,
            1e-8,
        );
    }
    let growth = Growth {
        electricity: 0.02,
        fuel: 0.04,
        upkeep: 0.01,
    };
    let outlook = Outlook::new(0.045, growth, 15).unwrap();
    let energy = AnnualCost {
        electricity: Bill {
            energy: Money(1280.0),
            fixed: Money(120.0),
        },
        fuel: Bill {
            energy: Money(60.0),
            fixed: Money(240.0),
        },
    };
    let yearly = YearlyCost {
        upkeep: Money(120.0),
        ..YearlyCost::from(energy)
    };
    close(
        lifetime_cost(bought(11_000.0), yearly, &outlook).0,
        33_592.214_060_977_065,
        1e-8,
    );
    let nothing = (Investment::default(), YearlyCost::default());
    let flows = cash_flows((bought(11_000.0), yearly), nothing, &outlook);
    close(
        net_present_value(0.045, &flows).0,
        -33_592.214_060_977_065,
        1e-8,
    );
}
