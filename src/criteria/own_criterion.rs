//! A criterion of the designer's or purchaser's own: one published value against one bound.

use super::{AskCode, Bound, BoundValue, Case, Criterion, CriterionValue, Findings, Reason};
use crate::cooling::CoolingCurves;
use crate::equipment::{
    Curve, FieldValue, Interpolate, Mode, ScaledLike, SevereSide, Speed, SpeedCurves, Turndown,
    Unit,
};
use crate::heating::{HeatingAt, HeatingCurves};
use crate::quantity::{Celsius, Kelvins, Kilowatts, UnitSystem, fixed};

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

    fn name(&self) -> Option<&str> {
        Some(self.criterion.label())
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
        let value = self.criterion.value;
        let found = match &self.found {
            BoundValue::Number(number) if value.unit().is_empty() => fixed(*number, 2),
            BoundValue::Number(number) => value.words(*number, units),
            other => other.to_string(),
        };
        let asked = self.criterion.bound.words(value, units);
        format!(
            "{}: {found}, asked for {asked}{}",
            self.criterion.label(),
            place(&self.criterion, units)
        )
    }

    fn remedy(&self, units: UnitSystem) -> String {
        let value = self.criterion.value;
        let gap = |difference: f64| match value.unit() {
            "" => fixed(difference, 2),
            "kW" => units.shortfall(Kilowatts(difference)),
            "°C" => units.difference(Kelvins(difference)),
            _ => value.words(difference, units),
        };
        match (&self.criterion.bound, number(&self.found)) {
            (Bound::AtLeast(limit), Some(value)) => format!("{} more", gap(limit - value)),
            (Bound::AtMost(limit), Some(value)) => format!("{} less", gap(value - limit)),
            _ => format!(
                "a unit with {} {}",
                self.criterion.value.name(),
                self.criterion.bound.words(value, units)
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

/// What to ask for: the value and its place, behind the criterion's name where it has one of its own.
fn question(criterion: &Criterion, units: UnitSystem) -> String {
    let value = format!("{}{}", criterion.value.name(), place(criterion, units));
    match criterion.label() {
        label if label == criterion.value.name() => value,
        label => format!("{label}: {value}"),
    }
}

/// Judges every criterion of the criteria file.
pub(super) fn judge(case: &Case<'_>, findings: &mut Findings) {
    for criterion in &case.criteria.criteria {
        match reading(criterion, case.unit, case.heating, case.cooling) {
            CriterionReading::Unpublished => {
                findings.unknown(AskCode::CriterionValue, question(criterion, case.units))
            }
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

#[cfg(test)]
mod tests {
    use super::super::testing::{
        assert_accepted, findings, heated_house, only_question, only_reason,
    };
    use super::super::{Criteria, Requirements};
    use super::*;
    use crate::equipment::testing::unit;

    fn criterion(value: &str, speed: Speed, at: Option<f64>, bound: Bound) -> Criterion {
        Criterion {
            name: format!("my {value}"),
            value: CriterionValue::from_name(value).unwrap(),
            speed,
            at: at.map(Celsius),
            bound,
        }
    }

    fn judged(criterion: Criterion, unit: &Unit) -> Findings {
        let requirements = Requirements {
            full_load_without_backup: false,
            ..Requirements::default()
        };
        let criteria = Criteria {
            requirements,
            criteria: vec![criterion],
        };
        findings(&heated_house(), None, &criteria, unit)
    }

    fn text(word: &str) -> BoundValue {
        BoundValue::Text(word.to_owned())
    }

    /// 8 kW at COP 2 at -15 °C, 12 kW at COP 4 at 5 °C: by hand 10 kW and 3.5 kW of input at -5 °C.
    fn heats() -> Unit {
        unit("u").heats(Speed::Maximum, &[(5.0, 12.0, 4.0), (-15.0, 8.0, 2.0)])
    }

    #[test]
    fn a_value_at_the_bound_passes_and_one_beyond_fails_with_the_gap() {
        let cop = |bound| criterion("heating.cop", Speed::Maximum, Some(-5.0), bound);
        let (at_bound, above) = (10.0 / 3.5, (10.0 / 3.5_f64).next_up());
        assert_accepted(&judged(cop(Bound::AtLeast(at_bound)), &heats()));
        assert_accepted(&judged(cop(Bound::AtMost(at_bound)), &heats()));
        assert_eq!(
            only_reason(&judged(cop(Bound::AtLeast(above)), &heats())).0,
            "criterion"
        );

        let found = judged(cop(Bound::AtLeast(3.0)), &heats());
        let reason = (
            "criterion",
            "my heating.cop: 2.86, asked for at least 3 at -5.0 °C and maximum speed".to_owned(),
            "0.14 more".to_owned(),
        );
        assert_eq!(only_reason(&found), reason);
        assert_eq!(
            (found.reasons[0].value(), found.reasons[0].limit()),
            (Some(at_bound), Some(3.0))
        );

        let capacity = criterion(
            "heating.capacity",
            Speed::Maximum,
            Some(-5.0),
            Bound::AtMost(9.5),
        );
        let reason = (
            "criterion",
            "my heating.capacity: 10.00 kW, asked for at most 9.50 kW at -5.0 °C and maximum speed"
                .to_owned(),
            "0.50 kW less".to_owned(),
        );
        let found = judged(capacity, &heats());
        assert_eq!(only_reason(&found), reason);
        // By hand: 10 kW are 34.12 kBtu/h, 9.5 kW are 32.42 kBtu/h, -5 °C are 23 °F.
        assert_eq!(
            found.reasons[0].sentence(UnitSystem::Ip),
            "my heating.capacity: 34.1 kBtu/h, asked for at most 32.4 kBtu/h at 23.0 °F and maximum speed"
        );
        assert_eq!(found.reasons[0].remedy(UnitSystem::Ip), "1.7 kBtu/h less");
    }

    // By hand: 5 K are 9 °F.
    #[test]
    fn a_limit_missed_is_missed_by_a_difference_and_not_by_a_temperature() {
        let cold = criterion("operates_to_c", Speed::Maximum, None, Bound::AtMost(-20.0));
        let found = judged(cold, &heats().runs_to(-15.0));
        let reason = &found.reasons[0];
        assert_eq!(
            reason.sentence(UnitSystem::Ip),
            "my operates_to_c: 5.0 °F, asked for at most -4.0 °F"
        );
        assert_eq!(reason.remedy(UnitSystem::Si), "5.0 K less");
        assert_eq!(reason.remedy(UnitSystem::Ip), "9.0 °F less");
    }

    #[test]
    fn a_value_that_is_not_published_is_asked_for() {
        let cold = criterion(
            "heating.cop",
            Speed::Maximum,
            Some(-16.0),
            Bound::AtLeast(1.0),
        );
        let question = "my heating.cop: heating.cop at -16.0 °C and maximum speed";
        assert_eq!(
            only_question(&judged(cold, &heats())),
            ("criterion_value", question)
        );
        let rated = criterion("heating.cop", Speed::Rated, Some(0.0), Bound::AtLeast(1.0));
        assert_eq!(only_question(&judged(rated, &heats())).0, "criterion_value");
        let declared = criterion("hspf", Speed::Maximum, None, Bound::AtLeast(10.0));
        assert_eq!(
            only_question(&judged(declared, &heats())),
            ("criterion_value", "my hspf: hspf")
        );
        let mut unnamed = criterion("hspf", Speed::Maximum, None, Bound::AtLeast(10.0));
        unnamed.name = Criterion::default_name(unnamed.value, unnamed.speed, None, &unnamed.bound);
        assert_eq!(
            only_question(&judged(unnamed, &heats())),
            ("criterion_value", "hspf")
        );
    }

    #[test]
    fn below_the_operating_limit_the_value_is_zero_and_known() {
        let cold = criterion(
            "heating.capacity",
            Speed::Maximum,
            Some(-20.0),
            Bound::AtLeast(1.0),
        );
        let found = judged(cold, &heats().runs_to(-15.0));
        assert_eq!(
            (only_reason(&found).0, found.reasons[0].value()),
            ("criterion", Some(0.0))
        );
    }

    #[test]
    fn the_minimum_is_that_of_the_only_speed_and_unknown_where_it_is_not_published() {
        let minimum = || {
            criterion(
                "heating.capacity",
                Speed::Minimum,
                Some(5.0),
                Bound::AtMost(6.0),
            )
        };
        assert_eq!(only_reason(&judged(minimum(), &heats())).2, "6.00 kW less");
        let unknown = heats().heats(Speed::Rated, &[(5.0, 8.0, 4.0)]);
        assert_eq!(
            only_question(&judged(minimum(), &unknown)).0,
            "criterion_value"
        );
        let known = unknown.heats(Speed::Minimum, &[(5.0, 3.0, 5.0)]);
        assert_accepted(&judged(minimum(), &known));
    }

    // By hand: halfway between 0.70 at 25 °C and 0.80 at 35 °C.
    #[test]
    fn the_sensible_share_is_the_published_one_and_no_default_stands_in_for_it() {
        let ratio = |bound| criterion("cooling.shr", Speed::Maximum, Some(30.0), bound);
        let mut cools = heats().cools(
            Speed::Maximum,
            &[(25.0, 7.0, 4.0, 0.70), (35.0, 7.0, 3.0, 0.80)],
        );
        assert_accepted(&judged(ratio(Bound::AtMost(0.7501)), &cools));
        assert_eq!(
            only_reason(&judged(ratio(Bound::AtMost(0.7499)), &cools)).0,
            "criterion"
        );
        cools.points.last_mut().unwrap().sensible_heat_ratio = None;
        assert_eq!(
            only_question(&judged(ratio(Bound::AtMost(0.9)), &cools)).0,
            "criterion_value"
        );
    }

    #[test]
    fn words_are_compared_as_a_reader_would() {
        let mut unit = heats();
        unit.model.refrigerant = Some("R32".to_owned());
        unit.model.certified = Some(false);
        let refrigerant = |bound| criterion("refrigerant", Speed::Maximum, None, bound);
        assert_accepted(&judged(refrigerant(Bound::Equals(text("r32"))), &unit));
        let one_of = Bound::OneOf(vec![text("R290"), text("R454B")]);
        let found = judged(refrigerant(one_of), &unit);
        let reason = (
            "criterion",
            "my refrigerant: R32, asked for one of R290, R454B".to_owned(),
            "a unit with refrigerant one of R290, R454B".to_owned(),
        );
        assert_eq!(only_reason(&found), reason);
        assert_eq!(
            (found.reasons[0].value(), found.reasons[0].limit()),
            (None, None)
        );
        let certified = criterion(
            "certified",
            Speed::Maximum,
            None,
            Bound::Equals(BoundValue::Flag(true)),
        );
        let sentence = only_reason(&judged(certified, &unit)).1;
        assert_eq!(sentence, "my certified: no, asked for yes");
    }
}
