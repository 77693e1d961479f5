//! A house, states and findings for the tests of the requirements. All of it is invented.

use super::{Case, Criteria, Findings, judge};
use crate::climate::State;
use crate::cooling::{CoolingCurves, CoolingFigures, Room, cooling_season, without_call};
use crate::equipment::Unit;
use crate::heating::{HeatingCurves, HeatingFigures};
use crate::house::{
    Cooling, CoolingLoadLine, Fan, Heating, HeatingLoadLine, House, Indoor, Moisture,
};
use crate::quantity::{
    Celsius, Hours, HumidityRatio, KilogramsPerHour, Kilowatts, LitresPerSecond, Metres, UnitSystem,
};

/// 9 kW at -18 °C; neither cooled nor judged for humidity.
pub(super) fn heated_house() -> House {
    House {
        name: "invented".to_owned(),
        indoor: Indoor {
            heating: Celsius(22.0),
            cooling: Celsius(24.0),
            humidity_limit: 0.60,
        },
        heating: Heating {
            load: HeatingLoadLine {
                design_outdoor: Celsius(-18.0),
                design_load: Kilowatts(9.0),
                zero_load_outdoor: Celsius(15.0),
            },
            must_run_to: None,
            reserve: 0.0,
        },
        cooling: None,
        moisture: None,
        altitude: Some(Metres(0.0)),
        climate: None,
        energy: None,
    }
}

/// The same, with a sensible load that rises by 0.4 kW a kelvin from 20 °C: 4.8 kW at 32 °C.
pub(super) fn cooled_house() -> House {
    House {
        cooling: Some(Cooling {
            load: CoolingLoadLine {
                design_outdoor: Celsius(32.0),
                design_sensible: Kilowatts(4.8),
                zero_load_outdoor: Celsius(20.0),
            },
            fan: Fan::Continuous,
        }),
        ..heated_house()
    }
}

/// The same, with 12 kg a day of moisture from people and 20 L/s of outdoor air.
pub(super) fn lived_in_house() -> House {
    House {
        moisture: Some(Moisture {
            people_and_activities: KilogramsPerHour(0.5),
            infiltration: LitresPerSecond(20.0),
            ventilation: LitresPerSecond(0.0),
            latent_recovery: 0.0,
            dehumidifier: KilogramsPerHour(0.0),
            dehumidifier_litres_per_kwh: None,
        }),
        ..cooled_house()
    }
}

/// Hours at an outdoor temperature \[°C\] and humidity ratio \[g/kg\].
pub(super) fn state(hours: f64, outdoor: f64, grams: f64) -> State {
    State {
        hours: Hours(hours),
        outdoor: Celsius(outdoor),
        humidity_ratio: Some(HumidityRatio(grams / 1000.0)),
    }
}

/// What all requirements find of a unit.
pub(super) fn findings(
    house: &House,
    states: Option<&[State]>,
    criteria: &Criteria,
    unit: &Unit,
) -> Findings {
    let room = Room::of(house);
    let heating = HeatingCurves::of(unit, house.indoor.heating);
    let cooling = CoolingCurves::of(unit);
    let heating_figures = HeatingFigures::at_design(
        &house.heating.load,
        heating.as_ref(),
        unit.model.operates_to,
        None,
    );
    let season = |load: &Cooling, states: &[State]| {
        let outside_season = house
            .moisture
            .and_then(|moisture| without_call(house, &moisture, &room, states));
        cooling_season(
            load,
            cooling.as_ref(),
            &room,
            house.moisture.as_ref(),
            outside_season.as_ref(),
            states,
            |_, _| {},
        )
    };
    let cooling_figures = house.cooling.as_ref().map(|load| {
        let season = states.map(|states| season(load, states));
        CoolingFigures::at_design(load, cooling.as_ref(), &room, season)
    });
    judge(&Case {
        house,
        states,
        criteria,
        room: &room,
        unit,
        heating: heating.as_ref(),
        cooling: cooling.as_ref(),
        heating_figures: &heating_figures,
        cooling_figures: cooling_figures.as_ref(),
        units: UnitSystem::Si,
    })
}

/// What the built-in requirements find, without a climate.
pub(super) fn at_design(house: &House, unit: &Unit) -> Findings {
    findings(house, None, &Criteria::default(), unit)
}

/// Code, sentence and remedy of the only reason.
pub(super) fn only_reason(findings: &Findings) -> (&'static str, String, String) {
    assert_eq!(findings.reasons.len(), 1, "{:?}", findings.reasons);
    let reason = &findings.reasons[0];
    let sentence = reason.sentence(UnitSystem::Si);
    (reason.code(), sentence, reason.remedy(UnitSystem::Si))
}

/// Code and text of the only question, where nothing fails.
pub(super) fn only_question(findings: &Findings) -> (&'static str, &str) {
    assert!(findings.reasons.is_empty(), "{:?}", findings.reasons);
    assert_eq!(findings.asks.len(), 1, "{:?}", findings.asks);
    (findings.asks[0].code.name(), &findings.asks[0].text)
}

/// That every requirement is shown to hold.
pub(super) fn assert_accepted(findings: &Findings) {
    assert!(findings.reasons.is_empty(), "{:?}", findings.reasons);
    assert!(findings.asks.is_empty(), "{:?}", findings.asks);
}
