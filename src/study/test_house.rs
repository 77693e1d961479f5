//! A house, a unit and a climate of round numbers for this folder's tests; all invented.

use crate::climate::{Climate, Record, Station};
use crate::equipment::{Form, Mode, Model, Point, SourceId, Speed, Unit};
use crate::house::{
    Cooling, CoolingLoadLine, Energy, Fan, Heating, HeatingLoadLine, House, Indoor, Moisture,
};
use crate::quantity::{
    Celsius, Hours, HumidityRatio, KilogramsPerHour, Kilowatts, LitresPerSecond, Metres,
};

/// Needs 8 kW at -20 °C and 0.2 kW less for each degree up to 20 °C; gains 4 kW at 34 °C and 0.4 kW less for each
/// degree down to 24 °C. No moisture but what outdoor air brings: `exchange` L/s, and `people` kg/h.
pub fn house(exchange: f64, people: f64) -> House {
    House {
        name: "test".into(),
        indoor: Indoor {
            heating: Celsius(21.0),
            cooling: Celsius(26.7),
            humidity_limit: 0.60,
        },
        heating: Heating {
            load: HeatingLoadLine {
                design_outdoor: Celsius(-20.0),
                design_load: Kilowatts(8.0),
                zero_load_outdoor: Celsius(20.0),
            },
            must_run_to: None,
            reserve: 0.0,
        },
        cooling: Some(Cooling {
            load: CoolingLoadLine {
                design_outdoor: Celsius(34.0),
                design_sensible: Kilowatts(4.0),
                zero_load_outdoor: Celsius(24.0),
            },
            fan: Fan::Auto,
        }),
        moisture: Some(Moisture {
            people_and_activities: KilogramsPerHour(people),
            infiltration: LitresPerSecond(exchange),
            ventilation: LitresPerSecond(0.0),
            latent_recovery: 0.0,
            dehumidifier: KilogramsPerHour(0.0),
            dehumidifier_litres_per_kwh: None,
        }),
        altitude: Some(Metres(0.0)),
        climate: None,
        energy: Some(Energy::default()),
    }
}

/// One speed: `heating` kW at any temperature down to -30 °C at COP 2, `cooling` kW at COP 4 up to 40 °C.
pub fn unit(key: &str, heating: f64, cooling: f64) -> Unit {
    let point = |mode, outdoor, capacity: f64, cop: f64| Point {
        mode,
        speed: Speed::Maximum,
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
    };
    Unit {
        model: Model {
            degradation_heating: Some(0.0),
            degradation_cooling: Some(0.0),
            ..Model::new(key, Form::Ducted, SourceId(1))
        },
        points: vec![
            point(Mode::Heating, -30.0, heating, 2.0),
            point(Mode::Heating, 20.0, heating, 2.0),
            point(Mode::Cooling, 20.0, cooling, 4.0),
            point(Mode::Cooling, 40.0, cooling, 4.0),
        ],
    }
}

/// Dated hours of (month, hour of the day, °C, g/kg), one hour each.
pub fn climate(hours: &[(u8, u8, f64, f64)]) -> Climate {
    let records = hours
        .iter()
        .map(|&(month, hour, outdoor, grams)| Record {
            month,
            day: 1,
            hour,
            hours: Hours(1.0),
            outdoor: Celsius(outdoor),
            humidity_ratio: Some(HumidityRatio(grams / 1000.0)),
        })
        .collect();
    let station = Station {
        key: "test".into(),
        ..Station::default()
    };
    Climate::from_records(station, records, Vec::new())
}
