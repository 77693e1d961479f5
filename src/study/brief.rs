//! What units are judged against: one house, one climate, one set of criteria, with all that is the same for every unit
//! computed once.

use super::{Caveat, Judged, Verdict};
use crate::climate::{Climate, State};
use crate::cooling::{
    CoolingCurves, CoolingFigures, CoolingSeason, CoolingState, Room, WithoutCall, cooling_season,
    without_call,
};
use crate::criteria::{self, Case, Criteria, Criterion, Findings, Requirement};
use crate::equipment::physics::repeated_coldest_point;
use crate::equipment::{ScaledLike, SpeedCurves, Turndown, Unit};
use crate::heating::{
    HeatingCurves, HeatingFigures, HeatingSeason, heating_season, season_without_points,
};
use crate::house::House;
use crate::quantity::{Hours, KilowattHours, Kilowatts, UnitSystem};

/// A house with its climate and criteria, ready to judge units.
#[derive(Debug)]
pub struct Brief {
    house: House,
    criteria: Criteria,
    states: Option<Vec<State>>,
    room: Room,
    without_call: Option<WithoutCall>,
    units: UnitSystem,
}

impl Brief {
    /// Prepares a house.
    ///
    /// - `climate`  `None`: no season is computed
    /// - `units`  in which questions to suppliers are written
    #[must_use]
    pub fn new(
        house: House,
        climate: Option<&Climate>,
        criteria: Criteria,
        units: UnitSystem,
    ) -> Self {
        let states = climate.map(|climate| climate.states.clone());
        Self::of(house, states, criteria, units)
    }

    /// The same climate and requirements with another house.
    #[must_use]
    pub fn with_house(&self, house: House) -> Self {
        Self::of(
            house,
            self.states.clone(),
            self.criteria.clone(),
            self.units,
        )
    }

    fn of(house: House, states: Option<Vec<State>>, criteria: Criteria, units: UnitSystem) -> Self {
        let room = Room::of(&house);
        let without_call = house
            .moisture
            .as_ref()
            .filter(|_| house.cooling.is_some())
            .zip(states.as_ref())
            .and_then(|(moisture, states)| without_call(&house, moisture, &room, states));
        Self {
            house,
            criteria,
            states,
            room,
            without_call,
            units,
        }
    }

    /// The same house and climate with other requirements.
    #[must_use]
    pub fn with_criteria(&self, criteria: Criteria, units: UnitSystem) -> Self {
        Self {
            house: self.house.clone(),
            criteria,
            states: self.states.clone(),
            room: self.room.clone(),
            without_call: self.without_call,
            units,
        }
    }

    /// The same house and requirements in another climate.
    #[must_use]
    pub fn in_climate(&self, climate: &Climate) -> Self {
        Self::new(
            self.house.clone(),
            Some(climate),
            self.criteria.clone(),
            self.units,
        )
    }

    /// The house.
    #[must_use]
    pub fn house(&self) -> &House {
        &self.house
    }

    /// What is asked of a unit.
    #[must_use]
    pub fn criteria(&self) -> &Criteria {
        &self.criteria
    }

    /// The units in which sentences are written.
    #[must_use]
    pub fn units(&self) -> UnitSystem {
        self.units
    }

    /// The climate's states; `None` without a climate.
    #[must_use]
    pub fn states(&self) -> Option<&[State]> {
        self.states.as_deref()
    }

    /// The room in summer.
    #[must_use]
    pub fn room(&self) -> &Room {
        &self.room
    }

    /// Moisture in the states without a call; `None` where humidity is not judged.
    #[must_use]
    pub fn without_call(&self) -> Option<&WithoutCall> {
        self.without_call.as_ref()
    }

    /// The heating curves of a unit in this house.
    #[must_use]
    pub fn heating_curves(&self, unit: &Unit) -> Option<HeatingCurves> {
        HeatingCurves::of(unit, self.house.indoor.heating)
    }

    /// The heating season of a unit; `None` without a climate.
    ///
    /// - `curves`  the unit's, of [`Brief::heating_curves`]
    #[must_use]
    pub fn heating_season(
        &self,
        unit: &Unit,
        curves: Option<&HeatingCurves>,
    ) -> Option<HeatingSeason> {
        let load = &self.house.heating.load;
        let states = self.states()?;
        Some(match curves {
            Some(_) => heating_season(load, curves, states),
            None => season_without_points(load, unit.model.operates_to, states),
        })
    }

    /// The cooling season of a unit, shown state by state to `visit`; `None` without a climate or a cooled house.
    pub fn cooling_season(
        &self,
        unit: Option<&CoolingCurves>,
        visit: impl FnMut(&State, &CoolingState),
    ) -> Option<CoolingSeason> {
        Some(cooling_season(
            self.house.cooling.as_ref()?,
            unit,
            &self.room,
            self.house.moisture.as_ref(),
            self.without_call.as_ref(),
            self.states()?,
            visit,
        ))
    }

    /// Standby electricity: the unit's standby input over the hours that call for neither heating nor cooling.
    fn standby(&self, unit: &Unit) -> Option<KilowattHours> {
        let idle = |state: &&State| self.house.is_without_call(state.outdoor);
        let hours: Hours = self
            .states()?
            .iter()
            .filter(idle)
            .map(|state| state.hours)
            .sum();
        unit.model
            .standby_w
            .map(|watts| Kilowatts(watts / 1000.0) * hours)
    }

    /// Whether cooling is asked about: by the house, or by a criterion of its own.
    fn needs_cooling_curves(&self) -> bool {
        let asks = |criterion: &Criterion| criterion.value.is_of_cooling();
        self.house.cooling.is_some() || self.criteria.criteria.iter().any(asks)
    }

    /// Judges one unit: figures, verdict, caveats.
    #[must_use]
    pub fn judge(&self, unit: &Unit) -> Judged {
        self.judge_by(unit, criteria::judge)
    }

    /// Judges one unit, and says beside it what each requirement found on its own.
    #[must_use]
    pub fn judge_each(&self, unit: &Unit) -> (Judged, Vec<(Requirement, Findings)>) {
        let mut each = Vec::new();
        let judged = self.judge_by(unit, |case| {
            each = criteria::judge_each(case);
            criteria::judge(case)
        });
        (judged, each)
    }

    fn judge_by(&self, unit: &Unit, findings: impl FnOnce(&Case<'_>) -> Findings) -> Judged {
        let heating = self.heating_curves(unit);
        let cooling = self
            .needs_cooling_curves()
            .then(|| CoolingCurves::of(unit))
            .flatten();
        let heating_figures = HeatingFigures::at_design(
            &self.house.heating.load,
            heating.as_ref(),
            unit.model.operates_to,
            self.heating_season(unit, heating.as_ref()),
        );
        let cooling_figures = self.house.cooling.as_ref().map(|load| {
            let season = self.cooling_season(cooling.as_ref(), |_, _| {});
            CoolingFigures::at_design(load, cooling.as_ref(), &self.room, season)
        });
        let findings = findings(&Case {
            house: &self.house,
            states: self.states(),
            criteria: &self.criteria,
            room: &self.room,
            unit,
            heating: heating.as_ref(),
            cooling: cooling.as_ref(),
            heating_figures: &heating_figures,
            cooling_figures: cooling_figures.as_ref(),
            units: self.units,
        });
        let mut caveats = heating
            .as_ref()
            .map_or_else(Vec::new, |curves| heating_caveats(curves, &heating_figures));
        if let Some((coldest, milder)) = repeated_coldest_point(unit) {
            caveats.push(Caveat::RepeatedPoint {
                coldest: coldest.outdoor,
                milder: milder.outdoor,
            });
        }
        if let Some(figures) = &cooling_figures {
            caveats.extend(cooling_caveats(cooling.as_ref(), figures.season.as_ref()));
        }
        Judged {
            model: unit.model.clone(),
            standby: self.standby(unit),
            running: None,
            caveats,
            heating: heating_figures,
            cooling: cooling_figures,
            verdict: Verdict::of(findings),
        }
    }
}

fn heating_caveats(heating: &HeatingCurves, figures: &HeatingFigures) -> Vec<Caveat> {
    let mut caveats = of_speeds(&heating.speeds, false);
    let unproven = figures
        .season
        .map_or(Hours::ZERO, |season| season.unproven_hours);
    if unproven > Hours::ZERO {
        caveats.push(Caveat::UnprovenHeating {
            hours: unproven,
            coldest: heating.speeds.maximum().severe_end(),
        });
    }
    caveats
}

/// What a reader must know of a unit's cooling; `season` `None` without a climate.
#[must_use]
pub fn cooling_caveats(
    cooling: Option<&CoolingCurves>,
    season: Option<&CoolingSeason>,
) -> Vec<Caveat> {
    let Some(cooling) = cooling else {
        return vec![Caveat::NoCooling];
    };
    let mut caveats = of_speeds(cooling.rating_speeds(), true);
    if let Some((point, _)) = cooling.inconsistent {
        caveats.push(Caveat::SensibleHeatRatioInconsistent {
            outdoor: point.outdoor,
        });
    }
    if cooling.assumed_sensible_heat_ratio {
        caveats.push(Caveat::SensibleHeatRatioAssumed);
    }
    if let Some(season) = season {
        if season.unproven_hours > Hours::ZERO {
            caveats.push(Caveat::UnprovenCooling {
                hours: season.unproven_hours,
            });
        }
        let humidity = season.known.and_then(|known| known.humidity);
        if humidity.is_some_and(|humidity| humidity.supplemental.0 > 0.0) {
            caveats.push(Caveat::DehumidifierHeatNotCounted);
        }
    }
    caveats
}

fn of_speeds<P: ScaledLike>(speeds: &SpeedCurves<P>, cooling: bool) -> Vec<Caveat> {
    let mut caveats = Vec::new();
    if speeds.turndown() == Turndown::Unknown {
        caveats.push(Caveat::TurndownUnknown { cooling });
    }
    if let Some(end) = speeds.scaled_beyond() {
        caveats.push(Caveat::MinimumScaled { end, cooling });
    }
    caveats
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::criteria::{Bound, CriterionValue};
    use crate::equipment::Speed;
    use crate::quantity::Celsius;
    use crate::study::Verdict;
    use crate::study::test_house::{house, unit};

    // Once a criterion on cooling was "not published" in a house without a [cooling] section.
    #[test]
    fn a_criterion_on_cooling_is_judged_in_a_house_that_is_not_cooled() {
        let mut heated = house(0.0, 0.0);
        heated.cooling = None;
        heated.moisture = None;
        let verdict = |least: f64| {
            let criterion = Criterion {
                name: "cooling".to_owned(),
                value: CriterionValue::CoolingCapacity,
                speed: Speed::Maximum,
                at: Some(Celsius(30.0)),
                bound: Bound::AtLeast(least),
            };
            let criteria = Criteria {
                criteria: vec![criterion],
                ..Criteria::default()
            };
            let brief = Brief::new(heated.clone(), None, criteria, UnitSystem::Si);
            brief.judge(&unit("a", 20.0, 5.0)).verdict
        };
        assert!(matches!(verdict(0.1), Verdict::Accepted));
        assert!(
            matches!(verdict(100.0), Verdict::Rejected(reasons) if reasons[0].code() == "criterion")
        );
    }
}
