//! The room stays dry: it is not above its humidity limit in too large a share of the hours with a call.
//!
//! ## Why it matters
//! A unit too large for the summer load meets the thermostat before it has dried the air.
//!
//! ## Source
//! The limit on the share is our default, no source; the balance is gains = removal in every climate state.

use super::carries_cooling_design::inconsistent_ratio;
use super::season_share::{ShareOutcome, judge_share};
use super::turns_down::beyond_hottest;
use super::{AskCode, Case, Findings, Reason};
use crate::equipment::Turndown;
use crate::quantity::{Hours, KilogramsPerHour, UnitSystem};

/// The room is too humid in too large a share of the cooling hours.
#[derive(Debug)]
struct Humid {
    share: f64,
    largest: f64,
    hours: Hours,
    humidity_limit: f64,
    peak: Option<f64>,
    /// Sensible share of the design load, and of the unit's capacity at its maximum and at its minimum.
    ratios: Ratios,
    supplemental_peak: KilogramsPerHour,
    supplemental_l_per_year: f64,
}

/// Sensible heat ratios at the cooling design temperature.
#[derive(Clone, Copy, Debug, Default)]
struct Ratios {
    house: Option<f64>,
    at_maximum: Option<f64>,
    at_minimum: Option<f64>,
}

impl Reason for Humid {
    fn code(&self) -> &'static str {
        "humid"
    }

    fn value(&self) -> Option<f64> {
        Some(self.share)
    }

    fn limit(&self) -> Option<f64> {
        Some(self.largest)
    }

    fn unit(&self) -> &'static str {
        "share"
    }

    fn sentence(&self, _units: UnitSystem) -> String {
        let mut text = format!(
            "leaves the room above {:.0} % relative humidity in {:.0} % of the cooling hours ({:.0} h a year; limit {:.0} %)",
            self.humidity_limit * 100.0,
            self.share * 100.0,
            self.hours.0,
            self.largest * 100.0,
        );
        if let Some(peak) = self.peak {
            text += &format!(", {:.0} % at the peak", peak * 100.0);
        }
        if let (Some(house), Some(at_maximum)) = (self.ratios.house, self.ratios.at_maximum) {
            text += &format!(
                "; the design load is {:.0} % sensible, the unit's output {:.0} %",
                house * 100.0,
                at_maximum * 100.0
            );
            if let Some(at_minimum) = self.ratios.at_minimum {
                text += &format!(
                    " at its maximum and {:.0} % at its minimum",
                    at_minimum * 100.0
                );
            }
        }
        text
    }

    fn remedy(&self, units: UnitSystem) -> String {
        format!(
            "a lower minimum, a lower sensible heat ratio, or supplemental dehumidification of up to {} ({} a year)",
            units.water_per_day(self.supplemental_peak),
            units.water_per_year(self.supplemental_l_per_year),
        )
    }
}

/// Judges humidity.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    let largest = case.criteria.requirements.max_humid_share;
    let Some(season) = case.cooling_figures.and_then(|figures| figures.season) else {
        return;
    };
    if largest >= 1.0 || !case.humidity_is_judged() {
        return;
    }
    if case
        .cooling
        .is_none_or(|curves| curves.turndown() == Turndown::Unknown)
    {
        findings.unknown(
            AskCode::MinimumCooling,
            "capacity, input, sensible heat ratio and airflow at the minimum speed in cooling",
        );
    }
    if case.cooling.is_some() && season.known.is_none() {
        findings.unknown(AskCode::SensibleHeatRatio, inconsistent_ratio(case));
    }
    let Some((curves, humidity)) = case
        .cooling
        .zip(season.known.and_then(|known| known.humidity))
    else {
        return;
    };
    match judge_share(
        humidity.humid_hours,
        season.unproven_hours,
        season.cooling_hours,
        largest,
    ) {
        ShareOutcome::Holds => {}
        ShareOutcome::Unproven => {
            findings.unknown(AskCode::CapacityAtDesign, beyond_hottest(case, curves))
        }
        ShareOutcome::Fails { share } => findings.fails(Humid {
            share,
            largest,
            hours: humidity.humid_hours,
            humidity_limit: case.house.indoor.humidity_limit,
            peak: humidity.peak_relative_humidity,
            ratios: ratios(case),
            supplemental_peak: humidity.supplemental_peak,
            supplemental_l_per_year: humidity.supplemental.0,
        }),
    }
}

/// Sensible heat ratios of house and unit at the cooling design temperature, set point and 50 % relative humidity.
fn ratios(case: &Case<'_>) -> Ratios {
    let (Some(cooling), Some(curves)) = (case.house.cooling, case.cooling) else {
        return Ratios::default();
    };
    let room = case.room;
    let Some(speeds) = curves.at(cooling.load.design_outdoor) else {
        return Ratios::default();
    };
    let speeds = speeds.at(room.wet_bulb(room.design));
    let ratio = |performance: crate::cooling::CoilPerformance| {
        let coil = performance.coil()?;
        Some(
            coil.split(room.temperature, room.design, &room.air)
                .sensible_heat_ratio(),
        )
    };
    Ratios {
        house: case.house_sensible_heat_ratio_at_design(),
        at_maximum: ratio(speeds.maximum),
        at_minimum: ratio(speeds.minimum),
    }
}
