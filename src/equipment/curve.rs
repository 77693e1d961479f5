//! A performance curve: straight lines between published points, a short continuation on the mild side, nothing beyond
//! on the severe side.

use crate::quantity::{Celsius, Kelvins};

/// How far the last segment's slope is continued on the mild side. **Our rule**, after the practice of Appendix M1 of
/// extending its low-speed lines.
const MILD_CONTINUATION: Kelvins = Kelvins(10.0);

/// Which end of the outdoor temperature range is the hard one for the unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SevereSide {
    /// Heating: the cold end.
    Cold,
    /// Cooling: the hot end.
    Hot,
}

impl SevereSide {
    /// How far into the severe direction a temperature lies: larger is harder.
    #[must_use]
    pub fn severity(self, outdoor: Celsius) -> f64 {
        match self {
            Self::Cold => -outdoor.0,
            Self::Hot => outdoor.0,
        }
    }
}

/// How a value was continued past the mildest point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Continued<P> {
    /// The straight continuation.
    pub value: P,
    /// The mildest published point.
    pub last: P,
}

/// Something that can lie on a curve.
pub trait Interpolate: Copy {
    /// The value `fraction` of the way from `self` to `other`; below 0 or above 1 continues the line.
    fn toward(self, other: Self, fraction: f64) -> Self;

    /// What is believed of a value continued past the mildest published point.
    fn credible(continued: Continued<Self>) -> Self;
}

/// Published points over outdoor temperature, at one speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve<P> {
    severe: SevereSide,
    /// Coldest first, no temperature twice, never empty.
    points: Vec<(Celsius, P)>,
}

impl<P: Interpolate> Curve<P> {
    /// A curve through points, in any order; `None` without points. Of two points at one temperature the first stays.
    #[must_use]
    pub fn through(severe: SevereSide, mut points: Vec<(Celsius, P)>) -> Option<Self> {
        points.sort_by(|(left, _), (right, _)| left.0.total_cmp(&right.0));
        points.dedup_by(|(later, _), (earlier, _)| later == earlier);
        (!points.is_empty()).then_some(Self { severe, points })
    }

    /// The most severe temperature for which something is published.
    #[must_use]
    pub fn severe_end(&self) -> Celsius {
        match self.severe {
            SevereSide::Cold => self.points[0].0,
            SevereSide::Hot => self.points[self.points.len() - 1].0,
        }
    }

    /// The mildest temperature for which something is published.
    #[must_use]
    pub fn mild_end(&self) -> Celsius {
        match self.severe {
            SevereSide::Cold => self.points[self.points.len() - 1].0,
            SevereSide::Hot => self.points[0].0,
        }
    }

    /// The temperatures between which the curve is straight, coldest first: its points, and where its mild continuation ends.
    #[must_use]
    pub fn knots(&self) -> Vec<Celsius> {
        let mut knots: Vec<Celsius> = self.points.iter().map(|&(outdoor, _)| outdoor).collect();
        if self.points.len() > 1 {
            match self.severe {
                SevereSide::Cold => knots.push(self.mild_end() + MILD_CONTINUATION),
                SevereSide::Hot => knots.insert(0, self.mild_end() - MILD_CONTINUATION),
            }
        }
        knots
    }

    /// The published points, coldest first.
    #[must_use]
    pub fn points(&self) -> &[(Celsius, P)] {
        &self.points
    }

    /// The curve's value, or `None` where nothing is published: beyond the severe end.
    ///
    /// Linear between neighbouring points; past the mildest point the last segment's slope is continued for at most
    /// 10 K, then held, and trimmed to what is credible; one point alone is held.
    ///
    /// # Source
    /// Linear interpolation of capacity and power: 10 CFR 430 Subpart B Appendix M1. Continuation: our rule.
    #[must_use]
    pub fn at(&self, outdoor: Celsius) -> Option<P> {
        if self.severe.severity(outdoor) > self.severe.severity(self.severe_end()) {
            return None;
        }
        if self.severe.severity(outdoor) < self.severe.severity(self.mild_end()) {
            return Some(self.continued_to(outdoor));
        }
        let after = self.points.partition_point(|&(at, _)| at < outdoor);
        let (t_after, p_after) = self.points[after];
        if t_after == outdoor {
            return Some(p_after);
        }
        let (t_before, p_before) = self.points[after - 1];
        Some(p_before.toward(p_after, (outdoor - t_before) / (t_after - t_before)))
    }

    fn continued_to(&self, outdoor: Celsius) -> P {
        let count = self.points.len();
        let ((t_last, last), inner) = match self.severe {
            SevereSide::Cold => (self.points[count - 1], count.checked_sub(2)),
            SevereSide::Hot => (self.points[0], (count > 1).then_some(1)),
        };
        let Some((t_inner, inner)) = inner.map(|at| self.points[at]) else {
            return last;
        };
        let limited = match self.severe {
            SevereSide::Cold => outdoor.min(t_last + MILD_CONTINUATION),
            SevereSide::Hot => outdoor.max(t_last - MILD_CONTINUATION),
        };
        let value = inner.toward(last, (limited - t_inner) / (t_last - t_inner));
        P::credible(Continued { value, last })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Interpolate for f64 {
        fn toward(self, other: Self, fraction: f64) -> Self {
            self + (other - self) * fraction
        }
        fn credible(continued: Continued<Self>) -> Self {
            continued.value
        }
    }

    fn heating(points: &[(f64, f64)]) -> Curve<f64> {
        Curve::through(
            SevereSide::Cold,
            points.iter().map(|&(t, v)| (Celsius(t), v)).collect(),
        )
        .expect("points")
    }

    #[test]
    fn straight_between_points_and_nothing_beyond_the_cold_end() {
        let curve = heating(&[(8.0, 10.0), (-8.0, 6.0)]);
        assert_eq!(curve.at(Celsius(0.0)), Some(8.0));
        assert_eq!(curve.at(Celsius(-8.0)), Some(6.0));
        assert_eq!(curve.at(Celsius(-8.01)), None);
    }

    #[test]
    fn the_mild_side_is_continued_ten_kelvins_and_then_held() {
        let curve = heating(&[(-8.0, 6.0), (8.0, 10.0)]);
        assert_eq!(curve.at(Celsius(16.0)), Some(12.0));
        assert_eq!(curve.at(Celsius(18.0)), Some(12.5));
        assert_eq!(curve.at(Celsius(30.0)), Some(12.5));
        let cooling = Curve::through(
            SevereSide::Hot,
            vec![(Celsius(25.0), 6.0), (Celsius(35.0), 5.0)],
        )
        .expect("points");
        assert_eq!(cooling.at(Celsius(20.0)), Some(6.5));
        assert_eq!(cooling.at(Celsius(5.0)), Some(7.0));
        assert_eq!(cooling.at(Celsius(35.1)), None);
    }

    #[test]
    fn one_point_is_held_on_the_mild_side() {
        let curve = heating(&[(-7.0, 3.0)]);
        assert_eq!(curve.at(Celsius(20.0)), Some(3.0));
        assert_eq!(curve.at(Celsius(-7.1)), None);
    }
}
