//! Seasonal energy efficiency ratio (SEER) from declared part-load points.

use super::part_load::Lines;
use super::{
    AuxiliaryPowers, COOLING_AUXILIARY_HOURS, COOLING_BINS, COOLING_DESIGN_OUTDOOR,
    COOLING_EQUIVALENT_HOURS, DeclarationError, PartLoad, ZERO_LOAD_OUTDOOR,
};
use crate::house::CoolingLoadLine;
use crate::quantity::{KilowattHours, Kilowatts};

/// What a maker declares for the cooling season.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolingDeclaration {
    /// Full cooling load (Pdesignc) at 35 °C.
    pub design_load: Kilowatts,
    /// Part-load points at 35, 30, 25 and 20 °C, in any order.
    pub points: Vec<PartLoad>,
    /// Electric input beside the active mode.
    pub auxiliary: AuxiliaryPowers,
}

/// A cooling season, computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeasonalCooling {
    /// SEER of the active mode \[kWh/kWh\].
    pub seer_on: f64,
    /// Reference SEER, auxiliary modes included \[kWh/kWh\].
    pub seer: f64,
    /// Reference annual electricity (QCE).
    pub electricity: KilowattHours,
}

/// Reference SEER of a reversible air-to-air unit.
///
/// Load `Pdesignc (T - 16) / (35 - 16)`; EERbin straight between the declared points and held at 20 and 35 °C;
/// `SEER = QC / (QC / SEERon + auxiliary)`, with `QC = Pdesignc · 350 h`.
///
/// # Errors
/// [`DeclarationError`] where fewer than two temperatures are declared.
///
/// # Source
/// EN 14825, sections on SEERon and reference SEER.
pub fn seer(declaration: &CoolingDeclaration) -> Result<SeasonalCooling, DeclarationError> {
    let line = CoolingLoadLine {
        design_outdoor: COOLING_DESIGN_OUTDOOR,
        design_sensible: declaration.design_load,
        zero_load_outdoor: ZERO_LOAD_OUTDOOR,
    };
    let lines = Lines::through(&declaration.points, |outdoor| line.at(outdoor))?;
    let mut demand = KilowattHours::ZERO;
    let mut used = KilowattHours::ZERO;
    for (outdoor, hours) in COOLING_BINS {
        let heat = line.at(outdoor) * hours;
        demand += heat;
        used += heat / lines.held_at(outdoor)?.efficiency;
    }
    let seer_on = demand / used;
    let reference = declaration.design_load * COOLING_EQUIVALENT_HOURS;
    let electricity = reference / seer_on + declaration.auxiliary.over(&COOLING_AUXILIARY_HOURS);
    Ok(SeasonalCooling {
        seer_on,
        seer: reference / electricity,
        electricity,
    })
}
