//! The sensible share of what a house itself asks for on a summer's design day.

use super::Room;
use crate::climate::State;
use crate::house::House;
use crate::quantity::HumidityRatio;

/// Sensible share of the house's load at the cooling design temperature.
///
/// The latent load is the moisture gained at the room's design humidity while outdoors is as humid as the climate's
/// states within 2 K of the design temperature are on average. `None` without a cooled house, its moisture gains, or
/// such states with a recorded humidity.
#[must_use]
pub fn house_sensible_heat_ratio_at_design(
    house: &House,
    room: &Room,
    states: &[State],
) -> Option<f64> {
    let cooling = house.cooling?;
    let moisture = house.moisture?;
    let near = |state: &&State| (state.outdoor - cooling.load.design_outdoor).0.abs() <= 2.0;
    let (mut hours, mut water) = (0.0, 0.0);
    for state in states.iter().filter(near) {
        hours += state.hours.0;
        water += state.hours.0 * state.humidity_ratio?.0;
    }
    let outdoor = HumidityRatio(water / hours);
    let gain = moisture.gain(room.design, outdoor);
    let latent = (gain / room.removal_per_kilowatt()).max(0.0);
    let sensible = cooling.load.design_sensible.0;
    (hours > 0.0).then(|| sensible / (sensible + latent))
}
