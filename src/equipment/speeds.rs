//! The curves of one mode by speed, and what follows where a speed is not published.

use super::curve::{Curve, Interpolate};
use super::point::Speed;
use crate::quantity::Celsius;

/// What is known of how far the unit turns down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turndown {
    /// A minimum speed is published.
    Known,
    /// One speed only: its minimum is its maximum.
    SingleSpeed,
    /// Several speeds, but no minimum is published: how far it turns down is unknown, not zero.
    Unknown,
}

/// A value that can be scaled like the maximum where the minimum's curve ends.
pub trait ScaledLike: Interpolate {
    /// The minimum where its curve has ended: its value `at_end`, scaled as the maximum goes from `maximum_at_end` to `maximum`.
    #[must_use]
    fn scaled_like(at_end: Self, maximum_at_end: Self, maximum: Self) -> Self;

    /// The capacity by which speeds are told apart \[kW\].
    fn capacity_kw(&self) -> f64;
}

/// One mode's curves by speed.
#[derive(Clone, Debug, PartialEq)]
pub struct SpeedCurves<P> {
    maximum: Curve<P>,
    /// The speed under which the curve that serves as maximum was published.
    maximum_published_as: Speed,
    rated: Option<Curve<P>>,
    minimum: Option<Curve<P>>,
    turndown: Turndown,
}

/// The speeds at one outdoor temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedsAt<P> {
    /// Slowest speed; the maximum itself where the unit has one speed or its turndown is unknown.
    pub minimum: P,
    /// Rated speed, where its capacity lies strictly between the others.
    pub rated: Option<P>,
    /// Fastest speed.
    pub maximum: P,
}

impl<P: ScaledLike> SpeedCurves<P> {
    /// Sorts out which published curve serves as which speed; `None` where nothing is published.
    ///
    /// No maximum: the rated curve serves as maximum. One curve only: single-speed. Rated and maximum without
    /// minimum: turndown unknown, and the maximum alone is used.
    #[must_use]
    pub fn resolve(
        minimum: Option<Curve<P>>,
        rated: Option<Curve<P>>,
        maximum: Option<Curve<P>>,
    ) -> Option<Self> {
        let (maximum, maximum_published_as, rated, minimum, turndown) =
            match (minimum, rated, maximum) {
                (None, None, None) => return None,
                (Some(only), None, None) => {
                    (only, Speed::Minimum, None, None, Turndown::SingleSpeed)
                }
                (None, Some(only), None) => (only, Speed::Rated, None, None, Turndown::SingleSpeed),
                (None, None, Some(only)) => {
                    (only, Speed::Maximum, None, None, Turndown::SingleSpeed)
                }
                (minimum, Some(rated), None) => {
                    (rated, Speed::Rated, None, minimum, Turndown::Known)
                }
                (None, rated, Some(maximum)) => {
                    (maximum, Speed::Maximum, rated, None, Turndown::Unknown)
                }
                (minimum, rated, Some(maximum)) => {
                    (maximum, Speed::Maximum, rated, minimum, Turndown::Known)
                }
            };
        Some(Self {
            maximum,
            maximum_published_as,
            rated,
            minimum,
            turndown,
        })
    }

    /// What is known of the turndown.
    #[must_use]
    pub fn turndown(&self) -> Turndown {
        self.turndown
    }

    /// The curve that decides what is proven.
    #[must_use]
    pub fn maximum(&self) -> &Curve<P> {
        &self.maximum
    }

    /// The published rated curve, where another serves as maximum.
    #[must_use]
    pub fn rated(&self) -> Option<&Curve<P>> {
        self.rated.as_ref()
    }

    /// The published rated curve, whether or not it serves as maximum too.
    #[must_use]
    pub fn published_rated(&self) -> Option<&Curve<P>> {
        match self.maximum_published_as {
            Speed::Rated => Some(&self.maximum),
            Speed::Minimum | Speed::Maximum => self.rated.as_ref(),
        }
    }

    /// Under which published speed the points stand that serve as `speed`; `None` where none do.
    #[must_use]
    pub fn serving(&self, speed: Speed) -> Option<Speed> {
        match speed {
            Speed::Maximum => Some(self.maximum_published_as),
            Speed::Rated => self.published_rated().map(|_| Speed::Rated),
            Speed::Minimum => match self.turndown {
                Turndown::Known => Some(Speed::Minimum),
                Turndown::SingleSpeed => Some(self.maximum_published_as),
                Turndown::Unknown => None,
            },
        }
    }

    /// The published minimum curve, where the unit has one.
    #[must_use]
    pub fn minimum(&self) -> Option<&Curve<P>> {
        self.minimum.as_ref()
    }

    /// Where the minimum's curve ends, if it ends milder than the maximum's.
    #[must_use]
    pub fn scaled_beyond(&self) -> Option<Celsius> {
        let end = self.minimum.as_ref()?.severe_end();
        (self
            .minimum
            .as_ref()?
            .at(self.maximum.severe_end())
            .is_none())
        .then_some(end)
    }

    /// The speeds at an outdoor temperature; `None` where the maximum has no value.
    #[must_use]
    pub fn at(&self, outdoor: Celsius) -> Option<SpeedsAt<P>> {
        let maximum = self.maximum.at(outdoor)?;
        let minimum = match &self.minimum {
            None => maximum,
            Some(curve) => curve
                .at(outdoor)
                .unwrap_or_else(|| self.scaled_minimum(curve, maximum)),
        };
        let between = |rated: &P| {
            minimum.capacity_kw() < rated.capacity_kw()
                && rated.capacity_kw() < maximum.capacity_kw()
        };
        let rated = self
            .rated
            .as_ref()
            .and_then(|curve| curve.at(outdoor))
            .filter(between);
        Some(SpeedsAt {
            minimum,
            rated,
            maximum,
        })
    }

    /// The minimum beyond its curve's end `T_e`: `max(T) · min(T_e) / max(T_e)`, for capacity and power alike. **Our rule.**
    fn scaled_minimum(&self, minimum: &Curve<P>, maximum: P) -> P {
        let end = minimum.severe_end();
        match (minimum.at(end), self.maximum.at(end)) {
            (Some(at_end), Some(maximum_at_end)) => P::scaled_like(at_end, maximum_at_end, maximum),
            _ => maximum,
        }
    }
}
