//! A criterion of the designer's or purchaser's own: one published value against one bound.

use super::{AskCode, Bound, BoundValue, Case, Criterion, CriterionValue, Findings, Reason};
use crate::cooling::CoolingCurves;
use crate::equipment::{
    Curve, FieldValue, Interpolate, Mode, ScaledLike, SevereSide, Speed, SpeedCurves, Turndown,
    Unit,
};
use crate::heating::{HeatingAt, HeatingCurves};
use crate::quantity::{Celsius, UnitSystem, fixed};

/// What a criterion's value was found to be.
#[derive(Clone, Debug, PartialEq)]
pub enum CriterionReading {
    /// Published or interpolated.
    Found(BoundValue),
    /// Not published.
    Unpublished,
}

/// A criterion that is not met.
#[derive(Debug)]
struct CriterionMissed {
    criterion: Criterion,
    found: BoundValue,
}

impl Reason for CriterionMissed {
    fn code(&self) -> &'static str {
        "criterion"
    }

    fn value(&self) -> Option<f64> {
        number(&self.found)
    }

    fn limit(&self) -> Option<f64> {
        match &self.criterion.bound {
            Bound::AtLeast(limit) | Bound::AtMost(limit) => Some(*limit),
            Bound::Equals(value) => number(value),
            Bound::OneOf(_) => None,
        }
    }

    fn unit(&self) -> &'static str {
        self.criterion.value.unit()
    }

    fn sentence(&self, units: UnitSystem) -> String {
        let unit = self.criterion.value.unit();
        let found = match &self.found {
            BoundValue::Number(value) => {
                format!("{} {unit}", fixed(*value, 2)).trim_end().to_owned()
            }
            other => other.to_string(),
        };
        let asked = self.criterion.bound.words(unit);
        format!(
            "{}: {found}, asked for {asked}{}",
            self.criterion.name,
            place(&self.criterion, units)
        )
    }

    fn remedy(&self, _units: UnitSystem) -> String {
        let unit = self.criterion.value.unit();
        let gap = |difference: f64| {
            format!("{} {unit}", fixed(difference, 2))
                .trim_end()
                .to_owned()
        };
        match (&self.criterion.bound, number(&self.found)) {
            (Bound::AtLeast(limit), Some(value)) => format!("{} more", gap(limit - value)),
            (Bound::AtMost(limit), Some(value)) => format!("{} less", gap(value - limit)),
            _ => format!(
                "a unit with {} {}",
                self.criterion.value.name(),
                self.criterion.bound.words(unit)
            ),
        }
    }
}

fn number(value: &BoundValue) -> Option<f64> {
    match value {
        BoundValue::Number(number) => Some(*number),
        BoundValue::Text(_) | BoundValue::Flag(_) => None,
    }
}

fn place(criterion: &Criterion, units: UnitSystem) -> String {
    criterion.at.map_or_else(String::new, |at| {
        format!(
            " at {} and {} speed",
            units.temperature(at),
            criterion.speed.name()
        )
    })
}

/// Judges every criterion of the criteria file.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    for criterion in &case.criteria.criteria {
        match reading(criterion, case.unit, case.heating, case.cooling) {
            CriterionReading::Unpublished => findings.unknown(
                AskCode::CriterionValue,
                format!(
                    "{}: {}{}",
                    criterion.name,
                    criterion.value.name(),
                    place(criterion, case.units)
                ),
            ),
            CriterionReading::Found(found) if keeps(&found, &criterion.bound) => {}
            CriterionReading::Found(found) => {
                findings.fails(CriterionMissed {
                    criterion: criterion.clone(),
                    found,
                });
            }
        }
    }
}

/// Whether a value keeps to a bound.
#[must_use]
pub fn keeps(found: &BoundValue, bound: &Bound) -> bool {
    match bound {
        Bound::AtLeast(limit) => number(found).is_some_and(|value| value >= *limit),
        Bound::AtMost(limit) => number(found).is_some_and(|value| value <= *limit),
        Bound::Equals(value) => same(found, value),
        Bound::OneOf(values) => values.iter().any(|value| same(found, value)),
    }
}

/// Equality as a reader means it: words without regard to case.
fn same(found: &BoundValue, wanted: &BoundValue) -> bool {
    match (found, wanted) {
        (BoundValue::Text(found), BoundValue::Text(wanted)) => found.eq_ignore_ascii_case(wanted),
        (found, wanted) => found == wanted,
    }
}

/// The value of a criterion in a unit.
///
/// A value off a curve is interpolated at its speed; below the operating limit heating capacity and COP are zero, and
/// that is proven. The rated speed has a value only where it is published; so has the sensible heat ratio.
#[must_use]
pub fn reading(
    criterion: &Criterion,
    unit: &Unit,
    heating: Option<&HeatingCurves>,
    cooling: Option<&CoolingCurves>,
) -> CriterionReading {
    if let CriterionValue::Field(field) = criterion.value {
        return match (field.get)(&unit.model) {
            None => CriterionReading::Unpublished,
            Some(FieldValue::Number(value)) => CriterionReading::Found(BoundValue::Number(value)),
            Some(FieldValue::Text(text)) => {
                CriterionReading::Found(BoundValue::Text(text.to_owned()))
            }
            Some(FieldValue::Flag(flag)) => CriterionReading::Found(BoundValue::Flag(flag)),
        };
    }
    let value = criterion
        .at
        .and_then(|at| value_at(criterion, at, unit, heating, cooling))
        .filter(|value| value.is_finite());
    value.map_or(CriterionReading::Unpublished, |value| {
        CriterionReading::Found(BoundValue::Number(value))
    })
}

fn value_at(
    criterion: &Criterion,
    at: Celsius,
    unit: &Unit,
    heating: Option<&HeatingCurves>,
    cooling: Option<&CoolingCurves>,
) -> Option<f64> {
    match criterion.value {
        CriterionValue::HeatingCapacity | CriterionValue::HeatingCop => {
            let heating = heating?;
            if heating.at(at) == HeatingAt::LockedOut {
                return Some(0.0);
            }
            let performance = speed_at(&heating.speeds, criterion.speed, at)?;
            Some(match criterion.value {
                CriterionValue::HeatingCop => performance.cop(),
                _ => performance.capacity.0,
            })
        }
        CriterionValue::CoolingCapacity | CriterionValue::CoolingCop => {
            let performance = speed_at(cooling?.rating_speeds(), criterion.speed, at)?;
            Some(match criterion.value {
                CriterionValue::CoolingCop => performance.capacity / performance.power,
                _ => performance.capacity.0,
            })
        }
        CriterionValue::CoolingShr => published_ratio(unit, cooling?, criterion.speed, at),
        CriterionValue::Field(_) => None,
    }
}

/// A speed's value at a temperature where the maximum has one too.
fn speed_at<P: ScaledLike>(speeds: &SpeedCurves<P>, speed: Speed, at: Celsius) -> Option<P> {
    let all = speeds.at(at)?;
    match speed {
        Speed::Maximum => Some(all.maximum),
        Speed::Rated => speeds.published_rated().and_then(|curve| curve.at(at)),
        Speed::Minimum => (speeds.turndown() != Turndown::Unknown).then_some(all.minimum),
    }
}

/// The published sensible heat ratio at a speed and temperature, interpolated; a point without one has none.
fn published_ratio(unit: &Unit, cooling: &CoolingCurves, speed: Speed, at: Celsius) -> Option<f64> {
    cooling.at(at)?;
    let serving = cooling.rating_speeds().serving(speed)?;
    let points = unit
        .points
        .iter()
        .filter(|point| point.mode == Mode::Cooling && point.speed == serving)
        .map(|point| (point.outdoor, PublishedRatio(point.sensible_heat_ratio)))
        .collect();
    Curve::through(SevereSide::Hot, points)?.at(at)?.0
}

/// A sensible heat ratio that may not be published.
#[derive(Clone, Copy)]
struct PublishedRatio(Option<f64>);

impl Interpolate for PublishedRatio {
    fn toward(self, other: Self, fraction: f64) -> Self {
        Self(self.0.zip(other.0).map(|(a, b)| a + (b - a) * fraction))
    }

    fn credible(continued: crate::equipment::Continued<Self>) -> Self {
        Self(continued.value.0.map(|ratio| ratio.clamp(0.0, 1.0)))
    }
}
