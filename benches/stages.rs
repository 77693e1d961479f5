//! Where the time of a short list goes: the same catalog walked through with more and more of the work done.
//!
//! `cargo bench --bench stages -- CATALOG.db HOUSE.toml` prints seconds, units per second and the share of every stage,
//! on all cores. `scripts/bench` makes the catalog and calls this.

#![expect(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a benchmark prints its figures"
)]

use std::hint::black_box;
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use overwinter::catalog::Catalog;
use overwinter::cooling::CoolingCurves;
use overwinter::criteria::Criteria;
use overwinter::equipment::Unit;
use overwinter::heating::balance_point;
use overwinter::house::{ClimateReference, House};
use overwinter::import::read_house;
use overwinter::quantity::UnitSystem;
use overwinter::study::Brief;

/// Runs of each stage; the fastest counts.
const RUNS: usize = 3;

/// One stage: its name, and the work on a unit up to and with it.
type Stage<'a> = (&'a str, Box<dyn Fn(&Unit) + Sync + 'a>);

fn main() -> ExitCode {
    let paths: Vec<PathBuf> = std::env::args()
        .skip(1)
        .filter(|argument| !argument.starts_with('-'))
        .map(PathBuf::from)
        .collect();
    let [catalog, house] = paths.as_slice() else {
        println!("no benchmark run: give a catalog and a house, as scripts/bench does");
        return ExitCode::SUCCESS;
    };
    match run(catalog.clone(), house.clone()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("error: {error}");
            ExitCode::from(2)
        }
    }
}

fn run(catalog: PathBuf, house: PathBuf) -> Result<(), Box<dyn std::error::Error>> {
    let catalog = Catalog::open(&catalog)?;
    let text = std::fs::read_to_string(&house)?;
    let house: House = read_house(&house.display().to_string(), &text)?;
    let climate = match &house.climate {
        Some(ClimateReference::Catalog(key)) => Some(catalog.climate(key)?),
        _ => None,
    };
    let cooled = house.cooling.is_some();
    let load = house.heating.load;
    let brief = Brief::new(house, climate.as_ref(), Criteria::default(), UnitSystem::Si);
    let mut stages: Vec<Stage<'_>> = vec![
        (
            "read units and points",
            Box::new(|unit| {
                black_box(unit.points.len());
            }),
        ),
        (
            "heating curves, balance point",
            Box::new(|unit| {
                if let Some(curves) = brief.heating_curves(unit) {
                    black_box(balance_point(&load, &curves));
                }
            }),
        ),
    ];
    if climate.is_some() {
        stages.push((
            "heating season",
            Box::new(|unit| {
                let curves = brief.heating_curves(unit);
                if let Some(curves) = &curves {
                    black_box(balance_point(&load, curves));
                }
                black_box(brief.heating_season(unit, curves.as_ref()));
            }),
        ));
    }
    if climate.is_some() && cooled {
        stages.push((
            "cooling season, moisture in every state",
            Box::new(|unit| {
                let curves = brief.heating_curves(unit);
                if let Some(curves) = &curves {
                    black_box(balance_point(&load, curves));
                }
                black_box(brief.heating_season(unit, curves.as_ref()));
                let cooling = CoolingCurves::of(unit);
                black_box(brief.cooling_season(cooling.as_ref(), |_, _| {}));
            }),
        ));
    }
    stages.push((
        "design checks, verdict, reasons",
        Box::new(|unit| drop(black_box(brief.judge(unit)))),
    ));
    print(&catalog, &stages)?;
    Ok(())
}

fn print(catalog: &Catalog, stages: &[Stage<'_>]) -> Result<(), Box<dyn std::error::Error>> {
    let counts = catalog.counts()?;
    println!(
        "{} units, {} points, fastest of {RUNS} runs",
        counts.units, counts.points
    );
    let mut times = Vec::new();
    for (_, work) in stages {
        let mut fastest = Duration::MAX;
        for _ in 0..RUNS {
            let start = Instant::now();
            catalog.judge_all(work)?;
            fastest = fastest.min(start.elapsed());
        }
        times.push(fastest.as_secs_f64());
    }
    let total = times.iter().copied().fold(0.0, f64::max);
    let mut before = 0.0;
    for ((name, _), time) in stages.iter().zip(times) {
        let own = (time - before).max(0.0);
        println!("{own:>8.3} s  {:>5.1} %  {name}", own / total * 100.0);
        before = before.max(time);
    }
    println!(
        "{total:>8.3} s  100.0 %  all, {:.0} units per second",
        counts.units as f64 / total
    );
    Ok(())
}
