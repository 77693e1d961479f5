//! The same house and unit in another climate, such as a severe year beside the typical one.

use super::{Brief, Judged};
use crate::climate::Climate;
use crate::equipment::Unit;
use crate::heating::HeatingSeason;
use crate::quantity::{Celsius, KilowattHours};

/// A house prepared in another climate than the one it is judged with.
#[derive(Debug)]
pub struct OtherClimate {
    /// The climate's key.
    pub key: String,
    /// Its coldest state; `None` for a climate without states.
    pub coldest: Option<Celsius>,
    brief: Brief,
}

/// What a unit's year comes to in one climate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YearThere {
    /// The winter.
    pub heating: HeatingSeason,
    /// Electricity of heating, backup and cooling; `None` where cooling's is not known.
    pub annual_electricity: Option<KilowattHours>,
}

impl YearThere {
    /// What a judged unit's year came to; `None` without a climate.
    #[must_use]
    pub fn of(judged: &Judged) -> Option<Self> {
        Some(Self {
            heating: judged.heating.season?,
            annual_electricity: judged.annual_electricity(),
        })
    }
}

/// The coldest state of a climate.
#[must_use]
pub fn coldest(climate: &Climate) -> Option<Celsius> {
    climate
        .states
        .iter()
        .map(|state| state.outdoor)
        .reduce(Celsius::min)
}

impl OtherClimate {
    /// The house of `brief` in another climate, asked for the same.
    #[must_use]
    pub fn new(brief: &Brief, climate: &Climate) -> Self {
        Self {
            key: climate.key.clone(),
            coldest: coldest(climate),
            brief: brief.in_climate(climate),
        }
    }

    /// What a unit's year comes to here.
    #[must_use]
    pub fn year(&self, unit: &Unit) -> Option<YearThere> {
        YearThere::of(&self.brief.judge(unit))
    }
}
