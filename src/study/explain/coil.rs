//! The coil behind one published cooling point: its apparatus dew point and bypass factor.

use super::{Authority, Measure, Step, Value};
use crate::cooling::{InconsistentSensibleHeatRatio, RatedCoil, coil_working};
use crate::equipment::Point;
use crate::psychrometrics::{saturation_humidity_ratio, specific_heat};

/// The steps from a published point to the bypass factor.
pub(super) fn steps(point: &Point) -> Result<Vec<Step>, InconsistentSensibleHeatRatio> {
    let rated = RatedCoil::at(point);
    let RatedCoil {
        entering,
        airflow,
        sensible_heat_ratio,
    } = rated;
    let working = coil_working(entering, point.capacity, airflow, sensible_heat_ratio)?;
    let mass_flow = Value::new(working.mass_flow, Measure::KilogramsPerSecond);
    let slope = Value::new(working.slope, Measure::PerKelvin);
    let moist = "1.006 · T + W · (2501 + 1.86 · T)";
    let entering_step = Step::new(
        "Humidity ratio of the entering air",
        Authority::Fundamentals,
    );
    let entering_step = if entering.wet_bulb.0 >= 0.0 {
        entering_step.equation(
            "W_in",
            "((2501 - 2.326 · T_wb) · W_s - 1.006 · (T_in - T_wb)) / (2501 + 1.86 · T_in - 4.186 · T_wb)",
        )
    } else {
        entering_step.equation(
            "W_in",
            "((2830 - 0.24 · T_wb) · W_s - 1.006 · (T_in - T_wb)) / (2830 + 1.86 · T_in - 2.1 · T_wb)",
        )
    };
    let mut airflow_note = String::new();
    if point.airflow.is_none() {
        airflow_note =
            "airflow is not published and taken as 54 L/s per kW, common practice".to_owned();
    }
    let mut ratio_note = String::new();
    if point.sensible_heat_ratio.is_none() {
        ratio_note = "the sensible heat ratio is not published and taken as 0.75, common practice"
            .to_owned();
    }
    Ok(vec![
        entering_step
            .with("T_in", entering.dry_bulb)
            .with("T_wb", entering.wet_bulb)
            .with(
                "W_s",
                saturation_humidity_ratio(entering.wet_bulb, entering.pressure),
            )
            .gives(working.entering_humidity_ratio)
            .note("W_s is the humidity ratio of saturated air at the wet bulb and 101 325 Pa, by the handbook's table"),
        Step::new("Enthalpy of the entering air", Authority::Fundamentals)
            .equation("h_in", moist)
            .with("T", entering.dry_bulb)
            .with("W", working.entering_humidity_ratio)
            .gives(working.entering_enthalpy),
        Step::new("Mass flow of the air", Authority::Fundamentals)
            .equation("m", "1.204 · V / 1000")
            .with("V", airflow)
            .gives(mass_flow)
            .note(airflow_note),
        Step::new("Enthalpy of the leaving air", Authority::BypassFactor)
            .equation("h_out", "h_in - C / m")
            .with("h_in", working.entering_enthalpy)
            .with("C", point.capacity)
            .with("m", mass_flow)
            .gives(working.leaving_enthalpy),
        Step::new("Dry bulb of the leaving air", Authority::BypassFactor)
            .equation("T_out", "T_in - SHR · C / (m · c_p)")
            .with("T_in", entering.dry_bulb)
            .with("SHR", sensible_heat_ratio)
            .with("C", point.capacity)
            .with("m", mass_flow)
            .with("c_p", specific_heat(working.entering_humidity_ratio))
            .gives(working.leaving_dry_bulb)
            .note(join(
                "c_p = 1.006 + 1.86 · W_in, in kJ/(kg K)",
                &ratio_note,
            )),
        Step::new("Humidity ratio of the leaving air", Authority::Fundamentals)
            .equation(
                "W_out",
                "(h_out - 1.006 · T_out) / (2501 + 1.86 · T_out)",
            )
            .with("h_out", working.leaving_enthalpy)
            .with("T_out", working.leaving_dry_bulb)
            .gives(working.leaving_humidity_ratio),
        Step::new(
            "Slope of the line from entering to leaving air",
            Authority::BypassFactor,
        )
        .equation("s", "(W_in - W_out) / (T_in - T_out)")
        .with("W_in", working.entering_humidity_ratio)
        .with("W_out", working.leaving_humidity_ratio)
        .with("T_in", entering.dry_bulb)
        .with("T_out", working.leaving_dry_bulb)
        .gives(slope),
        Step::new(
            "Apparatus dew point: where that line meets the saturation curve",
            Authority::BypassFactor,
        )
        .equation("W_adp", "W_out + s · (T_adp - T_out)")
        .with("W_out", working.leaving_humidity_ratio)
        .with("s", slope)
        .with("T_adp", working.apparatus_dew_point)
        .with("T_out", working.leaving_dry_bulb)
        .gives(saturation_humidity_ratio(
            working.apparatus_dew_point,
            entering.pressure,
        ))
        .note("T_adp is found by trial: only there has saturated air this humidity ratio"),
        Step::new("Enthalpy at the apparatus dew point", Authority::Fundamentals)
            .equation("h_adp", moist)
            .with("T", working.apparatus_dew_point)
            .with(
                "W",
                saturation_humidity_ratio(working.apparatus_dew_point, entering.pressure),
            )
            .gives(working.apparatus_enthalpy),
        Step::new("Bypass factor", Authority::BypassFactor)
            .equation("BF", "(h_out - h_adp) / (h_in - h_adp)")
            .with("h_out", working.leaving_enthalpy)
            .with("h_adp", working.apparatus_enthalpy)
            .with("h_in", working.entering_enthalpy)
            .gives(working.bypass_factor)
            .note("the share of the air that passes the coil as if untouched"),
    ])
}

fn join(first: &str, second: &str) -> String {
    if second.is_empty() {
        first.to_owned()
    } else {
        format!("{first}; {second}")
    }
}
