//! From a value to a place in the drawing: a linear scale that stands every range, even one without width.

/// A finite range of values with some width, low to high.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    low: f64,
    high: f64,
}

/// Values are taken no further from zero than this, so that no width overflows.
const FARTHEST: f64 = 1e15;

impl Span {
    /// The range between two values, in either order. Without width it is widened around its middle, by half a unit or
    /// by 5 % of the value, whichever is more; an end that is not a number counts as zero.
    #[must_use]
    pub fn new(one: f64, other: f64) -> Self {
        let tame = |value: f64| {
            if value.is_nan() {
                0.0
            } else {
                value.clamp(-FARTHEST, FARTHEST)
            }
        };
        let (low, high) = (tame(one.min(other)), tame(one.max(other)));
        let size = low.abs().max(high.abs());
        if high - low > size * 1e-9 {
            Self { low, high }
        } else {
            let half = (size * 0.05).max(0.5);
            Self {
                low: low - half,
                high: high + half,
            }
        }
    }

    /// The range that just holds the finite ones among `values`; zero to one where there is none.
    #[must_use]
    pub fn of(values: impl IntoIterator<Item = f64>) -> Self {
        let mut ends: Option<(f64, f64)> = None;
        for value in values.into_iter().filter(|value| value.is_finite()) {
            let (low, high) = ends.unwrap_or((value, value));
            ends = Some((low.min(value), high.max(value)));
        }
        ends.map_or(
            Self {
                low: 0.0,
                high: 1.0,
            },
            |(low, high)| Self::new(low, high),
        )
    }

    /// The lower end.
    #[must_use]
    pub fn low(self) -> f64 {
        self.low
    }

    /// The upper end.
    #[must_use]
    pub fn high(self) -> f64 {
        self.high
    }

    /// Whether a value lies in the range, ends included.
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }
}

/// Maps a range of values onto a range of places \[px\]; `to` may be smaller than `from`, as for a vertical axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    span: Span,
    from: f64,
    to: f64,
}

impl Scale {
    /// The scale that puts the low end of `span` at `from` and the high end at `to`.
    #[must_use]
    pub fn new(span: Span, from: f64, to: f64) -> Self {
        Self { span, from, to }
    }

    /// Where a value lies, beyond the ends too.
    #[must_use]
    pub fn at(self, value: f64) -> f64 {
        self.from
            + (self.to - self.from) * (value - self.span.low) / (self.span.high - self.span.low)
    }

    /// Where a value lies, kept between the ends.
    #[must_use]
    pub fn inside(self, value: f64) -> f64 {
        self.at(value.clamp(self.span.low, self.span.high))
    }

    /// The values that the scale covers.
    #[must_use]
    pub fn span(self) -> Span {
        self.span
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ends_and_the_middle_land_where_they_should() {
        let scale = Scale::new(Span::new(-20.0, 20.0), 300.0, 100.0);
        assert_eq!(
            [scale.at(-20.0), scale.at(0.0), scale.at(20.0)],
            [300.0, 200.0, 100.0]
        );
        assert_eq!(scale.at(40.0), 0.0);
        assert_eq!(scale.inside(40.0), 100.0);
    }

    #[test]
    fn a_range_without_width_is_widened_around_its_middle() {
        assert_eq!(
            Span::new(3.0, 3.0),
            Span {
                low: 2.5,
                high: 3.5
            }
        );
        assert_eq!(
            Span::new(0.0, 0.0),
            Span {
                low: -0.5,
                high: 0.5
            }
        );
        assert_eq!(
            Span::new(1e6, 1e6),
            Span {
                low: 950_000.0,
                high: 1_050_000.0
            }
        );
        assert_eq!(Scale::new(Span::new(3.0, 3.0), 0.0, 10.0).at(3.0), 5.0);
    }

    #[test]
    fn a_scale_to_a_place_without_width_stays_there() {
        assert_eq!(Scale::new(Span::new(0.0, 1.0), 7.0, 7.0).at(0.3), 7.0);
    }

    #[test]
    fn unreal_and_enormous_values_leave_a_finite_range() {
        assert_eq!(
            Span::of([]),
            Span {
                low: 0.0,
                high: 1.0
            }
        );
        assert_eq!(
            Span::of([f64::NAN, 4.0, f64::INFINITY, 2.0]),
            Span {
                low: 2.0,
                high: 4.0
            }
        );
        for (low, high) in [
            (f64::MIN, f64::MAX),
            (f64::NAN, 1.0),
            (f64::NEG_INFINITY, f64::NAN),
        ] {
            let span = Span::new(low, high);
            assert!(
                (span.high - span.low).is_finite() && span.high > span.low,
                "{span:?}"
            );
            assert!(Scale::new(span, 0.0, 100.0).at(0.0).is_finite());
        }
    }
}
