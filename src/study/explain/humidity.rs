//! Humidity, explained: one state's balance of moisture gained and removed, and what the summer comes to.

use super::cycling::{latent_steps, run_fraction_step};
use super::indoor_air::{humidity_ratio_step, split_steps};
use super::turndown::{load_step, reading_steps, speeds_at, states_where};
use super::typical::median;
use super::{Authority, Measure, Part, Step, Subject, Value, reading_words};
use crate::climate::State;
use crate::cooling::{
    CoilPerformance, CoolingCurves, CoolingOperation, CoolingState, Delivery, HumiditySeason,
    Running, Split, cooling_state, delivery, neighbouring_splits,
};
use crate::equipment::{Speed, SpeedsAt, Turndown};
use crate::house::{Fan, Moisture};
use crate::psychrometrics::{heat_of_evaporation, saturation_pressure, vapour_pressure};
use crate::quantity::{HumidityRatio, KilogramsPerHour, Kilowatts};

pub(super) fn parts(subject: &Subject<'_>) -> Vec<Part> {
    let house = subject.brief.house();
    let words = |text: &str| vec![Part::Words(text.to_owned())];
    let (Some(cooling), Some(moisture)) = (house.cooling, house.moisture) else {
        return words(
            "The house gives no moisture gains or is not cooled: humidity is not judged.",
        );
    };
    let Some(curves) = CoolingCurves::of(subject.unit) else {
        return words("Nothing is published for cooling, so nothing can be computed.");
    };
    if curves.turndown() == Turndown::Unknown {
        return words(
            "No minimum is published for cooling: how far the unit turns down is unknown, and so is the room's humidity. Ask \
             the supplier for capacity, input, sensible heat ratio and airflow at the minimum speed.",
        );
    }
    let Some((state, which)) = typical_state(subject) else {
        return words("No hour of a climate calls for cooling, or its coil is unknown.");
    };
    let Some(outdoor) = state.humidity_ratio else {
        return words("The climate has no humidity, so that the room's cannot be found.");
    };
    let load = cooling.load.at(state.outdoor);
    let outcome = cooling_state(load, &state, &curves, subject.brief.room(), Some(&moisture));
    let CoolingState::Runs(operation) = outcome else {
        return words("The coil is unknown, so that the room's humidity is unknown.");
    };
    let mut parts = vec![
        Part::Words(format!(
            "One hour {which}: {} °C outdoors, {:.1} g of water per kg of dry air.",
            reading_words(state.outdoor),
            outdoor.0 * 1000.0
        )),
        load_step(&cooling.load, state.outdoor).into(),
    ];
    let balance = Balance {
        subject,
        curves: &curves,
        moisture: &moisture,
        state: &state,
        load,
        operation: &operation,
    };
    parts.extend(balance.settled(outdoor));
    parts.extend(balance.at_limit(outdoor, false));
    if let Some(season) = subject
        .judged
        .cooling
        .and_then(|figures| figures.season)
        .and_then(|season| season.known)
        .and_then(|known| known.humidity)
    {
        parts.extend(summer(subject, &season));
    }
    parts
}

/// The state in the middle of the humid hours, or else of all hours with a call; with which of them it is, in words.
fn typical_state(subject: &Subject<'_>) -> Option<(State, &'static str)> {
    let limit = subject.brief.room().limit;
    let humid = states_where(subject, |operation| operation.indoor > limit);
    if let Some(state) = median(&humid) {
        return Some((*state, "in the middle of the humid hours"));
    }
    median(&states_where(subject, |_| true)).map(|state| {
        (
            *state,
            "in the middle of the cooling hours, none of which is humid",
        )
    })
}

/// How much a dehumidifier would have to take out of the room in one state, worked out.
pub(super) struct LitresADay {
    /// The state.
    pub state: State,
    /// What it would have to take out.
    pub need: KilogramsPerHour,
    /// The way to it.
    pub parts: Vec<Part>,
}

/// Works out the dehumidification of the typical state; `None` where humidity is not judged, or not known.
pub(super) fn litres_a_day(subject: &Subject<'_>) -> Option<LitresADay> {
    let house = subject.brief.house();
    let (cooling, moisture) = (house.cooling?, house.moisture?);
    let curves = CoolingCurves::of(subject.unit)?;
    let season = subject.judged.cooling?.season?;
    season.known?.humidity?;
    let (state, _) = typical_state(subject)?;
    let load = cooling.load.at(state.outdoor);
    let room = subject.brief.room();
    let CoolingState::Runs(operation) = cooling_state(load, &state, &curves, room, Some(&moisture))
    else {
        return None;
    };
    let balance = Balance {
        subject,
        curves: &curves,
        moisture: &moisture,
        state: &state,
        load,
        operation: &operation,
    };
    let mut parts = vec![load_step(&cooling.load, state.outdoor).into()];
    parts.extend(balance.at_limit(state.humidity_ratio?, true));
    Some(LitresADay {
        state,
        need: operation.supplemental?,
        parts,
    })
}

/// One state, being explained.
struct Balance<'a> {
    subject: &'a Subject<'a>,
    curves: &'a CoolingCurves,
    moisture: &'a Moisture,
    state: &'a State,
    load: Kilowatts,
    operation: &'a CoolingOperation,
}

impl Balance<'_> {
    /// The room's air as it settles: what comes in is what is taken out.
    fn settled(&self, outdoor: HumidityRatio) -> Vec<Part> {
        let room = self.subject.brief.room();
        let indoor = self.operation.indoor;
        let mut parts: Vec<Part> = vec![
            Step::new("Humidity ratio at which the room settles", Authority::OurRule)
                .reads("W_i", indoor)
                .note("found by trial: only there is as much moisture removed as gained, as the next steps show")
                .into(),
            self.gain_step("Moisture gained there", indoor, outdoor)
                .into(),
        ];
        if let Some(speeds) = speeds_at(self.subject, self.curves, self.state.outdoor, indoor) {
            parts.extend(self.removal(&speeds, indoor, &self.operation.delivery, true));
        }
        let pressure = vapour_pressure(indoor, room.pressure);
        parts.push(
            Step::new("Pressure of the vapour", Authority::Fundamentals)
                .equation("p_w", "p · W_i / (0.621945 + W_i)")
                .with("p", room.pressure)
                .with("W_i", indoor)
                .gives(pressure)
                .into(),
        );
        parts.push(
            Step::new("Relative humidity of the room", Authority::Fundamentals)
                .equation("φ", "p_w / p_ws")
                .with("p_w", pressure)
                .with("p_ws", saturation_pressure(room.temperature))
                .gives(room.relative_humidity(indoor))
                .note(format!(
                    "the house's limit is {:.2}",
                    self.subject.brief.house().indoor.humidity_limit
                ))
                .into(),
        );
        parts
    }

    fn gain_step(&self, title: &str, indoor: HumidityRatio, outdoor: HumidityRatio) -> Step {
        Step::new(title, Authority::Definition)
            .equation(
                "G",
                "G_p + 3.6 · 1.204 · (V_inf + V_vent · (1 - e_L)) · (W_o - W_i)",
            )
            .with("G_p", self.moisture.people_and_activities)
            .with("V_inf", self.moisture.infiltration)
            .with("V_vent", self.moisture.ventilation)
            .with("e_L", self.moisture.latent_recovery)
            .with("W_o", outdoor)
            .with("W_i", indoor)
            .gives(self.moisture.gain(indoor, outdoor))
            .note("people and activities, and outdoor air by leaks and ventilator; flows in L/s")
    }

    /// What the unit removes on the room's air.
    ///
    /// - `whole`  whether the speeds are read off their curves too
    fn removal(
        &self,
        speeds: &SpeedsAt<CoilPerformance>,
        indoor: HumidityRatio,
        delivery: &Delivery,
        whole: bool,
    ) -> Vec<Part> {
        let room = self.subject.brief.room();
        let mut parts: Vec<Part> = Vec::new();
        let neighbours = neighbouring_splits(self.load, speeds, room, indoor);
        match (delivery.running, neighbours) {
            (Running::Cycling, Some([(minimum, _), _])) => {
                parts.extend(self.speed(Speed::Minimum, &speeds.minimum, indoor, whole));
                parts.extend(self.cycling(minimum, delivery));
            }
            (Running::Modulating, Some([(slower, _), (faster, _)])) => {
                for split in [slower, faster] {
                    if let Some((speed, performance)) = self.of_split(speeds, indoor, split) {
                        parts.push(Part::Words(format!(
                            "Its {} speed on this air:",
                            speed.name()
                        )));
                        parts.extend(self.speed(speed, &performance, indoor, whole));
                    }
                }
                parts.push(
                    Step::new("Latent heat removed, between these two speeds", Authority::OurRule)
                        .equation(
                            "Q_l",
                            "C_l1 + (C_l2 - C_l1) · (Q_s - C_s1) / (C_s2 - C_s1)",
                        )
                        .with("C_l1", slower.latent)
                        .with("C_l2", faster.latent)
                        .with("Q_s", self.load)
                        .with("C_s1", slower.sensible)
                        .with("C_s2", faster.sensible)
                        .gives(delivery.latent)
                        .note("latent (l) and sensible (s) capacity of the slower (1) and the faster (2) speed")
                        .into(),
                );
            }
            _ => {
                parts.extend(self.speed(Speed::Maximum, &speeds.maximum, indoor, whole));
                parts.push(
                    Step::new("Latent heat removed at full speed", Authority::BypassFactor)
                        .reads("Q_l", delivery.latent)
                        .note("the load is above the maximum: the unit runs flat out")
                        .into(),
                );
            }
        }
        let removed = room.removal_per_kilowatt() * delivery.latent.0;
        parts.push(
            Step::new("Moisture removed", Authority::Fundamentals)
                .equation("M", "Q_l · 3600 / h_fg")
                .with("Q_l", delivery.latent)
                .with(
                    "h_fg",
                    Value::new(
                        heat_of_evaporation(room.temperature),
                        Measure::KilojoulesPerKilogram,
                    ),
                )
                .gives(removed)
                .note(format!(
                    "h_fg = 2501 - 2.361 · T at the room's {} °C",
                    reading_words(room.temperature)
                ))
                .into(),
        );
        parts
    }

    /// One speed: read off its curve where that is wanted, and split on the room's air.
    fn speed(
        &self,
        speed: Speed,
        performance: &CoilPerformance,
        indoor: HumidityRatio,
        whole: bool,
    ) -> Vec<Part> {
        let mut steps = if whole {
            reading_steps(self.curves, speed, self.state.outdoor)
        } else {
            Vec::new()
        };
        let room = self.subject.brief.room();
        steps.extend(split_steps(performance, room, indoor).unwrap_or_default());
        steps.into_iter().map(Part::Step).collect()
    }

    /// Which speed has this split on the room's air.
    fn of_split(
        &self,
        speeds: &SpeedsAt<CoilPerformance>,
        indoor: HumidityRatio,
        split: Split,
    ) -> Option<(Speed, CoilPerformance)> {
        let room = self.subject.brief.room();
        let all = [
            (Speed::Minimum, Some(speeds.minimum)),
            (Speed::Rated, speeds.rated),
            (Speed::Maximum, Some(speeds.maximum)),
        ];
        all.into_iter()
            .filter_map(|(speed, performance)| Some((speed, performance?)))
            .find(|(_, performance)| {
                performance
                    .coil()
                    .is_some_and(|coil| coil.split(room.temperature, indoor, &room.air) == split)
            })
    }

    fn cycling(&self, minimum: Split, delivery: &Delivery) -> Vec<Part> {
        let room = self.subject.brief.room();
        let run_fraction = delivery.run_fraction;
        let kept = match room.fan {
            Fan::Auto => 1.0,
            Fan::Continuous => room.degradation.at(run_fraction),
        };
        let mut steps = vec![run_fraction_step(self.load, minimum.sensible, run_fraction)];
        steps.extend(latent_steps(room, run_fraction));
        steps.push(
            Step::new("Latent heat removed, on average", Authority::Henderson)
                .equation("Q_l", "X · C_l · L")
                .with("X", run_fraction)
                .with("C_l", minimum.latent)
                .with("L", kept)
                .gives(delivery.latent),
        );
        steps.into_iter().map(Part::Step).collect()
    }

    /// What a dehumidifier would have to add to hold the limit.
    ///
    /// - `whole`  whether the speeds are read off their curves too
    fn at_limit(&self, outdoor: HumidityRatio, whole: bool) -> Vec<Part> {
        let room = self.subject.brief.room();
        let limit = room.limit;
        let house = self.subject.brief.house();
        let Some(speeds) = speeds_at(self.subject, self.curves, self.state.outdoor, limit) else {
            return Vec::new();
        };
        let Some(at_limit) = delivery(self.load, &speeds, self.curves.degradation, room, limit)
        else {
            return Vec::new();
        };
        let gain = self.moisture.gain(limit, outdoor);
        let removed = room.removal_per_kilowatt() * at_limit.latent.0;
        let need = self
            .operation
            .supplemental
            .unwrap_or(KilogramsPerHour::ZERO);
        let mut parts = vec![
            Part::Words(format!(
                "Were the room held at its limit of {:.0} % relative humidity:",
                house.indoor.humidity_limit * 100.0
            )),
            humidity_ratio_step(
                room,
                house.indoor.humidity_limit,
                limit,
                "Humidity ratio at the limit",
            )
            .into(),
            self.gain_step("Moisture gained there", limit, outdoor)
                .into(),
        ];
        parts.extend(self.removal(&speeds, limit, &at_limit, whole));
        parts.push(
            Step::new("Supplemental dehumidification needed", Authority::OurRule)
                .equation("D", "max(0, G - M)")
                .with("G", gain)
                .with("M", removed)
                .gives(need)
                .note(format!(
                    "{:.1} L a day; its heat is not fed back into the sensible load",
                    need.litres_per_day()
                ))
                .into(),
        );
        parts
    }
}

/// The summer's sums.
fn summer(subject: &Subject<'_>, season: &HumiditySeason) -> Vec<Part> {
    let mut parts = vec![Part::Words(
        "The same balance in every state, times its hours:".to_owned(),
    )];
    let hours = subject
        .judged
        .cooling
        .and_then(|figures| figures.season)
        .map(|season| season.cooling_hours)
        .filter(|hours| hours.0 > 0.0);
    if let Some(hours) = hours {
        let largest = subject.brief.criteria().requirements.max_humid_share;
        parts.push(
            Step::new(
                "Share of the cooling hours that are humid",
                Authority::Climate,
            )
            .equation("S", "t_humid / t_call")
            .with("t_humid", season.humid_hours)
            .with("t_call", hours)
            .gives(season.humid_hours / hours)
            .note(format!(
                "at most {largest} is asked for (our default where the criteria say nothing)"
            ))
            .into(),
        );
    }
    if let Some(peak) = season.peak_relative_humidity {
        parts.push(
            Step::new(
                "Highest relative humidity in hours with a call",
                Authority::Climate,
            )
            .reads("φ", peak)
            .into(),
        );
    }
    parts.push(
        Step::new(
            "Moisture that the unit removes in a year",
            Authority::Climate,
        )
        .reads("M", Value::new(season.removed.0, Measure::Litres))
        .into(),
    );
    parts.push(
        Step::new(
            "Supplemental dehumidification in a year",
            Authority::OurRule,
        )
        .reads("D", Value::new(season.supplemental.0, Measure::Litres))
        .note(format!(
            "up to {:.1} L a day; {:.0} h without a call, which no cooling unit can mend, are counted in",
            season.supplemental_peak.litres_per_day(),
            season.humid_hours_without_call.0
        ))
        .into(),
    );
    parts
}
