//! A room's air: humidity ratio and enthalpy from its temperature and relative humidity, and what a coil does to it.

use super::{Authority, Measure, Step, Value};
use crate::cooling::{CoilPerformance, Room};
use crate::psychrometrics::{enthalpy, saturation_pressure};
use crate::quantity::HumidityRatio;

/// Humidity ratio of the room's air at a relative humidity.
pub(super) fn humidity_ratio_step(
    room: &Room,
    relative: f64,
    humidity_ratio: HumidityRatio,
    title: &str,
) -> Step {
    Step::new(title, Authority::Fundamentals)
        .equation("W_i", "0.621945 · φ · p_ws / (p - φ · p_ws)")
        .with("φ", relative)
        .with("p_ws", saturation_pressure(room.temperature))
        .with("p", room.pressure)
        .gives(humidity_ratio)
        .note(format!(
            "p_ws is the saturation pressure of water at {} °C, by the handbook's equation or table; p the pressure of the altitude",
            room.temperature.0
        ))
}

/// How a coil's capacity splits on the room's air; `None` where the coil is unknown.
pub(super) fn split_steps(
    performance: &CoilPerformance,
    room: &Room,
    humidity_ratio: HumidityRatio,
) -> Option<Vec<Step>> {
    let bypass = performance.bypass_factor?;
    let coil = performance.coil()?;
    let mass_flow = performance.capacity.0 / (coil.reach.0 * (1.0 - bypass));
    let h_in = enthalpy(room.temperature, humidity_ratio);
    let h_adp = h_in - coil.reach;
    let t_adp = coil.apparatus_dew_point(room.temperature, humidity_ratio, &room.air);
    let w_adp = room.air.humidity_ratio_at(h_adp);
    let split = coil.split(room.temperature, humidity_ratio, &room.air);
    let mut steps = vec![
        Step::new("Mass flow of the air", Authority::Fundamentals)
            .equation("m", "1.204 · V / 1000")
            .with("V", performance.airflow)
            .gives(Value::new(mass_flow, Measure::KilogramsPerSecond)),
        Step::new("Enthalpy of the room's air", Authority::Fundamentals)
            .equation("h_i", "1.006 · T_i + W_i · (2501 + 1.86 · T_i)")
            .with("T_i", room.temperature)
            .with("W_i", humidity_ratio)
            .gives(h_in),
        Step::new("Enthalpy at the coil's surface", Authority::BypassFactor)
            .equation("h_adp", "h_i - C / (m · (1 - BF))")
            .with("h_i", h_in)
            .with("C", performance.capacity)
            .with("m", Value::new(mass_flow, Measure::KilogramsPerSecond))
            .with("BF", bypass)
            .gives(h_adp),
    ];
    if w_adp >= humidity_ratio {
        steps.push(
            Step::new("Sensible capacity", Authority::BypassFactor)
                .reads("C_s", split.sensible)
                .note(format!(
                    "saturated air of that enthalpy is at {:.2} °C and holds {:.5} kg/kg, more than the room's air: the coil stays dry",
                    t_adp.0, w_adp.0
                )),
        );
        return Some(steps);
    }
    steps.push(
        Step::new(
            "Humidity ratio at the coil's surface",
            Authority::Fundamentals,
        )
        .reads("W_adp", w_adp)
        .note(format!(
            "saturated air of that enthalpy: {:.2} °C, by the handbook's table",
            t_adp.0
        )),
    );
    steps.push(
        Step::new("Sensible share on this air", Authority::BypassFactor)
            .equation(
                "SHR",
                "(1.006 · T_i + W_adp · (2501 + 1.86 · T_i) - h_adp) / (h_i - h_adp)",
            )
            .with("T_i", room.temperature)
            .with("W_adp", w_adp)
            .with("h_adp", h_adp)
            .with("h_i", h_in)
            .gives(split.sensible_heat_ratio()),
    );
    steps.push(
        Step::new("Sensible capacity", Authority::Definition)
            .equation("C_s", "SHR · C")
            .with("SHR", split.sensible_heat_ratio())
            .with("C", performance.capacity)
            .gives(split.sensible),
    );
    steps.push(
        Step::new("Latent capacity", Authority::Definition)
            .equation("C_l", "C - C_s")
            .with("C", performance.capacity)
            .with("C_s", split.sensible)
            .gives(split.latent),
    );
    Some(steps)
}
