//! Looks for numbers that physics, or the way data sheets come about, speaks against.

use super::{Mode, Point, Speed, Turndown, Unit};
use crate::quantity::Celsius;

/// The room's temperature where a heating point states none: the usual rating condition (70 °F).
const ROOM_IN_HEATING: Celsius = Celsius(21.0);
/// The room's temperature where a cooling point states none: the usual rating condition (80 °F).
const ROOM_IN_COOLING: Celsius = Celsius(26.7);
/// Absolute zero \[°C\].
const ABSOLUTE_ZERO: f64 = -273.15;
/// How much a slower speed may give above a faster one before it is found: rounding in data sheets. **Our rule**.
const ROUNDING: f64 = 0.005;

/// What kind of thing was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FindingKind {
    /// A COP above that of a perfect engine between the two temperatures.
    CopAboveCarnot,
    /// Capacity or power is not above zero.
    NotPositive,
    /// The minimum gives more than the maximum at the same temperature.
    MinimumAboveMaximum,
    /// The rated speed gives less than the minimum, or more than the maximum.
    SpeedsOutOfOrder,
    /// The coldest point repeats another temperature's numbers, digit for digit.
    ColdestPointRepeated,
    /// No coil can have the sensible heat ratio at its capacity and airflow.
    SensibleHeatRatioInconsistent,
    /// Several speeds are published, but no minimum.
    TurndownMissing,
    /// Cooling is published without a sensible heat ratio.
    SensibleHeatRatioMissing,
    /// No coldest operating temperature is declared.
    OperatingLimitMissing,
    /// A point is published below the declared operating limit.
    PointBelowLimit,
}

impl FindingKind {
    /// Its name in files.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::CopAboveCarnot => "cop_above_carnot",
            Self::NotPositive => "not_positive",
            Self::MinimumAboveMaximum => "minimum_above_maximum",
            Self::SpeedsOutOfOrder => "speeds_out_of_order",
            Self::ColdestPointRepeated => "coldest_point_repeated",
            Self::SensibleHeatRatioInconsistent => "shr_inconsistent",
            Self::TurndownMissing => "turndown_missing",
            Self::SensibleHeatRatioMissing => "shr_missing",
            Self::OperatingLimitMissing => "operating_limit_missing",
            Self::PointBelowLimit => "point_below_limit",
        }
    }

    /// Whether a number must be wrong, and not only missing or suspicious.
    #[must_use]
    pub fn is_impossible(self) -> bool {
        matches!(
            self,
            Self::CopAboveCarnot
                | Self::NotPositive
                | Self::MinimumAboveMaximum
                | Self::SpeedsOutOfOrder
        )
    }
}

/// One thing found in one unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What kind of thing.
    pub kind: FindingKind,
    /// The unit's key.
    pub unit: String,
    /// The point concerned, as [`describe`] names it; empty where it concerns the unit as a whole.
    pub point: String,
    /// What was found, with its numbers.
    pub sentence: String,
}

/// A point in words: `heating, maximum, -15 °C`.
#[must_use]
pub fn describe(point: &Point) -> String {
    let mut words = format!(
        "{}, {}, {} °C",
        point.mode.name(),
        point.speed.name(),
        short(point.outdoor.0)
    );
    if let Some(wet_bulb) = point.indoor_wet_bulb {
        words += &format!(", {} °C wet bulb indoors", short(wet_bulb.0));
    }
    words
}

/// The highest COP that any machine can have at a point; `None` where heat would flow by itself.
///
/// `T_hot/(T_hot - T_cold)` for heating, `T_cold/(T_hot - T_cold)` for cooling, temperatures in K, between the room's
/// dry bulb and the outdoor dry bulb.
///
/// # Source
/// The Carnot limit of the second law of thermodynamics.
#[must_use]
pub fn carnot_cop(point: &Point) -> Option<f64> {
    let kelvins = |temperature: Celsius| temperature.0 - ABSOLUTE_ZERO;
    let outdoor = kelvins(point.outdoor);
    let (delivered, lift) = match point.mode {
        Mode::Heating => {
            let room = kelvins(point.indoor_dry_bulb.unwrap_or(ROOM_IN_HEATING));
            (room, room - outdoor)
        }
        Mode::Cooling => {
            let room = kelvins(point.indoor_dry_bulb.unwrap_or(ROOM_IN_COOLING));
            (room, outdoor - room)
        }
    };
    (lift > 0.0).then(|| delivered / lift)
}

/// The coldest heating point and a milder one that it repeats digit for digit, where it does.
///
/// No unit gives the same to three digits in another temperature: the sheet's author had no measurement there.
#[must_use]
pub fn repeated_coldest_point(unit: &Unit) -> Option<(&Point, &Point)> {
    let points = || {
        unit.points
            .iter()
            .filter(|point| point.mode == Mode::Heating)
    };
    let coldest = points().min_by(|left, right| left.outdoor.0.total_cmp(&right.outdoor.0))?;
    let twin = points().find(|point| {
        point.outdoor != coldest.outdoor
            && point.capacity == coldest.capacity
            && point.power == coldest.power
    })?;
    Some((coldest, twin))
}

/// Everything that is found in a unit, what is impossible first.
#[must_use]
pub fn check(unit: &Unit) -> Vec<Finding> {
    let mut found = Found {
        unit,
        findings: Vec::new(),
    };
    for point in &unit.points {
        found.single_point(point);
    }
    for mode in [Mode::Heating, Mode::Cooling] {
        found.speeds(mode);
    }
    found.coldest_point();
    found.gaps();
    found.findings.sort_by_key(|finding| finding.kind);
    found.findings
}

struct Found<'u> {
    unit: &'u Unit,
    findings: Vec<Finding>,
}

impl Found<'_> {
    fn note(&mut self, kind: FindingKind, point: Option<&Point>, sentence: String) {
        self.findings.push(Finding {
            kind,
            unit: self.unit.model.key.clone(),
            point: point.map(describe).unwrap_or_default(),
            sentence,
        });
    }

    fn points(&self, mode: Mode) -> impl Iterator<Item = &Point> {
        self.unit
            .points
            .iter()
            .filter(move |point| point.mode == mode)
    }

    fn single_point(&mut self, point: &Point) {
        let positive = |value: f64| value > 0.0 && value.is_finite();
        if !positive(point.capacity.0) || !positive(point.power.0) {
            let sentence = format!(
                "capacity {} kW and power {} kW must both be above zero",
                short(point.capacity.0),
                short(point.power.0)
            );
            return self.note(FindingKind::NotPositive, Some(point), sentence);
        }
        if let Some(limit) = carnot_cop(point)
            && point.cop() > limit
        {
            let sentence = format!(
                "COP {:.2} is above {limit:.2}, which no machine can pass between these temperatures",
                point.cop()
            );
            self.note(FindingKind::CopAboveCarnot, Some(point), sentence);
        }
        if let (Mode::Heating, Some(limit)) = (point.mode, self.unit.model.operates_to)
            && point.outdoor < limit
        {
            let sentence = format!(
                "published below the operating limit of {} °C, where the unit is taken to give nothing",
                short(limit.0)
            );
            self.note(FindingKind::PointBelowLimit, Some(point), sentence);
        }
    }

    /// Slower speeds must not give more than faster ones at the same temperatures, outdoors and indoors.
    fn speeds(&mut self, mode: Mode) {
        let slower_and_faster: Vec<(Point, Point)> = self
            .points(mode)
            .flat_map(|slow| self.points(mode).map(move |fast| (slow, fast)))
            .filter(|(slow, fast)| {
                slow.speed < fast.speed
                    && slow.outdoor == fast.outdoor
                    && slow.indoor_dry_bulb == fast.indoor_dry_bulb
                    && slow.indoor_wet_bulb == fast.indoor_wet_bulb
                    && slow.capacity.0 > fast.capacity.0 * (1.0 + ROUNDING)
            })
            .map(|(slow, fast)| (*slow, *fast))
            .collect();
        for (slow, fast) in slower_and_faster {
            let kind = match (slow.speed, fast.speed) {
                (Speed::Minimum, Speed::Maximum) => FindingKind::MinimumAboveMaximum,
                _ => FindingKind::SpeedsOutOfOrder,
            };
            let sentence = format!(
                "{} kW at {} speed, but {} kW at {}: the two may be swapped",
                short(slow.capacity.0),
                slow.speed.name(),
                short(fast.capacity.0),
                fast.speed.name()
            );
            self.note(kind, Some(&slow), sentence);
        }
    }

    fn coldest_point(&mut self) {
        if let Some((coldest, twin)) = repeated_coldest_point(self.unit) {
            let (coldest, twin) = (*coldest, *twin);
            let sentence = format!(
                "{} kW at a COP of {:.2}, digit for digit as at {} °C: probably copied, not measured",
                short(coldest.capacity.0),
                coldest.cop(),
                short(twin.outdoor.0)
            );
            self.note(FindingKind::ColdestPointRepeated, Some(&coldest), sentence);
        }
    }

    fn gaps(&mut self) {
        for mode in [Mode::Heating, Mode::Cooling] {
            let has = |speed| self.points(mode).any(|point| point.speed == speed);
            if turndown(has(Speed::Minimum), has(Speed::Rated), has(Speed::Maximum))
                == Some(Turndown::Unknown)
            {
                let sentence = format!("no minimum speed is published for {}", mode.name());
                self.note(FindingKind::TurndownMissing, None, sentence);
            }
        }
        let without = self
            .points(Mode::Cooling)
            .filter(|point| point.sensible_heat_ratio.is_none())
            .count();
        if without > 0 {
            let all = self.points(Mode::Cooling).count();
            let sentence = format!("no sensible heat ratio at {without} of {all} cooling points");
            self.note(FindingKind::SensibleHeatRatioMissing, None, sentence);
        }
        if self.unit.model.operates_to.is_none() && self.points(Mode::Heating).next().is_some() {
            let sentence = "no coldest operating temperature is declared".to_owned();
            self.note(FindingKind::OperatingLimitMissing, None, sentence);
        }
    }
}

/// What is known of the turndown from which speeds are published; `None` where nothing is.
fn turndown(minimum: bool, rated: bool, maximum: bool) -> Option<Turndown> {
    match (minimum, rated, maximum) {
        (false, false, false) => None,
        (false, true, true) => Some(Turndown::Unknown),
        (true, false, false) | (false, true, false) | (false, false, true) => {
            Some(Turndown::SingleSpeed)
        }
        (true, _, _) => Some(Turndown::Known),
    }
}

/// A number with at most two decimals and none that are zero.
fn short(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::{Form, Model, SourceId};
    use crate::quantity::Kilowatts;

    fn point(mode: Mode, speed: Speed, outdoor: f64, capacity: f64, cop: f64) -> Point {
        Point {
            mode,
            speed,
            outdoor: Celsius(outdoor),
            indoor_dry_bulb: None,
            indoor_wet_bulb: None,
            capacity: Kilowatts(capacity),
            power: Kilowatts(capacity / cop),
            sensible_heat_ratio: Some(0.75),
            airflow: None,
            fan_basis: None,
            frost_basis: None,
            source: SourceId(1),
        }
    }

    fn unit(points: &[Point]) -> Unit {
        let model = Model {
            operates_to: Some(Celsius(-25.0)),
            ..Model::new("larch", Form::Wall, SourceId(1))
        };
        Unit {
            model,
            points: points.to_vec(),
        }
    }

    fn codes(unit: &Unit) -> Vec<&'static str> {
        check(unit)
            .iter()
            .map(|finding| finding.kind.code())
            .collect()
    }

    const HEATING: Mode = Mode::Heating;

    // By hand: 294.15 K / (294.15 - 258.15) K = 8.17 heating from -15 °C to 21 °C;
    // 299.85 K / (308.15 - 299.85) K = 36.1 cooling from 26.7 °C to 35 °C.
    #[test]
    fn a_cop_above_the_carnot_limit_is_found() {
        let limit =
            |mode, outdoor| carnot_cop(&point(mode, Speed::Maximum, outdoor, 1.0, 1.0)).unwrap();
        assert!((limit(HEATING, -15.0) - 8.1708).abs() < 1e-4);
        assert!((limit(Mode::Cooling, 35.0) - 36.127).abs() < 1e-3);
        let just_below = unit(&[point(HEATING, Speed::Maximum, -15.0, 4.0, 8.17)]);
        assert_eq!(codes(&just_below), Vec::<&str>::new());
        let above = check(&unit(&[point(HEATING, Speed::Maximum, -15.0, 4.0, 8.18)]));
        assert_eq!(above[0].kind.code(), "cop_above_carnot");
        assert_eq!(above[0].point, "heating, maximum, -15 °C");
        assert_eq!(
            above[0].sentence,
            "COP 8.18 is above 8.17, which no machine can pass between these temperatures"
        );
    }

    #[test]
    fn where_heat_flows_by_itself_there_is_no_limit() {
        assert_eq!(
            carnot_cop(&point(HEATING, Speed::Maximum, 22.0, 1.0, 1.0)),
            None
        );
        assert_eq!(
            carnot_cop(&point(Mode::Cooling, Speed::Maximum, 20.0, 1.0, 1.0)),
            None
        );
    }

    #[test]
    fn capacity_and_power_must_be_above_zero() {
        let mut flat = point(HEATING, Speed::Maximum, -15.0, 4.0, 2.0);
        flat.power = Kilowatts(0.0);
        assert_eq!(codes(&unit(&[flat])), ["not_positive"]);
        flat.capacity = Kilowatts(-1.0);
        assert_eq!(codes(&unit(&[flat])), ["not_positive"]);
    }

    #[test]
    fn a_slower_speed_that_gives_more_is_found() {
        let minimum = point(HEATING, Speed::Minimum, -8.0, 5.0, 3.0);
        let maximum = point(HEATING, Speed::Maximum, -8.0, 4.0, 2.5);
        assert_eq!(codes(&unit(&[minimum, maximum])), ["minimum_above_maximum"]);
        let rated = point(HEATING, Speed::Rated, -8.0, 4.5, 2.5);
        assert_eq!(
            codes(&unit(&[minimum, rated, maximum])),
            [
                "minimum_above_maximum",
                "speeds_out_of_order",
                "speeds_out_of_order"
            ]
        );
        let elsewhere = point(HEATING, Speed::Maximum, -9.0, 4.0, 2.5);
        assert_eq!(codes(&unit(&[minimum, elsewhere])), Vec::<&str>::new());
    }

    #[test]
    fn a_coldest_point_copied_from_another_temperature_is_found() {
        let copied = [
            point(HEATING, Speed::Maximum, -15.0, 2.3, 3.2),
            point(HEATING, Speed::Maximum, -10.0, 2.3, 3.2),
        ];
        assert_eq!(codes(&unit(&copied)), ["coldest_point_repeated"]);
        let measured = [
            point(HEATING, Speed::Maximum, -15.0, 2.3, 2.95),
            point(HEATING, Speed::Maximum, -10.0, 2.3, 3.2),
        ];
        assert_eq!(codes(&unit(&measured)), Vec::<&str>::new());
    }

    #[test]
    fn what_a_data_sheet_leaves_out_is_found() {
        let mut cooling = point(Mode::Cooling, Speed::Rated, 35.0, 4.0, 3.0);
        cooling.sensible_heat_ratio = None;
        let mut bare = unit(&[
            point(HEATING, Speed::Rated, 8.0, 4.0, 4.0),
            point(HEATING, Speed::Maximum, 8.0, 5.0, 3.5),
            cooling,
        ]);
        bare.model.operates_to = None;
        assert_eq!(
            codes(&bare),
            ["turndown_missing", "shr_missing", "operating_limit_missing"]
        );
        let single = unit(&[point(HEATING, Speed::Rated, 8.0, 4.0, 4.0)]);
        assert_eq!(codes(&single), Vec::<&str>::new());
        let below = unit(&[point(HEATING, Speed::Maximum, -26.0, 4.0, 1.5)]);
        assert_eq!(codes(&below), ["point_below_limit"]);
    }
}
