//! A cooling unit below its minimum: run fraction, and what a continuous fan undoes of the drying.

use super::{Authority, Measure, Step, Value};
use crate::cooling::{PartLoadParameters, Room, latent_working};
use crate::house::Fan;
use crate::quantity::Kilowatts;

/// The run fraction at a sensible load.
pub(super) fn run_fraction_step(load: Kilowatts, minimum: Kilowatts, run_fraction: f64) -> Step {
    Step::new("Run fraction", Authority::CommonPractice)
        .equation("X", "Q_s / C_s")
        .with("Q_s", load)
        .with("C_s", minimum)
        .gives(run_fraction)
        .note("the load is below what the minimum removes: the unit runs on and off")
}

/// What is left of the drying at a run fraction.
pub(super) fn latent_steps(room: &Room, run_fraction: f64) -> Vec<Step> {
    let title = "Share of the drying that is left";
    if room.fan == Fan::Auto {
        return vec![
            Step::new(title, Authority::CommonPractice)
                .reads("L", 1.0)
                .note("the fan stops with the compressor, so little goes back into the room"),
        ];
    }
    let multiplier = room.degradation.at(run_fraction);
    if !(0.0..1.0).contains(&run_fraction) || run_fraction <= 0.0 {
        return vec![Step::new(title, Authority::Henderson).reads("L", multiplier)];
    }
    let parameters = PartLoadParameters::DEFAULT;
    let working = latent_working(run_fraction, parameters);
    let seconds = |number: f64| Value::new(number, Measure::Seconds);
    let cycles = Value::new(parameters.cycles_per_hour, Measure::PerHour);
    vec![
        Step::new("Time on in a cycle", Authority::Henderson)
            .equation("t_on", "3600 / (4 · N · (1 - X))")
            .with("N", cycles)
            .with("X", run_fraction)
            .gives(seconds(working.on_time))
            .note("at most N cycles an hour, at half load"),
        Step::new("Time off in a cycle", Authority::Henderson)
            .equation("t_off", "3600 / (4 · N · X)")
            .with("N", cycles)
            .with("X", run_fraction)
            .gives(seconds(working.off_time)),
        Step::new(
            "Time in which the wet coil gives water back",
            Authority::Henderson,
        )
        .equation("t_e", "min(t_off, 2 · t_wet / γ)")
        .with("t_off", seconds(working.off_time))
        .with("t_wet", seconds(parameters.wetting_time))
        .with("γ", parameters.evaporation_ratio)
        .gives(seconds(working.evaporating_time)),
        Step::new("Drying lost by it, as time", Authority::Henderson)
            .equation("a", "γ · t_e - γ^2 · t_e^2 / (4 · t_wet)")
            .with("γ", parameters.evaporation_ratio)
            .with("t_e", seconds(working.evaporating_time))
            .with("t_wet", seconds(parameters.wetting_time))
            .gives(seconds(working.lost_time)),
        Step::new(
            "Time after the start before the room is dried again",
            Authority::Henderson,
        )
        .equation("t_o", "a - τ · (exp(-t_o / τ) - 1)")
        .with("a", seconds(working.lost_time))
        .with("τ", seconds(parameters.time_constant))
        .with("t_o", seconds(working.regain_time))
        .gives(seconds(working.regain_time))
        .note("t_o stands on both sides: it is the number that gives itself"),
        Step::new(title, Authority::Henderson)
            .equation(
                "L",
                "max(0, (t_on - t_o) / (t_on + τ · (exp(-t_on / τ) - 1)))",
            )
            .with("t_on", seconds(working.on_time))
            .with("t_o", seconds(working.regain_time))
            .with("τ", seconds(parameters.time_constant))
            .gives(multiplier)
            .note("the fan runs on, and the wet coil gives its water back to the room"),
    ]
}
