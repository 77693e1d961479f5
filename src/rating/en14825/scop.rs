//! Seasonal coefficient of performance (SCOP) from declared part-load points.

use super::part_load::Lines;
use super::{AuxiliaryPowers, DeclarationError, HeatingClimate, PartLoad, ZERO_LOAD_OUTDOOR};
use crate::house::HeatingLoadLine;
use crate::quantity::{Celsius, Hours, KilowattHours, Kilowatts};

/// What a maker declares for one heating climate.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatingDeclaration {
    /// The reference climate.
    pub climate: HeatingClimate,
    /// Full heating load (Pdesignh) at the climate's design temperature.
    pub design_load: Kilowatts,
    /// Operation limit (TOL): colder than this the unit gives nothing.
    pub operation_limit: Celsius,
    /// Part-load points at -7, +2, +7 and +12 °C, the bivalent temperature and the operation limit, in any order.
    pub points: Vec<PartLoad>,
    /// Electric input beside the active mode.
    pub auxiliary: AuxiliaryPowers,
}

impl HeatingDeclaration {
    /// The heating load over outdoor temperature: `Pdesignh (T - 16) / (Tdesignh - 16)`.
    ///
    /// # Source
    /// EN 14825, part load ratio.
    #[must_use]
    pub fn load_line(&self) -> HeatingLoadLine {
        HeatingLoadLine {
            design_outdoor: self.climate.design_outdoor(),
            design_load: self.design_load,
            zero_load_outdoor: ZERO_LOAD_OUTDOOR,
        }
    }
}

/// One bin of the heating season.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatingBin {
    /// Outdoor dry bulb.
    pub outdoor: Celsius,
    /// Hours in the reference year.
    pub hours: Hours,
    /// Heating load.
    pub load: Kilowatts,
    /// Capacity of the heat pump, zero below the operation limit.
    pub capacity: Kilowatts,
    /// COP with cycling counted; `None` below the operation limit.
    pub cop: Option<f64>,
    /// Electric backup, at a COP of 1.
    pub backup: Kilowatts,
    /// Electricity of heat pump and backup over the bin's hours.
    pub electricity: KilowattHours,
}

/// A heating season, computed.
#[derive(Clone, Debug, PartialEq)]
pub struct SeasonalHeating {
    /// SCOP of the active mode, electric backup included.
    pub scop_on: f64,
    /// SCOP of active mode without backup: what the heat pump itself delivers for what it draws.
    pub scop_net: f64,
    /// Reference SCOP, auxiliary modes included.
    pub scop: f64,
    /// Reference annual electricity (QHE).
    pub electricity: KilowattHours,
    /// The bins, coldest first.
    pub bins: Vec<HeatingBin>,
}

/// Reference SCOP of a reversible air-to-air unit.
///
/// Per bin: the heat pump gives `min(load, capacity)` at COPbin, capacity and COPbin straight between the declared points
/// and continued beyond them; electric backup gives the rest at a COP of 1. Then
/// `SCOP = QH / (QH / SCOPon + auxiliary)`, with `QH = Pdesignh` times the equivalent hours.
///
/// # Errors
/// [`DeclarationError`] where fewer than two temperatures are declared, or the lines lead to a COP of zero or less.
///
/// # Source
/// EN 14825, sections on SCOPon, SCOPnet and reference SCOP. The line beyond the coldest declared point is the standard's;
/// declaring a point at the operation limit, as the standard asks, leaves nothing to it.
pub fn scop(declaration: &HeatingDeclaration) -> Result<SeasonalHeating, DeclarationError> {
    let line = declaration.load_line();
    let lines = Lines::through(&declaration.points, |outdoor| line.at(outdoor))?;
    let bins = declaration
        .climate
        .bins()
        .map(|(outdoor, hours)| {
            let load = line.at(outdoor);
            if outdoor < declaration.operation_limit {
                let electricity = load * hours;
                return Ok(HeatingBin {
                    outdoor,
                    hours,
                    load,
                    capacity: Kilowatts::ZERO,
                    cop: None,
                    backup: load,
                    electricity,
                });
            }
            let here = lines.at(outdoor)?;
            let capacity = here.capacity.max(Kilowatts::ZERO);
            let delivered = load.min(capacity);
            let backup = load - delivered;
            let electricity = (delivered / here.efficiency + backup) * hours;
            Ok(HeatingBin {
                outdoor,
                hours,
                load,
                capacity,
                cop: Some(here.efficiency),
                backup,
                electricity,
            })
        })
        .collect::<Result<Vec<_>, DeclarationError>>()?;

    let demand: KilowattHours = bins.iter().map(|bin| bin.load * bin.hours).sum();
    let used: KilowattHours = bins.iter().map(|bin| bin.electricity).sum();
    let backup: KilowattHours = bins.iter().map(|bin| bin.backup * bin.hours).sum();
    let scop_on = demand / used;
    let reference = declaration.design_load * declaration.climate.equivalent_hours();
    let auxiliary = declaration
        .auxiliary
        .over(&declaration.climate.auxiliary_hours());
    let electricity = reference / scop_on + auxiliary;
    Ok(SeasonalHeating {
        scop_on,
        scop_net: (demand - backup) / (used - backup),
        scop: reference / electricity,
        electricity,
        bins,
    })
}

/// Seasonal space heating energy efficiency of an electric air-to-air unit in percent of primary energy:
/// `eta_s = 40 SCOP - 3`, with a conversion coefficient of 2.5 and 3 points for controls.
///
/// # Source
/// EN 14825; Commission Regulation (EU) 2016/2281.
#[must_use]
pub fn space_heating_efficiency_percent(scop: f64) -> f64 {
    40.0 * scop - 3.0
}
