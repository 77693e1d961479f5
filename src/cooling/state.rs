//! One climate state in summer: how unit and house settle, in heat and in moisture.

use super::curves::{CoolingCurves, SpeedsByWetBulb};
use super::root::falling_root;
use super::{Coil, Room, Split};
use crate::climate::State;
use crate::equipment::SpeedsAt;
use crate::heating::part_load_factor;
use crate::house::{Fan, Moisture};
use crate::quantity::{HumidityRatio, KilogramsPerHour, Kilowatts};

/// How the unit runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Running {
    /// Below its minimum: on and off.
    Cycling,
    /// Between its speeds.
    Modulating,
    /// At its maximum.
    Flat,
}

/// What the unit does about a sensible load at one indoor humidity ratio.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Delivery {
    /// How it runs.
    pub running: Running,
    /// Run-time fraction: below 1 only while cycling.
    pub run_fraction: f64,
    /// Sensible heat removed.
    pub sensible: Kilowatts,
    /// Latent heat removed, net of what a wet coil gives back.
    pub latent: Kilowatts,
    /// Electric input.
    pub input: Kilowatts,
    /// Sensible load left unmet.
    pub shortfall: Kilowatts,
}

/// How unit and house settle in one state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoolingOperation {
    /// What the unit does, at the indoor humidity that results.
    pub delivery: Delivery,
    /// Indoor humidity ratio that results; the design condition's where moisture is not known.
    pub indoor: HumidityRatio,
    /// Moisture that the unit removes there.
    pub removal: KilogramsPerHour,
    /// Supplemental dehumidification that would hold the limit; `None` where moisture is not known.
    pub supplemental: Option<KilogramsPerHour>,
}

/// What a state with a call comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CoolingState {
    /// Nothing is published for a temperature this hot.
    Unproven,
    /// A published sensible heat ratio is inconsistent, so that the coil is unknown.
    UnknownCoil,
    /// The unit runs.
    Runs(CoolingOperation),
}

/// The coils of the speeds at one temperature and one room wet bulb.
#[derive(Clone, Copy, Debug)]
struct Coils {
    minimum: Coil,
    rated: Option<Coil>,
    maximum: Coil,
}

impl Coils {
    /// `None` where a speed that takes part has an inconsistent sensible heat ratio.
    fn of(speeds: &SpeedsAt<super::CoilPerformance>) -> Option<Self> {
        Some(Self {
            minimum: speeds.minimum.coil()?,
            rated: match speeds.rated {
                Some(rated) => Some(rated.coil()?),
                None => None,
            },
            maximum: speeds.maximum.coil()?,
        })
    }
}

/// What the unit does about a sensible load at one indoor humidity ratio, controlled on dry bulb.
///
/// Between the sensible capacities of two speeds, moisture removal and input are linear in sensible capacity. Below the
/// minimum's the unit cycles with `X = Qs / Cs_min`: latent `X Cl_min L(X)`, input `X P_min / PLF`. Above the
/// maximum's it runs flat out and the rest is shortfall. The rated speed takes part where its total capacity lies
/// strictly between the others'; what it removes then counts even where its sensible capacity lies outside theirs.
///
/// - returns `None` where a coil is unknown
#[must_use]
pub fn delivery(
    load: Kilowatts,
    speeds: &SpeedsAt<super::CoilPerformance>,
    degradation: f64,
    room: &Room,
    indoor: HumidityRatio,
) -> Option<Delivery> {
    Some(deliver(
        load,
        &Coils::of(speeds)?,
        degradation,
        room,
        indoor,
    ))
}

fn deliver(
    load: Kilowatts,
    coils: &Coils,
    degradation: f64,
    room: &Room,
    indoor: HumidityRatio,
) -> Delivery {
    let split = |coil: &Coil| coil.split(room.temperature, indoor, &room.air);
    let slowest = split(&coils.minimum);
    if load < slowest.sensible {
        let run_fraction = load / slowest.sensible;
        let kept = match room.fan {
            Fan::Auto => 1.0,
            Fan::Continuous => room.degradation.at(run_fraction),
        };
        return Delivery {
            running: Running::Cycling,
            run_fraction,
            sensible: load,
            latent: slowest.latent * (run_fraction * kept),
            input: coils.minimum.power
                * (run_fraction / part_load_factor(degradation, run_fraction)),
            shortfall: Kilowatts::ZERO,
        };
    }
    let fastest = split(&coils.maximum);
    if load >= fastest.sensible {
        return Delivery {
            running: Running::Flat,
            run_fraction: 1.0,
            sensible: fastest.sensible,
            latent: fastest.latent,
            input: coils.maximum.power,
            shortfall: load - fastest.sensible,
        };
    }
    let rated = coils.rated.map(|coil| (split(&coil), coil.power));
    let (slower, faster) = neighbours(
        load,
        (slowest, coils.minimum.power),
        rated,
        (fastest, coils.maximum.power),
    );
    let between = |(slow, slow_input): SplitAndInput, (fast, fast_input): SplitAndInput| {
        let fraction = (load - slow.sensible) / (fast.sensible - slow.sensible);
        Delivery {
            running: Running::Modulating,
            run_fraction: 1.0,
            sensible: load,
            latent: slow.latent + (fast.latent - slow.latent) * fraction,
            input: slow_input + (fast_input - slow_input) * fraction,
            shortfall: Kilowatts::ZERO,
        }
    };
    between(slower, faster)
}

/// A speed's capacity, split, and its electric input.
type SplitAndInput = (Split, Kilowatts);

/// The two speeds between whose sensible capacities a load lies. The rated speed, where there is one, takes part: its
/// total capacity lies strictly between the others.
fn neighbours(
    load: Kilowatts,
    slowest: SplitAndInput,
    rated: Option<SplitAndInput>,
    fastest: SplitAndInput,
) -> (SplitAndInput, SplitAndInput) {
    match rated {
        Some(rated) if load < rated.0.sensible => (slowest, rated),
        Some(rated) => (rated, fastest),
        None => (slowest, fastest),
    }
}

/// The speeds between which [`delivery`] interpolates at a sensible load, slower first: each one's capacity on room
/// air, split, and its electric input; `None` where a coil is unknown.
#[must_use]
pub fn neighbouring_splits(
    load: Kilowatts,
    speeds: &SpeedsAt<super::CoilPerformance>,
    room: &Room,
    indoor: HumidityRatio,
) -> Option<[(Split, Kilowatts); 2]> {
    let coils = Coils::of(speeds)?;
    let at = |coil: &Coil| (coil.split(room.temperature, indoor, &room.air), coil.power);
    let (slower, faster) = neighbours(
        load,
        at(&coils.minimum),
        coils.rated.as_ref().map(at),
        at(&coils.maximum),
    );
    Some([slower, faster])
}

/// How unit and house settle in a state with a call for cooling.
///
/// Indoor humidity is the root of gains = removal: gains fall and removal rises with it, so there is one. Where gains
/// outrun removal up to saturation, it is saturation. The supplemental need is gains - removal, both at the limit.
///
/// - `load`  sensible load in the state, above zero
/// - `moisture`  the house's gains; without them, or without the state's humidity, the room is at its design condition
///
/// # Accuracy
/// Indoor humidity ratio within 1e-12 of the root.
#[must_use]
pub fn cooling_state(
    load: Kilowatts,
    state: &State,
    unit: &CoolingCurves,
    room: &Room,
    moisture: Option<&Moisture>,
) -> CoolingState {
    let Some(speeds) = unit.at(state.outdoor) else {
        return CoolingState::Unproven;
    };
    let Some(base) = Coils::of(&speeds.base()) else {
        return CoolingState::UnknownCoil;
    };
    let at = |indoor: HumidityRatio| {
        let coils = if speeds.varies() {
            coils_at(&speeds, room, indoor).unwrap_or(base)
        } else {
            base
        };
        deliver(load, &coils, unit.degradation, room, indoor)
    };
    let per_kilowatt = room.removal_per_kilowatt();
    let removal = |delivery: &Delivery| per_kilowatt * delivery.latent.0;
    let Some((moisture, outdoor)) = moisture.zip(state.humidity_ratio) else {
        let delivery = at(room.design);
        let removal = removal(&delivery);
        return CoolingState::Runs(CoolingOperation {
            delivery,
            indoor: room.design,
            removal,
            supplemental: None,
        });
    };
    let excess = |indoor: f64| {
        let indoor = HumidityRatio(indoor);
        (moisture.gain(indoor, outdoor) - removal(&at(indoor))).0
    };
    let at_limit = excess(room.limit.0);
    let indoor = HumidityRatio(settle(&excess, room, at_limit));
    let delivery = at(indoor);
    CoolingState::Runs(CoolingOperation {
        delivery,
        indoor,
        removal: removal(&delivery),
        supplemental: Some(KilogramsPerHour(at_limit.max(0.0))),
    })
}

fn coils_at(speeds: &SpeedsByWetBulb, room: &Room, indoor: HumidityRatio) -> Option<Coils> {
    Coils::of(&speeds.at(room.wet_bulb(indoor)))
}

/// The root of `excess`, which falls with indoor humidity, between dry air and saturation.
///
/// Walks from the limit towards the root, each time a little beyond where the last two values point, until the root is
/// passed; then narrows the last step.
fn settle(excess: &impl Fn(f64) -> f64, room: &Room, at_limit: f64) -> f64 {
    /// First step, as a share of the limit.
    const FIRST_STEP: f64 = 0.1;
    /// How far beyond the pointed-at place the next step goes.
    const BEYOND: f64 = 1.3;
    let upward = at_limit > 0.0;
    let (end, first) = if upward {
        (room.saturation.0, room.limit.0 * (1.0 + FIRST_STEP))
    } else {
        (0.0, room.limit.0 * (1.0 - FIRST_STEP))
    };
    let short_of_end = |place: f64| {
        if upward {
            place.min(end)
        } else {
            place.max(end)
        }
    };
    let mut last = (room.limit.0, at_limit);
    let mut next = short_of_end(first);
    loop {
        let found = (next, excess(next));
        match (upward, found.1 > 0.0) {
            (true, false) => return falling_root(excess, last, found),
            (false, true) => return falling_root(excess, found, last),
            _ if next == end => return end,
            _ => {}
        }
        let slope = (found.1 - last.1) / (found.0 - last.0);
        let pointed_at = found.0 - found.1 / slope;
        next = if slope < 0.0 {
            short_of_end(found.0 + BEYOND * (pointed_at - found.0))
        } else {
            end
        };
        // A step too small to count must not keep the walk from its end.
        if (next - found.0).abs() < 1e-9 {
            next = short_of_end(found.0 + if upward { 1e-6 } else { -1e-6 });
        }
        last = found;
    }
}
