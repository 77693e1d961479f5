//! Yes, but: what a reader must know beside a verdict.

use crate::quantity::{Celsius, Hours, UnitSystem};

/// One caveat, with its numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Caveat {
    /// Rated and maximum are published, a minimum is not.
    TurndownUnknown {
        /// Whether this is the cooling side.
        cooling: bool,
    },
    /// No sensible heat ratio is published at some cooling point.
    SensibleHeatRatioAssumed,
    /// A published sensible heat ratio does not fit its capacity and airflow.
    SensibleHeatRatioInconsistent {
        /// Outdoor temperature of the point.
        outdoor: Celsius,
    },
    /// Some heating hours are colder than anything published.
    UnprovenHeating {
        /// How many.
        hours: Hours,
        /// The coldest published point of the maximum, which decides what is proven.
        coldest: Celsius,
    },
    /// Some cooling hours are hotter than anything published.
    UnprovenCooling {
        /// How many.
        hours: Hours,
    },
    /// Nothing is published for cooling.
    NoCooling,
    /// The minimum's curve ends milder than the maximum's.
    MinimumScaled {
        /// Where it ends.
        end: Celsius,
        /// Whether this is the cooling side.
        cooling: bool,
    },
    /// The coldest heating point has the numbers of a milder one, digit for digit.
    RepeatedPoint {
        /// Outdoor temperature of the coldest point.
        coldest: Celsius,
        /// Outdoor temperature of the point whose numbers it has.
        milder: Celsius,
    },
    /// Moisture removed by a dehumidifier becomes heat in the room, which is not counted.
    DehumidifierHeatNotCounted,
}

impl Caveat {
    /// Stable code.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::TurndownUnknown { .. } => "turndown_unknown",
            Self::SensibleHeatRatioAssumed => "sensible_heat_ratio_assumed",
            Self::SensibleHeatRatioInconsistent { .. } => "sensible_heat_ratio_inconsistent",
            Self::UnprovenHeating { .. } => "unproven_heating",
            Self::UnprovenCooling { .. } => "unproven_cooling",
            Self::NoCooling => "no_cooling",
            Self::MinimumScaled { .. } => "minimum_scaled",
            Self::RepeatedPoint { .. } => "repeated_point",
            Self::DehumidifierHeatNotCounted => "dehumidifier_heat_not_counted",
        }
    }

    /// The caveat as a sentence.
    #[must_use]
    pub fn text(&self, units: UnitSystem) -> String {
        let season = |cooling: bool| if cooling { "cooling" } else { "heating" };
        match *self {
            Self::TurndownUnknown { cooling } => format!(
                "no minimum is published for {}: energy is computed as for a single speed, and how far it turns down is unknown",
                season(cooling)
            ),
            Self::SensibleHeatRatioAssumed => {
                "a sensible heat ratio is not published and taken as 0.75 (common practice: 0.70 to 0.80)".to_owned()
            }
            Self::SensibleHeatRatioInconsistent { outdoor } => format!(
                "the sensible heat ratio published at {} does not fit capacity and airflow: humidity is unknown",
                units.temperature(outdoor)
            ),
            Self::UnprovenHeating { hours, coldest } => format!(
                "{:.0} h are colder than the coldest published point ({}): no credit is given there",
                hours.0,
                units.temperature(coldest)
            ),
            Self::UnprovenCooling { hours } => format!(
                "{:.0} h are hotter than the hottest published point: nothing is counted there",
                hours.0
            ),
            Self::NoCooling => "nothing is published for cooling".to_owned(),
            Self::MinimumScaled { end, cooling } => format!(
                "the {} minimum ends at {}; beyond it is scaled like the maximum (our rule)",
                season(cooling),
                units.temperature(end)
            ),
            Self::RepeatedPoint { coldest, milder } => format!(
                "the heating point at {} has the numbers of the one at {}, digit for digit: probably copied, not measured",
                units.temperature(coldest),
                units.temperature(milder)
            ),
            Self::DehumidifierHeatNotCounted => {
                "heat of supplemental dehumidification is not fed back into the sensible load (our rule)".to_owned()
            }
        }
    }
}
