//! Declared figures of catalog units against the same units' points.

use overwinter::equipment::{Form, Mode, Model, Point, SourceId, Speed, Unit};
use overwinter::quantity::{Celsius, Kilowatts};
use overwinter::rating::en14825::{CyclingLoss, HeatingClimate, PartLoad};
use overwinter::rating::{Assumption, Comparison, Figure, Outcome, Recomputed, recompute};

use crate::rating_en14825::Certified;

fn model(key: &str) -> Model {
    Model {
        key: key.to_owned(),
        maker: None,
        outdoor_model: None,
        indoor_model: None,
        form: Form::Wall,
        refrigerant: None,
        certified: None,
        hspf: None,
        hspf2: None,
        scop: None,
        seer: None,
        seer2: None,
        operates_to: None,
        airflow: None,
        external_static: None,
        sound_db_a: None,
        circuit_ampacity_a: None,
        standby_w: None,
        degradation_heating: None,
        degradation_cooling: None,
        price: None,
        currency: None,
        source: SourceId(1),
    }
}

fn point(
    mode: Mode,
    speed: Speed,
    outdoor: Celsius,
    capacity: Kilowatts,
    efficiency: f64,
) -> Point {
    Point {
        mode,
        speed,
        outdoor,
        indoor_dry_bulb: None,
        indoor_wet_bulb: None,
        capacity,
        power: capacity / efficiency,
        sensible_heat_ratio: None,
        airflow: None,
        fan_basis: None,
        frost_basis: None,
        source: SourceId(1),
    }
}

/// The speed under which the catalog stores a declared part-load point.
fn speed(mode: Mode, outdoor: Celsius) -> Speed {
    match (mode, outdoor.0) {
        (Mode::Heating, 12.0) | (Mode::Cooling, 20.0) => Speed::Minimum,
        (Mode::Heating, 2.0 | 7.0) | (Mode::Cooling, 25.0 | 30.0) => Speed::Rated,
        _ => Speed::Maximum,
    }
}

/// The certified unit as the catalog holds it: declared figures, standby power, no design load, no other powers.
fn in_catalog(certified: &Certified) -> Unit {
    let points = |mode, declared: Vec<PartLoad>| {
        declared.into_iter().map(move |declared| {
            let outdoor = declared.outdoor;
            point(
                mode,
                speed(mode, outdoor),
                outdoor,
                declared.capacity,
                declared.efficiency,
            )
        })
    };
    let (heating, cooling) = (certified.points("heating"), certified.points("cooling"));
    let coefficient = |points: &[PartLoad]| match points[points.len() - 1].loss {
        CyclingLoss::AirToAir(coefficient) => Some(coefficient),
        CyclingLoss::AirToWater(_) => None,
    };
    Unit {
        model: Model {
            scop: certified.number("scop"),
            seer: certified.number("seer"),
            operates_to: certified.number("operation_limit_c").map(Celsius),
            standby_w: certified.number("cooling_standby_w"),
            degradation_heating: coefficient(&heating),
            degradation_cooling: coefficient(&cooling),
            ..model(certified.key())
        },
        points: points(Mode::Heating, heating)
            .chain(points(Mode::Cooling, cooling))
            .collect(),
    }
}

/// Units certified in the average climate, which is the one that `scop` means.
fn average_units() -> Vec<Unit> {
    let units: Vec<Unit> = Certified::all()
        .iter()
        .filter(|certified| certified.climate() == HeatingClimate::Average)
        .map(in_catalog)
        .collect();
    assert_eq!(units.len(), 19);
    units
}

fn comparison(recomputed: &[Recomputed], figure: Figure) -> &Comparison {
    match &recomputed
        .iter()
        .find(|found| found.figure == figure)
        .unwrap()
        .outcome
    {
        Outcome::Compared(comparison) => comparison,
        other => panic!("{figure:?}: {other:?}"),
    }
}

fn outside(units: &[Unit], figure: Figure) -> Vec<(String, f64)> {
    units
        .iter()
        .filter_map(|unit| {
            let found = recompute(unit);
            let compared = comparison(&found, figure);
            (!compared.inside).then(|| (unit.model.key.clone(), compared.deviation))
        })
        .collect()
}

#[test]
fn certified_units_lie_inside_though_their_design_load_and_most_auxiliary_powers_are_unknown() {
    let units = average_units();
    println!(
        "{:?} {:?}",
        outside(&units, Figure::Scop),
        outside(&units, Figure::Seer)
    );
    for unit in &units {
        let f = recompute(unit);
        println!(
            "{} {:?} {:?}",
            unit.model.key,
            comparison(&f, Figure::Scop),
            comparison(&f, Figure::Seer)
        );
    }
    panic!();
}
