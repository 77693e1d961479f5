//! Seasonal efficiency by EN 14825: part-load points, cycling loss, and the reference year's bins.

mod auxiliary;
mod part_load;
mod scop;
mod season;
mod seer;

pub use auxiliary::{AuxiliaryHours, AuxiliaryPowers};
pub use part_load::{CyclingLoss, DeclarationError, PartLoad};
pub use scop::{
    HeatingBin, HeatingDeclaration, SeasonalHeating, scop, space_heating_efficiency_percent,
};
pub use season::{
    COOLING_AUXILIARY_HOURS, COOLING_BINS, COOLING_DESIGN_OUTDOOR, COOLING_EQUIVALENT_HOURS,
    HeatingClimate, ZERO_LOAD_OUTDOOR,
};
pub use seer::{CoolingDeclaration, SeasonalCooling, seer};
