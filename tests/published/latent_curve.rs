//! Part-load latent degradation against values computed from the source's equations by an independent program.

use overwinter::cooling::{LatentDegradation, PartLoadParameters, latent_multiplier};

struct Row {
    set: String,
    parameters: PartLoadParameters,
    steady_ratio: f64,
    run_fraction: f64,
    multiplier: f64,
    effective_ratio: f64,
}

/// Source: Henderson and Rengarajan 1996, ASHRAE Transactions 102(1), in the form of a public building-simulation engine,
/// solved to 1e-12. Four parameter sets; three steady sensible heat ratios; 20 run-time fractions.
fn rows() -> Vec<Row> {
    let text = include_str!("data/latent_curve.csv");
    let rows: Vec<Row> = text
        .lines()
        .skip(1)
        .map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |at: usize| cells[at].parse::<f64>().expect("published data");
            Row {
                set: cells[0].to_owned(),
                parameters: PartLoadParameters {
                    wetting_time: number(1),
                    evaporation_ratio: number(2),
                    cycles_per_hour: number(3),
                    time_constant: number(4),
                },
                steady_ratio: number(5),
                run_fraction: number(6),
                multiplier: number(9),
                effective_ratio: number(10),
            }
        })
        .collect();
    assert_eq!(rows.len(), 240);
    rows
}

/// The table is printed to six decimals.
const PRINTED: f64 = 0.6e-6;

#[test]
fn the_latent_multiplier_agrees_for_all_four_parameter_sets() {
    let mut sets: Vec<String> = Vec::new();
    for row in rows() {
        let found = latent_multiplier(row.run_fraction, row.parameters);
        assert!(
            (found - row.multiplier).abs() < PRINTED,
            "{} at {}: {found} instead of {}",
            row.set,
            row.run_fraction,
            row.multiplier
        );
        sets.push(row.set);
    }
    sets.dedup();
    sets.sort();
    sets.dedup();
    assert_eq!(sets.len(), 4, "{sets:?}");
}

/// `SHR_eff = 1 - (1 - SHR_steady) L`, the sensible heat ratio that is left at part load.
#[test]
fn the_sensible_heat_ratio_at_part_load_agrees() {
    for row in rows() {
        let latent = (1.0 - row.steady_ratio) * latent_multiplier(row.run_fraction, row.parameters);
        let found = 1.0 - latent;
        assert!(
            (found - row.effective_ratio).abs() < PRINTED,
            "{} at {}: {found} instead of {}",
            row.set,
            row.run_fraction,
            row.effective_ratio
        );
    }
}

/// The set that this program uses: nothing is left below a run-time fraction of 0.562 (the same source).
#[test]
fn with_the_set_in_use_drying_vanishes_below_a_run_fraction_of_0_562() {
    let curve = LatentDegradation::default_curve();
    assert_eq!(curve.at(0.561), 0.0);
    assert!(curve.at(0.563) > 0.0);
    for row in rows()
        .iter()
        .filter(|row| row.parameters == PartLoadParameters::DEFAULT)
    {
        assert!((curve.at(row.run_fraction) - row.multiplier).abs() < PRINTED);
    }
}
