//! Where on a curve a temperature lies, and between which points its value is found, for whoever shows the calculation.

use super::{Curve, Interpolate};
use crate::quantity::Celsius;

/// Where on a curve a temperature lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CurvePlace<P> {
    /// At a published point.
    AtPoint((Celsius, P)),
    /// Between two neighbouring points, the colder first.
    Between((Celsius, P), (Celsius, P)),
    /// Past the mildest point, on the line from `inner` through `last`, taken at `limited`.
    Continued {
        /// The point before the mildest.
        inner: (Celsius, P),
        /// The mildest point.
        last: (Celsius, P),
        /// The temperature at which the line is read: no farther than the curve is continued.
        limited: Celsius,
    },
    /// Past the only point, whose value is held.
    Held((Celsius, P)),
    /// Beyond the severe end, where nothing is published.
    Unproven,
}

impl<P: Interpolate> Curve<P> {
    /// Where a temperature lies on the curve: what [`Curve::at`] is computed from.
    #[must_use]
    pub fn place(&self, outdoor: Celsius) -> CurvePlace<P> {
        if self.at(outdoor).is_none() {
            return CurvePlace::Unproven;
        }
        let points = self.points();
        let after = points.partition_point(|&(at, _)| at < outdoor);
        if let Some(&point) = points.get(after).filter(|point| point.0 == outdoor) {
            return CurvePlace::AtPoint(point);
        }
        if after > 0 && after < points.len() {
            return CurvePlace::Between(points[after - 1], points[after]);
        }
        let [first, .., last] = points else {
            return CurvePlace::Held(points[0]);
        };
        let knots = self.knots();
        let (coldest, warmest) = (knots[0], knots[knots.len() - 1]);
        let limited = outdoor.max(coldest).min(warmest);
        if self.mild_end() == last.0 {
            CurvePlace::Continued {
                inner: points[points.len() - 2],
                last: *last,
                limited,
            }
        } else {
            CurvePlace::Continued {
                inner: points[1],
                last: *first,
                limited,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::SevereSide;

    fn value(place: CurvePlace<f64>, outdoor: Celsius) -> Option<f64> {
        let line = |a: (Celsius, f64), b: (Celsius, f64), at: Celsius| {
            a.1 + (b.1 - a.1) * ((at - a.0) / (b.0 - a.0))
        };
        match place {
            CurvePlace::AtPoint(point) | CurvePlace::Held(point) => Some(point.1),
            CurvePlace::Between(a, b) => Some(line(a, b, outdoor)),
            CurvePlace::Continued {
                inner,
                last,
                limited,
            } => Some(line(inner, last, limited)),
            CurvePlace::Unproven => None,
        }
    }

    #[test]
    fn a_place_leads_to_the_same_value_as_the_curve() {
        let points = [(-20.0, 5.0), (-8.0, 6.5), (8.0, 9.0), (12.0, 9.2)];
        for severe in [SevereSide::Cold, SevereSide::Hot] {
            for count in 1..=points.len() {
                let some = points[..count].iter().map(|&(t, v)| (Celsius(t), v));
                let curve = Curve::through(severe, some.collect()).expect("points");
                for step in -50..=50 {
                    let outdoor = Celsius(f64::from(step));
                    let found = value(curve.place(outdoor), outdoor);
                    match (found, curve.at(outdoor)) {
                        (Some(found), Some(expected)) => assert!((found - expected).abs() < 1e-12),
                        (found, expected) => assert_eq!(found, expected, "{severe:?} {step}"),
                    }
                }
            }
        }
    }
}
