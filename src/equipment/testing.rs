//! Units for tests, written tersely: points by speed, and nothing else published. All of them are invented.

use super::{Form, Mode, Model, Point, SourceId, Speed, Unit};
use crate::quantity::{Celsius, Kilowatts};

const INVENTED: SourceId = SourceId(1);

/// A unit without any point.
pub(crate) fn unit(key: &str) -> Unit {
    Unit {
        model: Model::new(key, Form::Ducted, INVENTED),
        points: Vec::new(),
    }
}

impl Unit {
    /// With heating points at a speed: outdoor temperature \[°C\], capacity \[kW\], COP.
    pub(crate) fn heats(mut self, speed: Speed, points: &[(f64, f64, f64)]) -> Self {
        self.points.extend(
            points.iter().map(|&(outdoor, capacity, cop)| {
                point(Mode::Heating, speed, outdoor, capacity, cop)
            }),
        );
        self
    }

    /// With cooling points at a speed: outdoor temperature \[°C\], total capacity \[kW\], COP, sensible heat ratio.
    pub(crate) fn cools(mut self, speed: Speed, points: &[(f64, f64, f64, f64)]) -> Self {
        self.points
            .extend(points.iter().map(|&(outdoor, capacity, cop, ratio)| Point {
                sensible_heat_ratio: Some(ratio),
                ..point(Mode::Cooling, speed, outdoor, capacity, cop)
            }));
        self
    }

    /// With an operating limit in heating \[°C\].
    pub(crate) fn runs_to(mut self, limit: f64) -> Self {
        self.model.operates_to = Some(Celsius(limit));
        self
    }
}

fn point(mode: Mode, speed: Speed, outdoor: f64, capacity: f64, cop: f64) -> Point {
    Point::new(
        (mode, speed, Celsius(outdoor)),
        Kilowatts(capacity),
        Kilowatts(capacity / cop),
        INVENTED,
    )
}
