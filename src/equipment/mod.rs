//! A heat pump as its published numbers describe it: who made it, what was measured, and the curves drawn through that.

mod curve;
mod curve_place;
mod fields;
mod model;
pub mod physics;
mod point;
mod source;
mod speeds;
#[cfg(test)]
pub(crate) mod testing;

pub use curve::{Continued, Curve, Interpolate, SevereSide};
pub use curve_place::CurvePlace;
pub use fields::{FieldKind, FieldValue, UNIT_FIELDS, UnitField, unit_field};
pub use model::{Form, Model};
pub use point::{FanBasis, FrostBasis, Mode, Point, Speed};
pub use source::{Source, SourceId, SourceKind};
pub use speeds::{ScaledLike, SpeedCurves, SpeedsAt, Turndown};

/// One catalog entry: the model and every point published for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Unit {
    /// What it is and what is declared of it as a whole.
    pub model: Model,
    /// Its performance points, in the order mode, speed, outdoor temperature, indoor condition.
    pub points: Vec<Point>,
}
