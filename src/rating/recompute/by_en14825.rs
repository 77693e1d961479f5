//! SCOP and SEER from a catalog unit.
//!
//! Which speed serves as which declared point is our rule, after how the catalog stores a declaration: full capacity at
//! -7 °C and the operation limit as `maximum`, +2 and +7 °C as `rated`, +12 °C as `minimum`; in cooling full capacity at
//! 35 °C as `maximum` (or `rated`, where there is no maximum), 30 and 25 °C as `rated`, 20 °C as `minimum`.

use super::published::{IndoorCondition, Lookup};
use super::{Assumption, Comparison, Outcome};
use crate::equipment::{Mode, Point, Speed, Unit};
use crate::quantity::{Celsius, Kilowatts};
use crate::rating::en14825::{
    self, AuxiliaryPowers, CoolingDeclaration, CyclingLoss, DeclarationError, HeatingClimate,
    HeatingDeclaration, PartLoad,
};

/// Bivalent temperature that is assumed, as the standard's average climate allows at the warmest.
const BIVALENT: Celsius = Celsius(-7.0);

/// The largest auxiliary powers among 24 certified single-split air-to-air units, by season.
///
/// # Source
/// Certified register as collected in the open hplib data set (CC BY 4.0). A unit with a crankcase heater that runs
/// by itself may draw tens of watts more; none is among the 24.
const LARGEST_IN_HEATING: AuxiliaryPowers = AuxiliaryPowers {
    thermostat_off: Kilowatts(0.033),
    standby: Kilowatts(0.010),
    crankcase: Kilowatts(0.001),
    off: Kilowatts(0.010),
};
const LARGEST_IN_COOLING: AuxiliaryPowers = AuxiliaryPowers {
    thermostat_off: Kilowatts(0.017),
    ..LARGEST_IN_HEATING
};

/// Air entering the indoor coil at the standard's rating conditions.
fn indoor(mode: Mode) -> IndoorCondition {
    match mode {
        Mode::Heating => IndoorCondition {
            dry_bulb: Celsius(20.0),
            wet_bulb: None,
        },
        Mode::Cooling => IndoorCondition {
            dry_bulb: Celsius(27.0),
            wet_bulb: Some(Celsius(19.0)),
        },
    }
}

/// SCOP in the average climate.
pub(super) fn scop(unit: &Unit, declared: f64) -> Outcome {
    let mut lookup = Lookup::new(unit, indoor);
    let mut assumptions = Vec::new();
    let heating = Mode::Heating;
    let bivalent = lookup.need(heating, Speed::Maximum, BIVALENT);
    let at_two = lookup.need(heating, Speed::Rated, Celsius(2.0));
    let mut points = vec![
        bivalent,
        at_two,
        lookup.need(heating, Speed::Rated, Celsius(7.0)),
        lookup.need(heating, Speed::Minimum, Celsius(12.0)),
    ];
    let design_outdoor = HeatingClimate::Average.design_outdoor();
    let (operation_limit, at_limit) =
        operation_limit(unit, &mut lookup, design_outdoor, &mut assumptions);
    points.push(at_limit);
    let (Some(bivalent), Some(at_two), true) = (bivalent, at_two, lookup.missing.is_empty()) else {
        return Outcome::Missing(lookup.missing);
    };

    let design_loads = design_loads(bivalent, at_two);
    let [at_most, at_least] = design_loads;
    assumptions.insert(0, Assumption::HeatingDesignLoad { at_most, at_least });
    let loss = loss(unit.model.degradation_heating, &mut assumptions);
    let powers = auxiliary(unit, LARGEST_IN_HEATING, false, &mut assumptions);
    let figures = design_loads
        .into_iter()
        .flat_map(|design_load| powers.map(|auxiliary| (design_load, auxiliary)))
        .map(|(design_load, auxiliary)| {
            let declaration = HeatingDeclaration {
                climate: HeatingClimate::Average,
                design_load,
                operation_limit,
                points: part_loads(&points, loss),
                auxiliary,
            };
            en14825::scop(&declaration).map(|season| season.scop)
        });
    compared(declared, figures, assumptions)
}

/// The largest and the least design load that a declaration may rest on. **Our rule.**
///
/// The largest: the unit just carries the load at -7 °C, `P (16 + 7)/(16 + 10) = capacity`. A maker may round the design
/// load down from there, or the unit may carry more than the load at -7 °C. The least: the capacity declared at +2 °C
/// is the load there, as the part-load tests ask for, though no less than 10 % below the largest.
///
/// A few percent matter here: a larger load calls for more backup, and a point that leaves the 10 % in which a step counts
/// as steady loses efficiency at a stroke. Between the two loads the SCOP of a certified unit can differ by 10 %.
fn design_loads(bivalent: &Point, at_two: &Point) -> [Kilowatts; 2] {
    let zero = en14825::ZERO_LOAD_OUTDOOR;
    let span = zero - HeatingClimate::Average.design_outdoor();
    let at_most = bivalent.capacity * (span / (zero - bivalent.outdoor));
    let by_part_load = at_two.capacity * (span / (zero - at_two.outdoor));
    [at_most, by_part_load.max(at_most * 0.9).min(at_most)]
}

/// The operation limit and the point that stands for it: at the limit itself, or, where the limit is colder than the
/// design temperature, the coldest point at or below that.
fn operation_limit<'a>(
    unit: &Unit,
    lookup: &mut Lookup<'a>,
    design_outdoor: Celsius,
    assumptions: &mut Vec<Assumption>,
) -> (Celsius, Option<&'a Point>) {
    let coldest = lookup
        .usable(Mode::Heating, Speed::Maximum)
        .min_by(|left, right| left.outdoor.0.total_cmp(&right.outdoor.0));
    match (unit.model.operates_to, coldest) {
        (Some(limit), Some(coldest))
            if limit <= design_outdoor && coldest.outdoor <= design_outdoor =>
        {
            (limit, Some(coldest))
        }
        (Some(limit), _) => (limit, lookup.need(Mode::Heating, Speed::Maximum, limit)),
        (None, Some(coldest)) if coldest.outdoor <= BIVALENT => {
            assumptions.push(Assumption::OperationLimit(coldest.outdoor));
            (coldest.outdoor, Some(coldest))
        }
        (None, _) => (
            design_outdoor,
            lookup.need(Mode::Heating, Speed::Maximum, design_outdoor),
        ),
    }
}

/// SEER.
pub(super) fn seer(unit: &Unit, declared: f64) -> Outcome {
    let mut lookup = Lookup::new(unit, indoor);
    let mut assumptions = Vec::new();
    let cooling = Mode::Cooling;
    let design_outdoor = en14825::COOLING_DESIGN_OUTDOOR;
    let full = lookup
        .find(cooling, Speed::Maximum, design_outdoor)
        .or_else(|| lookup.find(cooling, Speed::Rated, design_outdoor))
        .or_else(|| lookup.need(cooling, Speed::Maximum, design_outdoor));
    let points = [
        full,
        lookup.need(cooling, Speed::Rated, Celsius(30.0)),
        lookup.need(cooling, Speed::Rated, Celsius(25.0)),
        lookup.need(cooling, Speed::Minimum, Celsius(20.0)),
    ];
    let (Some(full), true) = (full, lookup.missing.is_empty()) else {
        return Outcome::Missing(lookup.missing);
    };

    assumptions.push(Assumption::CoolingDesignLoad(full.capacity));
    let loss = loss(unit.model.degradation_cooling, &mut assumptions);
    let powers = auxiliary(unit, LARGEST_IN_COOLING, true, &mut assumptions);
    let figures = powers.into_iter().map(|auxiliary| {
        let points = part_loads(&points, loss);
        en14825::seer(&CoolingDeclaration {
            design_load: full.capacity,
            points,
            auxiliary,
        })
        .map(|season| season.seer)
    });
    compared(declared, figures, assumptions)
}

fn part_loads(points: &[Option<&Point>], loss: CyclingLoss) -> Vec<PartLoad> {
    points
        .iter()
        .flatten()
        .map(|point| PartLoad {
            outdoor: point.outdoor,
            capacity: point.capacity,
            efficiency: point.cop(),
            loss,
        })
        .collect()
}

fn loss(published: Option<f64>, assumptions: &mut Vec<Assumption>) -> CyclingLoss {
    published.map_or_else(
        || {
            assumptions.push(Assumption::DefaultDegradation(0.25));
            CyclingLoss::DEFAULT_AIR_TO_AIR
        },
        CyclingLoss::AirToAir,
    )
}

/// Auxiliary powers with the unknown ones at zero, and with the unknown ones at their largest.
///
/// A reversible unit is never off, and has no standby hours in the heating season, so that those powers are of no
/// account there.
fn auxiliary(
    unit: &Unit,
    largest: AuxiliaryPowers,
    standby_counts: bool,
    assumptions: &mut Vec<Assumption>,
) -> [AuxiliaryPowers; 2] {
    let standby = unit.model.standby_w.map(|watts| Kilowatts(watts / 1000.0));
    if standby_counts {
        assumptions.push(standby.map_or(
            Assumption::UnknownPower {
                mode: "standby",
                up_to: largest.standby,
            },
            Assumption::StandbyPower,
        ));
    }
    assumptions.push(Assumption::UnknownPower {
        mode: "thermostat-off",
        up_to: largest.thermostat_off,
    });
    assumptions.push(Assumption::UnknownPower {
        mode: "crankcase heater",
        up_to: largest.crankcase,
    });
    let known = AuxiliaryPowers {
        standby: standby.unwrap_or_default(),
        ..AuxiliaryPowers::default()
    };
    [
        known,
        AuxiliaryPowers {
            standby: standby.unwrap_or(largest.standby),
            ..largest
        },
    ]
}

/// The first figure is the likeliest.
fn compared(
    declared: f64,
    figures: impl Iterator<Item = Result<f64, DeclarationError>>,
    assumptions: Vec<Assumption>,
) -> Outcome {
    match figures.collect::<Result<Vec<f64>, _>>().as_deref() {
        Ok([likeliest, others @ ..]) => {
            Outcome::Compared(Comparison::new(declared, *likeliest, others, assumptions))
        }
        Ok([]) => Outcome::Unphysical("no figure was computed".to_owned()),
        Err(error) => Outcome::Unphysical(error.to_string()),
    }
}
