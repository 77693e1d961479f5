//! Generated houses, climates and units. All of them are invented.

use overwinter::climate::{Climate, DesignTemperatures, State};
use overwinter::equipment::{Form, Mode, Model, Point, SourceId, Speed, Unit};
use overwinter::house::{
    Cooling, CoolingLoadLine, Fan, Heating, HeatingLoadLine, House, Indoor, Moisture,
};
use overwinter::quantity::{
    Celsius, Hours, HumidityRatio, KilogramsPerHour, Kilowatts, LitresPerSecond, Metres,
};
use proptest::prelude::*;

const INVENTED: SourceId = SourceId(1);

pub fn point(mode: Mode, speed: Speed, outdoor: f64, capacity: f64, cop: f64) -> Point {
    let place = (mode, speed, Celsius(outdoor));
    Point::new(
        place,
        Kilowatts(capacity),
        Kilowatts(capacity / cop),
        INVENTED,
    )
}

pub fn unit(key: &str, points: Vec<Point>) -> Unit {
    Unit {
        model: Model::new(key, Form::Ducted, INVENTED),
        points,
    }
}

/// Heating points of any shape: two to five temperatures, capacity rising and falling as it likes.
pub fn heating_points(speed: Speed) -> impl Strategy<Value = Vec<Point>> {
    let steps = prop::collection::vec((1.0..12.0, 1.0..14.0, 1.1..5.0), 2..6);
    (-32.0..5.0, steps).prop_map(move |(coldest, steps)| {
        let mut outdoor: f64 = coldest;
        let mut points = Vec::new();
        for (step, capacity, cop) in steps {
            points.push(point(Mode::Heating, speed, outdoor, capacity, cop));
            outdoor += step;
        }
        points
    })
}

/// The share of the maximum's capacity, the sensible heat ratio, the airflow per capacity and the COP of a speed.
type CoolingSpeed = (f64, f64, f64, f64);

fn cooling_points(
    speed: Speed,
    capacity: f64,
    droop: f64,
    (share, ratio, flow, cop): CoolingSpeed,
) -> Vec<Point> {
    [(20.0, 1.0 + droop), (35.0, 1.0), (42.0, 1.0 - droop / 2.0)]
        .into_iter()
        .map(|(outdoor, falls)| {
            let capacity = capacity * share * falls;
            Point {
                sensible_heat_ratio: Some(ratio),
                airflow: Some(LitresPerSecond(flow * capacity)),
                ..point(Mode::Cooling, speed, outdoor, capacity, cop)
            }
        })
        .collect()
}

fn cooling_speed(share: std::ops::Range<f64>) -> impl Strategy<Value = CoolingSpeed> {
    (share, 0.70..0.80, 50.0..58.0, 2.5..5.0)
}

/// Cooling points at one to three speeds, each with a coil of its own.
pub fn cooling_unit() -> impl Strategy<Value = Unit> {
    (
        3.0..14.0,
        0.0..0.3,
        cooling_speed(1.0..1.001),
        prop::option::of(cooling_speed(0.15..0.5)),
        prop::option::of(cooling_speed(0.55..0.85)),
        0.0..0.3,
    )
        .prop_map(|(capacity, droop, maximum, minimum, rated, degradation)| {
            let mut points = cooling_points(Speed::Maximum, capacity, droop, maximum);
            if let Some(minimum) = minimum {
                points.extend(cooling_points(Speed::Minimum, capacity, droop, minimum));
                points.extend(
                    rated
                        .map(|rated| cooling_points(Speed::Rated, capacity, droop, rated))
                        .into_iter()
                        .flatten(),
                );
            }
            let mut unit = unit("cooling", points);
            unit.model.degradation_cooling = Some(degradation);
            unit
        })
}

/// One speed, and the same with a minimum: the sensible heat ratio and airflow per capacity are the same at both.
pub fn single_speed_and_turndown() -> impl Strategy<Value = (Unit, Unit)> {
    (3.0..14.0, 0.0..0.3, cooling_speed(1.0..1.001), 0.15..0.8).prop_map(
        |(capacity, droop, maximum, turndown)| {
            let single = cooling_points(Speed::Maximum, capacity, droop, maximum);
            let minimum = (turndown, maximum.1, maximum.2, maximum.3);
            let mut both = single.clone();
            both.extend(cooling_points(Speed::Minimum, capacity, droop, minimum));
            (unit("single", single), unit("turndown", both))
        },
    )
}

/// A unit for winter and summer, with whatever published and whatever not.
pub fn any_unit() -> impl Strategy<Value = Unit> {
    (
        heating_points(Speed::Maximum),
        prop::option::of(heating_points(Speed::Minimum)),
        prop::option::of(heating_points(Speed::Rated)),
        prop::option::of(cooling_unit()),
        prop::option::of(-30.0..-5.0),
        prop::option::of(2000.0..9000.0),
    )
        .prop_map(|(maximum, minimum, rated, cooling, limit, price)| {
            let mut points = maximum;
            points.extend(minimum.into_iter().flatten());
            points.extend(rated.into_iter().flatten());
            points.extend(cooling.into_iter().flat_map(|unit| unit.points));
            let mut unit = unit("any", points);
            unit.model.operates_to = limit.map(Celsius);
            unit.model.price = price;
            unit
        })
}

pub fn heating_load() -> impl Strategy<Value = HeatingLoadLine> {
    (-25.0..-5.0, 2.0..14.0, 10.0..20.0).prop_map(|(design, load, zero)| HeatingLoadLine {
        design_outdoor: Celsius(design),
        design_load: Kilowatts(load),
        zero_load_outdoor: Celsius(zero),
    })
}

/// A cooled and lived-in house.
pub fn house() -> impl Strategy<Value = House> {
    let summer = (
        28.0..36.0,
        1.0..9.0,
        17.0..21.0,
        prop::bool::ANY,
        22.0..27.0,
    );
    let moisture = (0.0..0.9, 0.0..30.0, 0.0..60.0, 0.0..0.8, 0.0..1.0);
    (heating_load(), summer, moisture, 0.0..2000.0).prop_map(
        |(load, summer, moisture, altitude)| House {
            name: "invented".to_owned(),
            indoor: Indoor {
                heating: Celsius(21.0),
                cooling: Celsius(summer.4),
                humidity_limit: 0.60,
            },
            heating: Heating {
                load,
                must_run_to: None,
                reserve: 0.0,
            },
            cooling: Some(Cooling {
                load: CoolingLoadLine {
                    design_outdoor: Celsius(summer.0),
                    design_sensible: Kilowatts(summer.1),
                    zero_load_outdoor: Celsius(summer.2),
                },
                fan: if summer.3 { Fan::Continuous } else { Fan::Auto },
            }),
            moisture: Some(Moisture {
                people_and_activities: KilogramsPerHour(moisture.0),
                infiltration: LitresPerSecond(5.0 + moisture.1),
                ventilation: LitresPerSecond(moisture.2),
                latent_recovery: moisture.3,
                dehumidifier: KilogramsPerHour(moisture.4),
                dehumidifier_litres_per_kwh: None,
            }),
            altitude: Some(Metres(altitude)),
            climate: None,
            energy: None,
        },
    )
}

/// States from -30 to 42 °C, each as dry or humid as weather can be there.
pub fn states() -> impl Strategy<Value = Vec<State>> {
    let state = (0.5..300.0, -30.0..42.0, 0.05..0.98).prop_map(
        |(hours, outdoor, relative): (f64, f64, f64)| {
            let pressure = overwinter::psychrometrics::STANDARD_PRESSURE;
            let saturated =
                overwinter::psychrometrics::saturation_humidity_ratio(Celsius(outdoor), pressure);
            State {
                hours: Hours(hours),
                outdoor: Celsius(outdoor),
                humidity_ratio: Some(HumidityRatio((saturated.0 * relative).min(0.024))),
            }
        },
    );
    prop::collection::vec(state, 4..40)
}

pub fn climate(states: Vec<State>) -> Climate {
    Climate {
        key: "invented".to_owned(),
        name: "invented".to_owned(),
        source: "generated".to_owned(),
        elevation: None,
        states,
        monthly: Vec::new(),
        hourly: Vec::new(),
        design: DesignTemperatures::default(),
        notes: Vec::new(),
    }
}
