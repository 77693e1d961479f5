//! Laws that must hold for any input, checked with generated cases.

mod cooling;
mod dual_fuel;
mod given;
mod heating;
mod verdicts;

use proptest::test_runner::{Config, RngSeed};

/// So many cases, the same ones at every run: a failure found today is found again tomorrow, and a change that breaks
/// nothing never fails by chance. `LAWS_CASES` multiplies them by a whole number, with a seed of that number.
fn repeatable(cases: u32) -> Config {
    let times: u32 = std::env::var("LAWS_CASES")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(1);
    Config {
        cases: cases * times,
        rng_seed: RngSeed::Fixed(u64::from(times)),
        failure_persistence: None,
        ..Config::default()
    }
}
