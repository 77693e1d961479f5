//! Declared figures of catalog units against the same units' points.

use overwinter::equipment::{Form, Mode, Model, Point, SourceId, Speed, Unit};
use overwinter::quantity::{Celsius, Kilowatts};
use overwinter::rating::en14825::{CyclingLoss, HeatingClimate, PartLoad};
use overwinter::rating::{Assumption, Comparison, Figure, Outcome, Recomputed, recompute};

use crate::rating_en14825::Certified;

fn model(key: &str) -> Model {
    Model::new(key, Form::Wall, SourceId(1))
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
        .expect("published data")
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
fn certified_units_lie_inside_though_design_load_and_most_auxiliary_powers_are_unknown() {
    let units = average_units();
    assert_eq!(outside(&units, Figure::Scop), []);
    assert_eq!(outside(&units, Figure::Seer), []);
    for unit in &units {
        let found = recompute(unit);
        let scop = comparison(&found, Figure::Scop);
        assert!(scop.lowest < scop.recomputed && scop.recomputed <= scop.highest);
        let said: Vec<String> = scop.assumptions.iter().map(ToString::to_string).collect();
        assert!(said[0].starts_with("heating design load"), "{said:?}");
        assert!(
            said.iter()
                .any(|line| line.starts_with("thermostat-off power not published"))
        );
    }
}

#[test]
fn a_declared_figure_a_tenth_too_high_is_outside_for_every_certified_unit() {
    let mut units = average_units();
    for unit in &mut units {
        unit.model.scop = unit.model.scop.map(|scop| scop * 1.1);
        unit.model.seer = unit.model.seer.map(|seer| seer * 1.1);
    }
    assert_eq!(outside(&units, Figure::Scop).len(), units.len());
    assert_eq!(outside(&units, Figure::Seer).len(), units.len());
}

#[test]
fn a_missing_point_is_named_and_nothing_is_recomputed() {
    let mut unit = average_units().remove(0);
    unit.points
        .retain(|point| !(point.mode == Mode::Heating && point.speed == Speed::Minimum));
    let found = recompute(&unit);
    let Outcome::Missing(missing) = &found[0].outcome else {
        panic!("{:?}", found[0])
    };
    let missing: Vec<String> = missing.iter().map(ToString::to_string).collect();
    assert_eq!(missing, ["heating at 12.0 °C, minimum speed"]);
    assert!(matches!(found[1].outcome, Outcome::Compared(_)));
}

/// A test of Appendix M1 as a catalog point: 1 Btu/h is 0.293 071 070 172 W (NIST SP 811).
fn test_point(
    mode: Mode,
    speed: Speed,
    outdoor_f: f64,
    capacity_btu_h: f64,
    power_w: f64,
) -> Point {
    let capacity = Kilowatts(capacity_btu_h * 1_055.055_852_62 / 3_600_000.0);
    let efficiency = capacity / Kilowatts(power_w / 1000.0);
    point(
        mode,
        speed,
        Celsius::from_fahrenheit(outdoor_f),
        capacity,
        efficiency,
    )
}

/// The inputs of the recorded rating sheet cases `seer2_two_capacity_01` and `hspf2_two_capacity_01` in `data/m1_cases.json`.
#[test]
fn two_capacity_ratings_of_the_rating_sheet_are_recomputed_from_catalog_points() {
    use {Mode::Cooling, Mode::Heating, Speed::Maximum, Speed::Minimum};
    let cooling = Unit {
        model: Model {
            seer2: Some(12.45),
            degradation_cooling: Some(0.24),
            ..model("two capacities, cooling")
        },
        points: vec![
            test_point(Cooling, Maximum, 95.0, 48_000.0, 4300.0),
            test_point(Cooling, Maximum, 82.0, 52_000.0, 3900.0),
            test_point(Cooling, Minimum, 82.0, 30_000.0, 2200.0),
            test_point(Cooling, Minimum, 67.0, 34_000.0, 2500.0),
        ],
    };
    let found = recompute(&cooling);
    let seer2 = comparison(&found, Figure::Seer2);
    assert!(
        (seer2.recomputed / 12.454_035_205_677_5 - 1.0).abs() < 1e-9,
        "{seer2:?}"
    );
    assert!(seer2.inside);

    let heating = Unit {
        model: Model {
            hspf2: Some(8.57),
            degradation_heating: Some(0.18),
            ..model("two capacities, heating")
        },
        points: vec![
            test_point(Cooling, Maximum, 95.0, 30_000.0, 2500.0),
            test_point(Heating, Minimum, 62.0, 22_000.0, 1450.0),
            test_point(Heating, Minimum, 47.0, 18_000.0, 1350.0),
            test_point(Heating, Minimum, 35.0, 14_500.0, 1450.0),
            test_point(Heating, Minimum, 17.0, 10_500.0, 1600.0),
            test_point(Heating, Maximum, 47.0, 25_000.0, 1800.0),
            test_point(Heating, Maximum, 35.0, 21_500.0, 1900.0),
            test_point(Heating, Maximum, 17.0, 19_500.0, 2100.0),
        ],
    };
    let found = recompute(&heating);
    let hspf2 = comparison(&found, Figure::Hspf2);
    // The recorded case has the full credit for defrosting on demand, 1.03.
    assert!(
        (hspf2.highest / 8.569_525_708_179_2 - 1.0).abs() < 1e-9,
        "{hspf2:?}"
    );
    assert!(hspf2.inside);
    assert_eq!(hspf2.assumptions, [Assumption::DefrostCreditUnknown]);
}

/// The inputs of `vs_seer2_v0.93` in `data/m1_cases.json`, from an independent computation.
#[test]
fn a_variable_speed_seer2_is_recomputed_from_catalog_points_and_hspf2_says_what_it_lacks() {
    use {Mode::Cooling, Mode::Heating, Speed::Maximum, Speed::Minimum, Speed::Rated};
    let unit = Unit {
        model: Model {
            seer2: Some(17.7),
            hspf2: Some(9.7),
            ..model("variable speed")
        },
        points: vec![
            test_point(Cooling, Maximum, 95.0, 36_000.0, 3000.0),
            test_point(Cooling, Maximum, 82.0, 38_500.0, 2600.0),
            test_point(Cooling, Rated, 87.0, 24_500.0, 1550.0),
            test_point(Cooling, Minimum, 82.0, 16_000.0, 800.0),
            test_point(Cooling, Minimum, 67.0, 17_500.0, 650.0),
            test_point(Heating, Minimum, 47.0, 13_500.0, 1050.0),
            test_point(Heating, Rated, 47.0, 38_000.0, 3200.0),
            test_point(Heating, Maximum, 47.0, 42_000.0, 3700.0),
            test_point(Heating, Maximum, 17.0, 33_000.0, 3600.0),
        ],
    };
    let found = recompute(&unit);
    let seer2 = comparison(&found, Figure::Seer2);
    assert!(
        (seer2.recomputed / 17.733_716_076_810_2 - 1.0).abs() < 1e-9,
        "{seer2:?}"
    );
    let Outcome::Missing(missing) = &found[0].outcome else {
        panic!("{:?}", found[0])
    };
    let missing: Vec<String> = missing.iter().map(ToString::to_string).collect();
    assert_eq!(
        missing,
        [
            "heating at 16.7 °C, minimum speed",
            "heating at 1.7 °C, rated speed"
        ]
    );
}

#[test]
fn a_seer_without_a_scop_belongs_to_another_procedure() {
    let unit = Unit {
        model: Model {
            seer: Some(20.0),
            ..model("older")
        },
        points: Vec::new(),
    };
    assert_eq!(
        recompute(&unit),
        [Recomputed {
            figure: Figure::Seer,
            declared: 20.0,
            outcome: Outcome::OtherProcedure
        }]
    );
}
