//! A small house, a climate and units for tests, all invented.

use crate::climate::{Climate, DesignTemperatures, State};
use crate::criteria::Criteria;
use crate::equipment::{Form, Mode, Model, Point, SourceId, Speed, Unit};
use crate::house::{
    Cooling, CoolingLoadLine, Fan, Heating, HeatingLoadLine, House, Indoor, Moisture,
};
use crate::quantity::{
    Celsius, Hours, HumidityRatio, KilogramsPerHour, Kilowatts, LitresPerSecond, Metres, UnitSystem,
};
use crate::study::Brief;

pub fn house() -> House {
    House {
        name: "Larch Row (invented)".to_owned(),
        indoor: Indoor {
            heating: Celsius(21.0),
            cooling: Celsius(24.0),
            humidity_limit: 0.60,
        },
        heating: Heating {
            load: HeatingLoadLine {
                design_outdoor: Celsius(-18.0),
                design_load: Kilowatts(9.2),
                zero_load_outdoor: Celsius(15.0),
            },
            must_run_to: Some(Celsius(-25.0)),
            reserve: 0.0,
        },
        cooling: Some(Cooling {
            load: CoolingLoadLine {
                design_outdoor: Celsius(32.0),
                design_sensible: Kilowatts(5.1),
                zero_load_outdoor: Celsius(19.0),
            },
            fan: Fan::Continuous,
        }),
        moisture: Some(Moisture {
            people_and_activities: KilogramsPerHour(10.0 / 24.0),
            infiltration: LitresPerSecond(12.0),
            ventilation: LitresPerSecond(35.0),
            latent_recovery: 0.5,
            dehumidifier: KilogramsPerHour(0.0),
            dehumidifier_litres_per_kwh: Some(2.0),
        }),
        altitude: Some(Metres(200.0)),
        climate: None,
        energy: None,
    }
}

/// A year of few states, each 100 to 900 hours.
pub fn climate() -> Climate {
    let state = |hours: f64, outdoor: f64, grams: f64| State {
        hours: Hours(hours),
        outdoor: Celsius(outdoor),
        humidity_ratio: Some(HumidityRatio(grams / 1000.0)),
    };
    Climate {
        key: "invented".to_owned(),
        name: "Invented".to_owned(),
        source: "invented".to_owned(),
        elevation: None,
        states: vec![
            state(30.0, -22.0, 0.5),
            state(200.0, -15.5, 0.9),
            state(700.0, -7.0, 1.9),
            state(1600.0, 0.5, 3.4),
            state(1500.0, 6.0, 5.0),
            state(900.0, 12.0, 7.5),
            state(1000.0, 17.0, 10.5),
            state(900.0, 21.0, 12.8),
            state(600.0, 24.5, 13.9),
            state(300.0, 28.0, 14.5),
            state(90.0, 31.5, 15.0),
        ],
        monthly: Vec::new(),
        hourly: Vec::new(),
        design: DesignTemperatures::default(),
        notes: Vec::new(),
    }
}

pub fn model(key: &str) -> Model {
    Model::new(key, Form::Ducted, SourceId(1))
}

pub fn point(mode: Mode, speed: Speed, outdoor: f64, capacity: f64, cop: f64) -> Point {
    Point {
        mode,
        speed,
        outdoor: Celsius(outdoor),
        indoor_dry_bulb: None,
        indoor_wet_bulb: None,
        capacity: Kilowatts(capacity),
        power: Kilowatts(capacity / cop),
        sensible_heat_ratio: (mode == Mode::Cooling).then_some(0.75),
        airflow: None,
        fan_basis: None,
        frost_basis: None,
        source: SourceId(1),
    }
}

/// A variable-speed unit that falls a little short on the design day and cycles much in summer.
pub fn unit(key: &str) -> Unit {
    let heating =
        |speed, outdoor, capacity, cop| point(Mode::Heating, speed, outdoor, capacity, cop);
    let cooling =
        |speed, outdoor, capacity, cop| point(Mode::Cooling, speed, outdoor, capacity, cop);
    Unit {
        model: model(key),
        points: vec![
            heating(Speed::Minimum, -8.0, 2.4, 3.0),
            heating(Speed::Minimum, 8.0, 3.2, 4.6),
            heating(Speed::Rated, -8.0, 6.0, 2.6),
            heating(Speed::Rated, 8.0, 8.0, 4.0),
            heating(Speed::Maximum, -25.0, 7.0, 1.7),
            heating(Speed::Maximum, -8.0, 9.6, 2.3),
            heating(Speed::Maximum, 8.0, 11.5, 3.4),
            cooling(Speed::Minimum, 28.0, 3.6, 5.6),
            cooling(Speed::Minimum, 35.0, 3.3, 4.4),
            cooling(Speed::Maximum, 28.0, 9.6, 3.6),
            cooling(Speed::Maximum, 35.0, 9.0, 2.9),
        ],
    }
}

/// Its sister with one speed only, which stops at -10 °C.
pub fn single_speed(key: &str) -> Unit {
    let mut unit = unit(key);
    unit.points.retain(|point| point.speed == Speed::Maximum);
    unit.model.operates_to = Some(Celsius(-10.0));
    unit
}

pub fn brief(house: House) -> Brief {
    Brief::new(house, Some(&climate()), Criteria::default(), UnitSystem::Si)
}
