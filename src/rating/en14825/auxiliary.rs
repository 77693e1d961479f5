//! Electricity that a unit draws while it neither heats nor cools.

use crate::quantity::{Hours, KilowattHours, Kilowatts};

/// Electric input of the modes beside the active one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AuxiliaryPowers {
    /// The season is on, the room is satisfied.
    pub thermostat_off: Kilowatts,
    /// Waiting for a signal.
    pub standby: Kilowatts,
    /// The heater that keeps refrigerant out of the oil.
    pub crankcase: Kilowatts,
    /// Switched off.
    pub off: Kilowatts,
}

/// Hours a year of the modes beside the active one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AuxiliaryHours {
    /// Hours with the thermostat satisfied.
    pub thermostat_off: Hours,
    /// Hours in standby.
    pub standby: Hours,
    /// Hours with a heated crankcase.
    pub crankcase: Hours,
    /// Hours switched off.
    pub off: Hours,
}

impl AuxiliaryPowers {
    /// Electricity over the year's hours of these modes: `H_TO P_TO + H_SB P_SB + H_CK P_CK + H_OFF P_OFF`.
    ///
    /// # Source
    /// EN 14825, reference SCOP and SEER.
    #[must_use]
    pub fn over(&self, hours: &AuxiliaryHours) -> KilowattHours {
        self.thermostat_off * hours.thermostat_off
            + self.standby * hours.standby
            + self.crankcase * hours.crankcase
            + self.off * hours.off
    }
}
